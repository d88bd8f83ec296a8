package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import lanemend.measure.Conversion;
import org.junit.jupiter.api.Test;

/** Grader, roller and trucks against published problems. */
class ProductionTest {
  private static final double MILE = Conversion.M_PER_MILE;
  private static final double MPH = Conversion.KMH_PER_MPH;

  /**
   * Twelve miles of gravel road, two passes at 3 mph, two at 4, one at 5, efficiency 0.83. The
   * problem is posted publicly (read); its answer by the formula of NAVEDTRA 14081 p. 10-15 (read)
   * is (8 + 6 + 2.4) / 0.83.
   */
  @Test
  void gradesTwelveMilesInNineteenPointEightHours() {
    double minutes =
        GraderTime.minutes(2, 12 * MILE, 3 * MPH, 0.83)
            + GraderTime.minutes(2, 12 * MILE, 4 * MPH, 0.83)
            + GraderTime.minutes(1, 12 * MILE, 5 * MPH, 0.83);

    assertEquals(19.76, minutes / 60, 0.005);
  }

  /**
   * Thirty km in three blade widths, two passes each at 6, 8 and 10 km/h, efficiency 0.75: 94.0 h
   * when each speed counts for itself, as NAVEDTRA 14081 asks, where the text-book extract at
   * civilatwork.blogspot.com (inputs read, hours worked) averages the speeds and gets 90.0.
   */
  @Test
  void sumsOverSpeedsInsteadOfAveragingThem() {
    double hours = 0;
    for (double kmh : new double[] {6, 8, 10}) {
      hours += GraderTime.minutes(3 * 2, 30_000, kmh, 0.75) / 60;
    }

    assertEquals(94.0, hours, 0.05);
  }

  /** FM 5-434, example after paragraph 11-26, as quoted by another work: 487 yd3/h. */
  @Test
  void compactsAsTheArmysExample() {
    assertEquals(487, yd3PerHour(5, 6, 6, 0.83, 5), 0.5);
  }

  /** FM 5-434 paragraph 11-26, as quoted: 1,500 loose yd3/h x 0.87 / 487 = 2.68 rollers. */
  @Test
  void needsThreeRollersInTheArmysExample() {
    assertEquals(2.68, 1500 * 0.87 / yd3PerHour(5, 6, 6, 0.83, 5), 0.005);
  }

  /** A posted exam solution at expertsmind.com (read): 489 compacted yd3/h in a 50-minute hour. */
  @Test
  void compactsAsAPostedProblem() {
    assertEquals(489, yd3PerHour(8, 3, 6, 50.0 / 60, 4), 0.5);
  }

  /** A PE-exam study note (read, weak): 66-in drum less 6 in, 45-minute hour, 275 yd3/h. */
  @Test
  void compactsAsAStudyNote() {
    assertEquals(275, yd3PerHour(5, 3, 6, 0.75, 4), 0.5);
  }

  /** The 16.3 of FM 5-434's formula stands for 5280 / 12 / 27. */
  @Test
  void carriesTheArmysConstant() {
    assertEquals(5280.0 / 12 / 27, yd3PerHour(1, 1, 1, 1, 1), 1e-9);
  }

  /**
   * FM 5-434 paragraph 10-10 example, as quoted: a cycle of 20.5 min loaded in 0.5 takes 42 trucks,
   * one of 21 min loaded in 1.0 takes 22.
   */
  @Test
  void countsTrucksAsTheArmysExample() {
    assertEquals(42, new TruckCycle(0.5, 8, 4, 8).trucksWithOneWaiting(0.5).value());
    assertEquals(22, new TruckCycle(1.0, 8, 4, 8).trucksWithOneWaiting(1.0).value());
  }

  /**
   * A study note (read, weak): loaded in 3.6 min, 5 miles out at 30 mph and back at 45, dumped in
   * 2, spotted in 1: a cycle of 23.27 min and 6.46 trucks, so 7 keep up.
   */
  @Test
  void balancesAFleet() {
    double out = TruckCycle.travelMinutes(5 * MILE, 30 * MPH);
    double back = TruckCycle.travelMinutes(5 * MILE, 45 * MPH);
    TruckCycle cycle = new TruckCycle(3.6, out, 3, back);

    assertEquals(23.27, cycle.minutes(), 0.005);
    assertEquals(6.46, cycle.minutes() / 3.6, 0.005);
    assertEquals(7, cycle.trucksToKeepUp(3.6).value());
  }

  /** FM 5-434 as quoted: 800 ft at 25 mph take 800 / (88 x 25) = 0.36 min. */
  @Test
  void drivesAsTheArmysExample() {
    assertEquals(0.36, TruckCycle.travelMinutes(800 * Conversion.M_PER_FT, 25 * MPH), 0.005);
  }

  /** An exact multiple is not rounded up by the last digit of a division. */
  @Test
  void doesNotOrderATruckForARoundingError() {
    assertEquals(3, new TruckCycle(0.1, 0.1, 0.05, 0.05).trucksToKeepUp(0.1).value());
  }

  /** A repair that takes 15 t/h uses up a load of 10 t in 40 minutes. */
  @Test
  void turnsALaydownRateIntoTheIntervalBetweenTrucks() {
    assertEquals(40, TruckCycle.placingIntervalMinutes(10, 15), 1e-9);
  }

  /** A 12-ft blade 30 degrees from square clears 12 cos 30 = 10.39 ft (plain geometry). */
  @Test
  void narrowsTheBladeByItsAngle() {
    double feet = BladeMotion.effectiveWidth(12, 30, 0);

    assertEquals(10.392, feet, 0.0005);
    assertThrows(IllegalArgumentException.class, () -> BladeMotion.effectiveWidth(12, 85, 1));
  }

  @Test
  void refusesTimesWithoutMeaning() {
    assertThrows(IllegalArgumentException.class, () -> GraderTime.minutes(1, 100, 0, 0.83));
    assertThrows(IllegalArgumentException.class, () -> GraderTime.minutes(1, 100, 5, 1.2));
    assertThrows(
        IllegalArgumentException.class, () -> new TruckCycle(5, Double.POSITIVE_INFINITY, 3, 10));
    String message =
        assertThrows(
                IllegalArgumentException.class,
                () -> new TruckCycle(5, 10, 3, 10).trucksToKeepUp(0))
            .getMessage();
    assertTrue(message.contains("more than 0 is expected"), message);
  }

  private static double yd3PerHour(double ft, double mph, double in, double e, double passes) {
    return RollerOutput.compactedM3PerHour(
            ft * Conversion.M_PER_FT, mph * MPH, in * Conversion.M_PER_IN, e, passes)
        / Conversion.M3_PER_YD3;
  }
}
