package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * One truck's round from plant to repair and back, in minutes, and how many trucks it takes by the
 * simple rule without queueing.
 *
 * @param loadMinutes at the plant
 * @param haulMinutes loaded
 * @param spotAndDumpMinutes at the repair
 * @param returnMinutes empty
 */
public record TruckCycle(
    double loadMinutes, double haulMinutes, double spotAndDumpMinutes, double returnMinutes) {
  private static final String SOURCE = "FM 5-434 paragraph 10-10 (as quoted by another work)";

  /** Rounding noise that must not call for one more truck. */
  private static final double TOLERANCE = 1e-9;

  /** Checks that no part is negative or unknown. */
  public TruckCycle {
    for (double part : new double[] {loadMinutes, haulMinutes, spotAndDumpMinutes, returnMinutes}) {
      if (!(part >= 0) || Double.isInfinite(part)) {
        throw new IllegalArgumentException(
            "a part of a truck cycle takes " + part + " minutes; 0 or more is expected");
      }
    }
  }

  /** Minutes of the whole round. */
  public double minutes() {
    return loadMinutes + haulMinutes + spotAndDumpMinutes + returnMinutes;
  }

  /** The whole round, traced. */
  public Figure cycle() {
    return new Figure(
        "truck cycle",
        minutes(),
        Unit.MINUTE,
        "load + haul + spot and dump + return",
        List.of(
            in("load", loadMinutes, Unit.MINUTE),
            in("haul", haulMinutes, Unit.MINUTE),
            in("spot and dump", spotAndDumpMinutes, Unit.MINUTE),
            in("return", returnMinutes, Unit.MINUTE)),
        SOURCE);
  }

  /**
   * Trucks with one always waiting, so that the slower of plant and grader never stands idle: 1 +
   * cycle / interval, rounded up.
   *
   * @param intervalMinutes between trucks at the slower end, loading or placing
   */
  public Figure trucksWithOneWaiting(double intervalMinutes) {
    return trucks(
        "trucks with one waiting", intervalMinutes, 1, "1 + cycle / interval, rounded up");
  }

  /**
   * Trucks that just keep up when every round takes its mean time: cycle / interval, rounded up.
   *
   * @param intervalMinutes between trucks at the slower end, loading or placing
   */
  public Figure trucksToKeepUp(double intervalMinutes) {
    return trucks("trucks to keep up", intervalMinutes, 0, "cycle / interval, rounded up");
  }

  /** Minutes in which the repair uses up one load at {@code tonnesPerHour}. */
  public static double placingIntervalMinutes(double payloadTonnes, double tonnesPerHour) {
    return payloadTonnes / tonnesPerHour * 60;
  }

  /** Minutes over {@code distanceM}: ft / (88 mph) in FM 5-434, here in SI. */
  public static double travelMinutes(double distanceM, double kmh) {
    return distanceM / (kmh * 1000 / 60);
  }

  private Figure trucks(String name, double intervalMinutes, int waiting, String formula) {
    if (!(intervalMinutes > 0)) {
      throw new IllegalArgumentException(
          "minutes between trucks are " + intervalMinutes + "; more than 0 is expected");
    }
    double count = waiting + minutes() / intervalMinutes;
    return new Figure(
        name,
        Math.max(1, Math.ceil(count - TOLERANCE)),
        Unit.COUNT,
        formula,
        List.of(cycle().asInput(), in("interval", intervalMinutes, Unit.MINUTE)),
        SOURCE);
  }
}
