package lanemend.store;

import java.time.LocalDate;

/**
 * Where an event lay on an earlier edition of its road.
 *
 * @param table the event's table
 * @param row the event's feature id there
 * @param key what people call the event
 * @param validTo first day it no longer lay there
 * @param turned left and right changed places that day
 * @param leftRoad from that day on it lies on no road
 */
record FormerPlace(
    String table,
    long row,
    String key,
    Stretch at,
    LocalDate validTo,
    boolean turned,
    boolean leftRoad) {

  /** A stretch of one edition of a route. */
  record Stretch(String routeId, int edition, double fromAlongM, double toAlongM) {}
}
