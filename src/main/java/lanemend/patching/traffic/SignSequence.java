package lanemend.patching.traffic;

import static lanemend.measure.Conversion.M_PER_FT;
import static lanemend.patching.Trace.in;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Unit;
import lanemend.patching.RoadSetting;
import lanemend.patching.Trace;
import lanemend.patching.TrafficSettings;
import lanemend.patching.traffic.TrafficPlan.SignPlacement;

/** Advance signs in MUTCD names, in the order a driver meets them; codes where we are sure. */
final class SignSequence {
  private static final String ROAD_WORK = "ROAD WORK AHEAD (W20-1)";
  private static final String END = "END ROAD WORK (G20-2)";
  private static final String LOWER = "traffic from lower mileposts";
  private static final String HIGHER = "traffic from higher mileposts";

  /** END ROAD WORK stands up to 500 ft past the work (common practice). */
  private static final double END_PAST_M = 500 * M_PER_FT;

  private final TrafficSettings.SignSpacing table;

  SignSequence(TrafficSettings.SignSpacing table) {
    this.table = table;
  }

  List<SignPlacement> place(Trace trace, Closure closure, RoadSetting setting, Layout layout) {
    double[] spacing = Mutcd.signSpacingM(setting, table);
    String[] names = {"sign spacing A", "sign spacing B", "sign spacing C"};
    for (int i = 0; i < 3; i++) {
      trace.add(
          names[i],
          spacing[i],
          Unit.METER,
          "by class, urban or rural, and posted speed; A is nearest the work",
          Mutcd.SIGN_SOURCE,
          in("posted speed", setting.postedKmh(), Unit.KM_PER_HOUR));
    }
    List<SignPlacement> signs = new ArrayList<>();
    List<String> approaches =
        setting.oneDirection() ? List.of("approaching traffic") : List.of(LOWER, HIGHER);
    for (String approach : approaches) {
      signs.addAll(approach(approach, ahead(closure), spacing, layout));
    }
    if (closure == Closure.LANE_CLOSED && !setting.oneDirection()) {
      // The side that keeps all its lanes needs to know of the work only.
      return oneSideOnly(signs, spacing, layout);
    }
    return signs;
  }

  /** From the work outwards. */
  private static List<String> ahead(Closure closure) {
    return switch (closure) {
      case ALTERNATING ->
          List.of(
              "flagger symbol (W20-7)",
              "BE PREPARED TO STOP (W3-4)",
              "ONE LANE ROAD AHEAD (W20-4)",
              ROAD_WORK);
      case LANE_CLOSED ->
          List.of(
              "lane ends symbol (W4-2), left or right as the lane closed",
              "LEFT or RIGHT LANE CLOSED AHEAD (W20-5), as the lane closed",
              ROAD_WORK);
      case SHIFTED, ON_SHOULDER ->
          List.of("reverse curve symbol (W1-4), towards the shift", ROAD_WORK);
      case ROAD_CLOSED -> List.of("ROAD CLOSED AHEAD (W20-3)", "DETOUR AHEAD (W20-2)", ROAD_WORK);
    };
  }

  private static List<SignPlacement> approach(
      String approach, List<String> outward, double[] spacing, Layout layout) {
    List<SignPlacement> signs = new ArrayList<>();
    double before = 0;
    for (int i = 0; i < outward.size(); i++) {
      before += gap(spacing, i, outward.size());
      signs.add(0, new SignPlacement(approach, outward.get(i), before));
    }
    signs.add(new SignPlacement(approach, END, -(layout.closureM() + END_PAST_M)));
    return signs;
  }

  /** A before the nearest sign, C before the farthest, B between. */
  private static double gap(double[] spacing, int i, int signs) {
    if (i == 0) {
      return spacing[0];
    }
    return i == signs - 1 && signs > 2 ? spacing[2] : spacing[1];
  }

  private static List<SignPlacement> oneSideOnly(
      List<SignPlacement> both, double[] spacing, Layout layout) {
    List<SignPlacement> signs = new ArrayList<>();
    for (SignPlacement sign : both) {
      if (sign.approach().equals(LOWER)) {
        signs.add(new SignPlacement("traffic towards the work", sign.sign(), sign.beforeWorkM()));
      }
    }
    signs.add(new SignPlacement("traffic on the other side", ROAD_WORK, spacing[0]));
    signs.add(
        new SignPlacement("traffic on the other side", END, -(layout.closureM() + END_PAST_M)));
    return signs;
  }
}
