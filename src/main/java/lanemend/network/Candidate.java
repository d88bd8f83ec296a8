package lanemend.network;

/**
 * One honest answer to 'which road is this point on?'.
 *
 * @param place foot of the point on the route; its offset is the signed distance of the point
 * @param distanceM from the point to the centreline
 * @param confidence share of belief among all candidates of the same point, 0 to 1
 */
public record Candidate(RoadPoint place, double distanceM, double confidence) {}
