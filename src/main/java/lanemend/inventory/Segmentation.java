package lanemend.inventory;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.network.Network;
import lanemend.network.Route;

/**
 * Dynamic segmentation: event tables laid over each other and cut into the longest pieces over
 * which none of them changes.
 *
 * <ul>
 *   <li>A stretch holds from its start up to, but not at, its end. Pieces follow each other without
 *       hole or overlap over every part of the route's centreline, also where nothing is known;
 *       none reaches across a gap between parts or past the route's end.
 *   <li>Where stretches of a one-value table overlap, the piece takes the value of the one that
 *       starts last (of those that start together, the last in the list), as {@link RoadAttributes}
 *       does; if the values differ, the overlap is a conflict. A table of several values gives all
 *       its different values, sorted, with semicolons between.
 *   <li>A spot (from = to) cuts nothing: it comes out as a segment without length after the piece
 *       in which it lies, with that piece's values and its own on top. On a border it belongs to
 *       the piece that begins there, at the end of a part to the piece that ends there.
 * </ul>
 *
 * <p>Cost: O(n log n) for n events of a route, and the values of each segment written out.
 *
 * @param segments by route, then by growing along
 * @param conflicts by route, then by the along at which they end
 * @param offRoad events of which no metre lies on the route: in a gap, past its end, or on a route
 *     that does not exist
 */
public record Segmentation(
    List<Segment> segments, List<EventConflict> conflicts, List<OffRoad> offRoad) {

  /** An event that could not be laid on a road. */
  public record OffRoad(String routeId, LinearEvent event) {}

  /**
   * Segments one route.
   *
   * @throws IllegalArgumentException when a table is named twice or an event names another table
   */
  public static Segmentation of(Route route, List<EventTable> tables, List<LinearEvent> events) {
    checkTables(tables);
    SegmentSweep sweep = new SegmentSweep(route, tables, events);
    return sweep.run();
  }

  /**
   * Segments every route of a network.
   *
   * @param eventsByRoute events under their route's id; a route without any comes out whole
   * @throws IllegalArgumentException when a table is named twice or an event names another table
   */
  public static Segmentation of(
      Network network, List<EventTable> tables, Map<String, List<LinearEvent>> eventsByRoute) {
    List<Segment> segments = new ArrayList<>();
    List<EventConflict> conflicts = new ArrayList<>();
    List<OffRoad> offRoad = new ArrayList<>();
    for (Route route : network.routes().values()) {
      Segmentation one = of(route, tables, eventsByRoute.getOrDefault(route.id(), List.of()));
      segments.addAll(one.segments());
      conflicts.addAll(one.conflicts());
      offRoad.addAll(one.offRoad());
    }
    eventsByRoute.forEach(
        (routeId, events) -> {
          if (network.route(routeId).isEmpty()) {
            events.forEach(e -> offRoad.add(new OffRoad(routeId, e)));
          }
        });
    return new Segmentation(segments, conflicts, offRoad);
  }

  private static void checkTables(List<EventTable> tables) {
    Set<String> names = new HashSet<>();
    for (EventTable table : tables) {
      if (!names.add(table.name())) {
        throw new IllegalArgumentException("the event table " + table.name() + " is named twice");
      }
    }
  }
}
