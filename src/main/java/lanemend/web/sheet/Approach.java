package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.ZoneAxis;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.network.Side;
import lanemend.patching.RoadSign;
import lanemend.patching.traffic.TrafficApproach;
import lanemend.patching.traffic.TrafficPlan;

/**
 * The signs one stream of traffic meets, farthest first, with the number each carries on the strip
 * and in the list.
 *
 * @param fromLowerAlong true when this traffic comes from the start of the route
 */
record Approach(String name, boolean fromLowerAlong, List<Sign> signs) {

  /**
   * One sign and its number within the zone.
   *
   * @param beforeWorkM ahead of the restriction; negative for a sign that stands past it
   * @param alongM where it stands along the route
   * @param boards 2 where it stands at both edges
   */
  record Sign(int number, RoadSign sign, double beforeWorkM, double alongM, int boards) {
    boolean past() {
      return beforeWorkM < 0;
    }
  }

  Approach {
    signs = List.copyOf(signs);
  }

  /** Every approach of a zone, in the order of the plan. */
  static List<Approach> of(WorkZone zone, boolean milepostsGrow) {
    Map<TrafficApproach, List<TrafficPlan.SignPlacement>> met = new LinkedHashMap<>();
    for (TrafficPlan.SignPlacement sign : zone.traffic().signs()) {
      met.computeIfAbsent(sign.approach(), k -> new ArrayList<>()).add(sign);
    }
    List<Approach> approaches = new ArrayList<>();
    ZoneAxis axis = ZoneAxis.of(zone);
    int number = 0;
    for (Map.Entry<TrafficApproach, List<TrafficPlan.SignPlacement>> entry : met.entrySet()) {
      boolean fromLower = fromLowerAlong(entry.getKey(), zone, milepostsGrow);
      List<Sign> signs = new ArrayList<>();
      for (TrafficPlan.SignPlacement sign : entry.getValue()) {
        double along = axis.signAlongM(fromLower == axis.withAlong(), sign.beforeWorkM());
        signs.add(new Sign(++number, sign.sign(), sign.beforeWorkM(), along, sign.boards()));
      }
      approaches.add(new Approach(entry.getKey().words(), fromLower, signs));
    }
    return approaches;
  }

  /** Which end this traffic comes from; on a one-way roadway all runs with growing along. */
  private static boolean fromLowerAlong(
      TrafficApproach approach, WorkZone zone, boolean milepostsGrow) {
    return switch (approach) {
      case LOWER_MILEPOSTS -> milepostsGrow;
      case HIGHER_MILEPOSTS -> !milepostsGrow;
      case TOWARDS_WORK -> zone.side().first() == Side.RIGHT;
      case OTHER_SIDE -> zone.side().first() == Side.LEFT;
      case ONE_WAY -> true;
    };
  }

  /** A length the strip shows as part of the lane closure: the first that ends on this word. */
  static Optional<Figure> length(TrafficPlan plan, String word) {
    return plan.figures().stream()
        .filter(f -> f.unit() == Unit.METER && f.name().endsWith(word))
        .filter(f -> f.name().contains("downstream") == word.contains("downstream"))
        .findFirst();
  }
}
