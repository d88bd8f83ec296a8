package lanemend.network;

import java.time.Instant;
import java.util.List;

/**
 * A stretch a patrol drove without turning round.
 *
 * @param routes the route driven; where routes run together all of them, the one the patrol
 *     followed first if that is told; empty on roads without a route name
 * @param told false where routes run together and nothing says which of them was patrolled
 * @param from when it was entered, or null without times
 * @param lengthM driven, ground metres
 * @param belief share of belief in this road against every other near the track, 0 to 1
 * @param clear false where another road cannot be ruled out; see {@code others}
 * @param others what else it may have been, most believed first
 */
public record DrivenStretch(
    List<RouteSpan> routes,
    boolean told,
    Instant from,
    Instant to,
    double lengthM,
    double belief,
    boolean clear,
    List<OtherRoad> others) {

  public DrivenStretch {
    routes = List.copyOf(routes);
    others = List.copyOf(others);
  }

  /**
   * A road a stretch may have been on instead.
   *
   * @param routeId empty for a road without a route name
   * @param belief the most it is believed anywhere on the stretch
   */
  public record OtherRoad(String routeId, double alongM, double belief) {}
}
