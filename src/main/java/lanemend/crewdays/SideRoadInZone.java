package lanemend.crewdays;

import java.util.ArrayList;
import java.util.List;
import lanemend.network.SideRoad;
import lanemend.patching.traffic.Layout;
import lanemend.patching.traffic.Stretch;
import lanemend.patching.traffic.TrafficPlan;

/**
 * A road that opens on a work zone, from which drivers come who have not passed all its signs.
 *
 * @param where along the zone it opens
 * @param advice what to do about it, a sentence for the sheet
 */
public record SideRoadInZone(SideRoad road, Where where, String advice) {

  /** Where a side road opens. */
  public enum Where {
    /** On the stretch that is narrowed or closed. */
    CLOSURE,
    /** Past the first sign, ahead of the closure. */
    PAST_SIGNS
  }

  /** Why side roads inside a stretch driven by turns matter. */
  public static final String SOURCE =
      "Missouri DOT EPG 616.5.1, read; signs on them: common practice, no source";

  /** Side roads of a zone's route that matter to it, by growing along. */
  public static List<SideRoadInZone> of(WorkZone zone, List<SideRoad> roads) {
    TrafficPlan plan = zone.traffic();
    if (plan.choice().situation().moving()) {
      return List.of();
    }
    Layout layout = plan.layout();
    ZoneAxis axis = ZoneAxis.of(zone);
    double taper = layout.stretches().stream().mapToDouble(Stretch::fromM).min().orElse(0);
    double start = axis.alongM(taper);
    double end = axis.alongM(layout.closureM());
    boolean byTurns = plan.choice().situation().byTurns();
    double signed =
        plan.signs().stream().mapToDouble(TrafficPlan.SignPlacement::beforeWorkM).max().orElse(0);
    // One way of traffic only meets signs where the other is not narrowed.
    boolean bothWays =
        plan.signs().stream().map(TrafficPlan.SignPlacement::approach).distinct().count() > 1;
    double first = axis.signAlongM(true, Math.max(signed, 0));
    double last = bothWays ? axis.signAlongM(false, Math.max(signed, 0)) : end;
    List<SideRoadInZone> found = new ArrayList<>();
    for (SideRoad road : roads) {
      if (between(road.alongM(), start, end)) {
        found.add(new SideRoadInZone(road, Where.CLOSURE, inClosure(byTurns)));
      } else if (between(road.alongM(), first, last)) {
        found.add(
            new SideRoadInZone(
                road, Where.PAST_SIGNS, "its drivers miss the first signs: W20-1 on it"));
      }
    }
    return found;
  }

  private static String inClosure(boolean byTurns) {
    return byTurns
        ? "opens on the stretch driven by turns: a flagger of its own here, in touch with the"
            + " others, or closed as its owner allows; W20-1 on it"
        : "opens beside the closed lane: devices so that nobody turns into it; W20-1 on it";
  }

  private static boolean between(double at, double a, double b) {
    return at >= Math.min(a, b) && at <= Math.max(a, b);
  }
}
