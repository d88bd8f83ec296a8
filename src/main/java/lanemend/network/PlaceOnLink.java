package lanemend.network;

/**
 * A place on a link, with what it takes to leave it and to come to it by either end. Minutes are
 * infinite where a one-way link forbids it.
 *
 * @param fromMinutes along the link from its start to the place
 * @param toMinutes on from the place to the link's end
 */
record PlaceOnLink(
    int link,
    int from,
    int to,
    boolean oneWay,
    double along,
    double fromMinutes,
    double toMinutes,
    double fromKm,
    double toKm) {

  static PlaceOnLink of(int number, HaulGraph.Link link, double along, TravelTable travel) {
    double fromMinutes = travel.minutes(link.fromAlong(), along);
    return new PlaceOnLink(
        number,
        link.from(),
        link.to(),
        link.oneWay(),
        along,
        fromMinutes,
        travel.minutes(link.fromAlong(), link.toAlong()) - fromMinutes,
        (along - link.fromAlong()) / 1000,
        (link.toAlong() - along) / 1000);
  }

  /** From the place back to the link's start; a place in the junction there may always leave. */
  double leaveByStart() {
    return oneWay && fromKm > 0 ? Double.POSITIVE_INFINITY : fromMinutes;
  }

  double leaveByEnd() {
    return toMinutes;
  }

  double comeByStart() {
    return fromMinutes;
  }

  /** From the link's end back to the place; a place in the junction there is always reached. */
  double comeByEnd() {
    return oneWay && toKm > 0 ? Double.POSITIVE_INFINITY : toMinutes;
  }

  /** True when the way along the one link they share may be driven to the other place. */
  boolean leadsTo(PlaceOnLink other) {
    return link == other.link && (!oneWay || along <= other.along);
  }
}
