package lanemend.exchange;

import java.util.OptionalDouble;

/**
 * A row of a posts file.
 *
 * @param backMiles the post's number; at an equation the one before it
 * @param aheadMiles the same, or at an equation the one after it
 * @param distanceM ground metres from the start of the route, when given in place of coordinates
 */
public record RawPost(
    RowOrigin origin,
    String route,
    String direction,
    double backMiles,
    double aheadMiles,
    OptionalDouble longitude,
    OptionalDouble latitude,
    OptionalDouble distanceM) {}
