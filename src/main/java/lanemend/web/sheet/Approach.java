package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.crewdays.WorkZone;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.network.Side;
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
   */
  record Sign(int number, String text, double beforeWorkM) {
    boolean past() {
      return beforeWorkM < 0;
    }
  }

  Approach {
    signs = List.copyOf(signs);
  }

  /** Every approach of a zone, in the order of the plan. */
  static List<Approach> of(WorkZone zone, boolean milepostsGrow) {
    Map<String, List<TrafficPlan.SignPlacement>> byName = new LinkedHashMap<>();
    for (TrafficPlan.SignPlacement sign : zone.traffic().signs()) {
      byName.computeIfAbsent(sign.approach(), k -> new ArrayList<>()).add(sign);
    }
    List<Approach> approaches = new ArrayList<>();
    int number = 0;
    for (Map.Entry<String, List<TrafficPlan.SignPlacement>> entry : byName.entrySet()) {
      List<Sign> signs = new ArrayList<>();
      for (TrafficPlan.SignPlacement sign : entry.getValue()) {
        signs.add(new Sign(++number, sign.sign().text(), sign.beforeWorkM()));
      }
      boolean fromLower = fromLowerAlong(entry.getKey(), zone, milepostsGrow);
      approaches.add(new Approach(entry.getKey(), fromLower, signs));
    }
    return approaches;
  }

  /**
   * Which end this traffic comes from: said by mileposts, or by the side of the work. On a one-way
   * roadway all of it runs with growing along.
   */
  private static boolean fromLowerAlong(String name, WorkZone zone, boolean milepostsGrow) {
    if (name.contains("lower") || name.contains("higher")) {
      return name.contains("lower") == milepostsGrow;
    }
    if (zone.repairs().get(0).setting().oneDirection()) {
      return true;
    }
    return name.contains("other side") == (zone.side() == Side.LEFT);
  }

  /** A length the strip shows as part of the lane closure: the first that ends on this word. */
  static Optional<Figure> length(TrafficPlan plan, String word) {
    return plan.figures().stream()
        .filter(f -> f.unit() == Unit.METER && f.name().endsWith(word))
        .filter(f -> f.name().contains("downstream") == word.contains("downstream"))
        .findFirst();
  }
}
