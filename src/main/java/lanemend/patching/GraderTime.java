package lanemend.patching;

import static lanemend.patching.Trace.in;

import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * Time of a machine that works in passes: T = P D / (S E), worked out for each operation at its own
 * speed and summed. Source: NAVEDTRA 14081 p. 10-15 (read); US Army FM 5-434 chapter 4 (from
 * memory).
 */
public final class GraderTime {
  static final String FORMULA = "P D / (S E)";
  static final String SOURCE = "NAVEDTRA 14081 p. 10-15 (read); FM 5-434 chapter 4 (from memory)";

  private GraderTime() {}

  /**
   * Minutes for {@code passes} of {@code distanceM} each.
   *
   * @param efficiency minutes worked in each minute, above 0 and at most 1
   */
  public static double minutes(double passes, double distanceM, double kmh, double efficiency) {
    if (!(kmh > 0) || !(efficiency > 0 && efficiency <= 1)) {
      throw new IllegalArgumentException(
          "speed " + kmh + " km/h, efficiency " + efficiency + ": above 0, and 1 at most expected");
    }
    return passes * distanceM / (kmh * 1000 / 60 * efficiency);
  }

  static Figure.Input[] inputs(double passes, double distanceM, double kmh, double efficiency) {
    return new Figure.Input[] {
      in("passes P", passes, Unit.COUNT),
      in("distance of a pass D", distanceM, Unit.METER),
      in("speed S", kmh, Unit.KM_PER_HOUR),
      in("efficiency E", efficiency, Unit.RATIO)
    };
  }
}
