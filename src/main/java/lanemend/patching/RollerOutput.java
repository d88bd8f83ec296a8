package lanemend.patching;

/**
 * Compacted volume a roller makes in an hour: 16.3 W S L E / P in yd3 with W in ft, S in mph, L in
 * inches (16.3 stands for 5280 / 12 / 27), here in SI. Source: US Army FM 5-434 chapter 11,
 * paragraph 11-24, as quoted by another work.
 */
public final class RollerOutput {
  static final String FORMULA = "W S L E / P (16.3 W S L E / P in ft, mph, in, yd3)";
  static final String SOURCE = "FM 5-434 paragraph 11-24 (as quoted by another work)";

  private RollerOutput() {}

  /**
   * Compacted m3 in an hour.
   *
   * @param widthM compacted width of a pass
   * @param liftM compacted thickness of the lift
   * @param passes over each strip
   */
  public static double compactedM3PerHour(
      double widthM, double kmh, double liftM, double efficiency, double passes) {
    if (!(passes > 0)) {
      throw new IllegalArgumentException("roller passes " + passes + ": above 0 expected");
    }
    return widthM * kmh * 1000 * liftM * efficiency / passes;
  }
}
