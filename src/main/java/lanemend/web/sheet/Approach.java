package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lanemend.crewdays.WorkZone;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.patching.TrafficPlan;

/**
 * The signs one stream of traffic meets, farthest first, with the number each carries on the strip
 * and in the list.
 *
 * @param fromLowerAlong true when this traffic comes from the start of the route
 */
record Approach(String name, boolean fromLowerAlong, List<Sign> signs) {

  /** One sign and its number within the zone. */
  record Sign(int number, String text, double beforeWorkM) {}

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
        signs.add(new Sign(++number, sign.sign(), sign.beforeWorkM()));
      }
      boolean lower = !entry.getKey().contains("higher");
      approaches.add(new Approach(entry.getKey(), lower == milepostsGrow, signs));
    }
    return approaches;
  }

  /** Lengths the strip shows as part of the lane closure: {@code taper} or {@code buffer}. */
  static List<Figure> lengths(TrafficPlan plan, String word) {
    return plan.figures().stream()
        .filter(f -> f.unit() == Unit.METER && f.name().contains(word))
        .filter(f -> !f.name().contains("spacing") && !f.name().contains("downstream"))
        .toList();
  }
}
