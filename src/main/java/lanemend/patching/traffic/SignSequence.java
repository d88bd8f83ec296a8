package lanemend.patching.traffic;

import static lanemend.measure.Conversion.M_PER_FT;
import static lanemend.patching.Trace.in;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Unit;
import lanemend.patching.RoadSetting;
import lanemend.patching.RoadSign;
import lanemend.patching.Trace;
import lanemend.patching.TrafficSettings;
import lanemend.patching.traffic.TrafficPlan.SignPlacement;

/**
 * Signs of a situation in the order a driver meets them. A, the distance from the restriction to
 * the first sign, B and C are those of table 6B-1; a regulatory sign (R) stands at the restriction.
 */
final class SignSequence {
  /** END ROAD WORK stands up to 500 ft past the work (common practice). */
  private static final double END_PAST_M = 500 * M_PER_FT;

  private final TrafficSettings traffic;

  SignSequence(TrafficSettings traffic) {
    this.traffic = traffic;
  }

  /** True where both directions of a two-way road meet the same signs. */
  boolean alike(Situation situation) {
    return ahead(situation).equals(others(situation));
  }

  private List<RoadSign> ahead(Situation situation) {
    List<RoadSign> own = traffic.agency().of(situation.key()).ahead();
    return own.isEmpty() ? situation.ahead() : own;
  }

  private List<RoadSign> others(Situation situation) {
    List<RoadSign> own = traffic.agency().of(situation.key()).others();
    return own.isEmpty() ? situation.others() : own;
  }

  List<SignPlacement> place(Trace trace, Situation situation, ZoneWork work, Layout layout) {
    RoadSetting road = work.setting();
    List<RoadSign> ahead = ahead(situation);
    List<RoadSign> others = others(situation);
    List<SignPlacement> signs = new ArrayList<>();
    if (ahead.isEmpty()) {
      return signs;
    }
    double[] spacing = spacing(trace, road);
    boolean bothEdges = road.oneDirection() && situation.passing() != Passing.BESIDE;
    boolean right = work.onTheRight();
    if (road.oneDirection()) {
      signs.addAll(
          approach(TrafficApproach.ONE_WAY, ahead, spacing, layout, right, bothEdges ? 2 : 1));
    } else {
      boolean same = ahead.equals(others);
      TrafficApproach one = same ? TrafficApproach.LOWER_MILEPOSTS : TrafficApproach.TOWARDS_WORK;
      signs.addAll(approach(one, ahead, spacing, layout, right, 1));
      if (!others.isEmpty()) {
        TrafficApproach two = same ? TrafficApproach.HIGHER_MILEPOSTS : TrafficApproach.OTHER_SIDE;
        signs.addAll(approach(two, others, spacing, layout, right, 1));
      }
    }
    if (situation.passing() == Passing.MOVING) {
      signs.removeIf(s -> s.sign().equals(Signs.END));
    }
    return signs;
  }

  private double[] spacing(Trace trace, RoadSetting road) {
    double[] spacing = Mutcd.signSpacingM(road, traffic.signSpacing());
    String[] names = {"sign spacing A", "sign spacing B", "sign spacing C"};
    for (int i = 0; i < names.length; i++) {
      trace.add(
          names[i],
          spacing[i],
          Unit.METER,
          "by class, urban or rural, and posted speed; A is nearest the work",
          Mutcd.SIGN_SOURCE,
          in("posted speed", road.postedKmh(), Unit.KM_PER_HOUR));
    }
    return spacing;
  }

  private static List<SignPlacement> approach(
      TrafficApproach approach,
      List<RoadSign> outward,
      double[] spacing,
      Layout layout,
      boolean right,
      int boards) {
    List<SignPlacement> signs = new ArrayList<>();
    int warnings = (int) outward.stream().filter(s -> !atTheRestriction(s)).count();
    double before = 0;
    int warning = 0;
    for (RoadSign sign : outward) {
      if (!atTheRestriction(sign)) {
        before += gap(spacing, warning, warnings);
        warning++;
      }
      signs.add(0, new SignPlacement(approach, sign.on(right), before, boards));
    }
    signs.add(new SignPlacement(approach, Signs.END, -(layout.closureM() + END_PAST_M), boards));
    return signs;
  }

  private static boolean atTheRestriction(RoadSign sign) {
    return sign.code().startsWith("R");
  }

  /** A before the nearest sign, C before the farthest, B between. */
  private static double gap(double[] spacing, int i, int signs) {
    if (i == 0) {
      return spacing[0];
    }
    return i == signs - 1 && signs > 2 ? spacing[2] : spacing[1];
  }
}
