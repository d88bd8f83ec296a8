package lanemend.sample;

import java.util.List;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.sample.Draft.Kind;

/** What a patrol measures: kind, severity and size, as likely as the road makes them. */
record Distress(
    DefectKind kind, Severity severity, double lengthFt, double widthFt, double depthIn) {

  private static final List<DefectKind> KINDS =
      List.of(
          DefectKind.POTHOLE,
          DefectKind.ALLIGATOR_CRACKING,
          DefectKind.RUTTING,
          DefectKind.SHOVING,
          DefectKind.EDGE_BREAK,
          DefectKind.DEPRESSION,
          DefectKind.RAVELLING,
          DefectKind.BLOCK_CRACKING,
          DefectKind.LONGITUDINAL_CRACKING,
          DefectKind.TRANSVERSE_CRACKING);

  private static final List<Severity> SEVERITIES =
      List.of(Severity.LOW, Severity.MEDIUM, Severity.HIGH);

  private static final double[] STATE = {30, 20, 13, 6, 6, 8, 5, 2, 6, 4};
  private static final double[] COUNTY = {35, 20, 6, 2, 17, 8, 5, 2, 3, 2};
  private static final double[] WEAK = {20, 36, 16, 5, 5, 14, 2, 1, 1, 0};

  static Distress draw(Roadway road, RoadFacts facts, boolean weak, Dice dice) {
    boolean state = road.kind() == Kind.STATE || road.kind() == Kind.FREEWAY;
    DefectKind kind = KINDS.get(dice.pick(weak ? WEAK : state ? STATE : COUNTY));
    Severity severity =
        SEVERITIES.get(weak ? dice.pick(0.12, 0.45, 0.43) : dice.pick(0.28, 0.46, 0.26));
    return sized(kind, severity, facts.laneWidthFt(), dice);
  }

  /** Sizes in feet, depth in inches; {@code lane} is the widest a defect of one lane can be. */
  private static Distress sized(DefectKind kind, Severity severity, double lane, Dice dice) {
    int s = SEVERITIES.indexOf(severity);
    double wheelPath = dice.uniform(2.5, 5);
    double some = dice.uniform(4, lane);
    return switch (kind) {
      case POTHOLE ->
          of(
              kind,
              severity,
              dice.lognormal(1.6 + s, 0.35),
              dice.lognormal(1.3 + 0.8 * s, 0.3),
              dice.uniform(1.2 + 0.8 * s, 2 + 1.4 * s),
              lane);
      case ALLIGATOR_CRACKING ->
          of(kind, severity, dice.lognormal(20 + 14 * s, 0.55), some, 0.5 * s, lane);
      case RUTTING ->
          of(
              kind,
              severity,
              dice.lognormal(70 + 35 * s, 0.55),
              wheelPath,
              dice.uniform(0.4 + 0.5 * s, 0.8 + 0.6 * s),
              lane);
      case SHOVING ->
          of(kind, severity, dice.uniform(10, 45), some, dice.uniform(0.75, 1.5 + 0.5 * s), lane);
      case EDGE_BREAK ->
          of(
              kind,
              severity,
              dice.lognormal(24 + 12 * s, 0.6),
              dice.uniform(0.7, 1.2 + 0.9 * s),
              dice.uniform(1, 2 + s),
              lane);
      case DEPRESSION ->
          of(
              kind,
              severity,
              dice.uniform(8, 40),
              some,
              dice.uniform(0.6 + 0.5 * s, 1.2 + 0.7 * s),
              lane);
      case RAVELLING -> of(kind, severity, dice.lognormal(90, 0.5), lane, 0.25 + 0.25 * s, lane);
      case BLOCK_CRACKING -> of(kind, severity, dice.lognormal(110, 0.4), lane, 0, lane);
      case LONGITUDINAL_CRACKING -> of(kind, severity, dice.lognormal(130, 0.6), 0.5, 0, lane);
      case TRANSVERSE_CRACKING -> of(kind, severity, 0.5 + 0.5 * s, lane, 0, lane);
    };
  }

  private static Distress of(
      DefectKind kind,
      Severity severity,
      double lengthFt,
      double widthFt,
      double depthIn,
      double lane) {
    double length = StrictMath.min(500, StrictMath.max(0.5, round(lengthFt, 0.5)));
    double width = StrictMath.min(lane, StrictMath.max(0.5, round(widthFt, 0.5)));
    return new Distress(kind, severity, length, width, round(depthIn, 0.25));
  }

  private static double round(double value, double unit) {
    return StrictMath.rint(value / unit) * unit;
  }
}
