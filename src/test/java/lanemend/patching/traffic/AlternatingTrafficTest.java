package lanemend.patching.traffic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import lanemend.measure.Conversion;
import lanemend.patching.Bad;
import lanemend.patching.Trace;
import lanemend.patching.TrafficSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Flagging delay by HCM 7th edition chapter 26 appendix B. */
class AlternatingTrafficTest {
  private static final double FT = Conversion.M_PER_FT;
  private final AlternatingTraffic traffic =
      new AlternatingTraffic(TrafficSettings.Delay.standard());

  /** Its step 4 (read): 0.0375 s a foot held between 20 and 60 s; the example's 1,000 ft: 37.5. */
  @ParameterizedTest
  @CsvSource({"1000, 37.5", "533, 20", "300, 20", "1600, 60", "3000, 60"})
  void greenByTheLengthOfTheClosure(double feet, double seconds) {
    assertEquals(seconds, traffic.cycle(50, feet * FT).greenSeconds(), 0.02);
  }

  /** Exhibit 26-B4 for level ground (read). */
  @ParameterizedTest
  @CsvSource({"50, 1.9", "100, 1.9", "200, 1.5", "300, 1.4", "450, 1.25", "900, 1.0", "2000, 1.0"})
  void countsTrucksAsCars(double flow, double cars) {
    assertEquals(cars, AlternatingTraffic.truckCars(flow), 1e-9);
  }

  /** Base headway 3,600 / 1,900 = 1.89 s (read). */
  @Test
  void releasesNineteenHundredCarsAnHour() {
    assertEquals(1900, traffic.cycle(100, 300).saturation(), 1e-9);
    assertEquals(1.89, TrafficSettings.Delay.standard().headwaySeconds(), 0.005);
  }

  /**
   * The example's length and demand (1,000 ft, 460 cars an hour each way, read) are served without
   * a growing queue, as it concludes; cycle by hand at our 25 mph: 2 G + 2 x 1000 / 36.67 + 4.
   */
  @Test
  void servesTheExamplesTraffic() {
    AlternatingTraffic.Cycle cycle = traffic.cycle(460, 1000 * FT);

    assertTrue(cycle.use() < 1, "use " + cycle.use());
    assertEquals(
        2 * cycle.greenSeconds() + 2000 / (25 * 5280 / 3600.0) + 4, cycle.cycleSeconds(), 1e-6);
  }

  /**
   * The uniform delay is the area under the queue: cars counted second by second through one cycle
   * must give the closed form (own sum).
   */
  @Test
  void uniformDelayIsTheAreaUnderTheQueue() {
    AlternatingTraffic.Cycle cycle = traffic.cycle(300, 1000 * FT);
    double step = 0.001;
    double queue = 0;
    double waited = 0;
    for (double t = 0; t < cycle.cycleSeconds(); t += step) {
      boolean green = t > cycle.cycleSeconds() - cycle.greenSeconds();
      queue += cycle.demand() / 3600 * step - (green ? cycle.saturation() / 3600 * step : 0);
      queue = Math.max(0, queue);
      waited += queue * step;
    }
    double perCar = waited / (cycle.demand() / 3600 * cycle.cycleSeconds());

    assertEquals(perCar, cycle.uniformDelaySeconds(), 0.05);
  }

  /** More traffic than one lane can carry: the wait grows with the hours worked. */
  @Test
  void overloadedTrafficWaitsLongerTheLongerTheWorkLasts() {
    AlternatingTraffic.Cycle cycle = traffic.cycle(1200, 1000 * FT);

    assertTrue(cycle.use() > 1);
    assertEquals(180, cycle.greenSeconds(), 1e-9);
    // Deterministic queueing: a mean wait of T (X - 1) / 2, the random part adds little.
    double hours = 4;
    double wait = hours * 3600 * (cycle.use() - 1) / 2;
    assertEquals(wait, cycle.randomDelaySeconds(hours), wait * 0.02);
  }

  @Test
  void delayGrowsWithTrafficAndLength() {
    double last = 0;
    for (double aadt : new double[] {200, 1000, 3000, 6000, 9000, 15000}) {
      double delay = hourly(aadt, 300);
      assertTrue(delay > last, aadt + " veh/day");
      last = delay;
    }
    assertTrue(hourly(3000, 600) > hourly(3000, 300));
    assertEquals(0, hourly(0, 300), 1e-9);
  }

  private double hourly(double aadt, double closureM) {
    return traffic.trace(new Trace(), Bad.twoLane(55, aadt), closureM, 120).value();
  }

  /**
   * Webster's cycle of least delay in worked examples posted publicly (read): L 16 s and flows 500
   * and 300 over 1,600 give 58 s; L 12 s and Y 0.7 give 77 s.
   */
  @ParameterizedTest
  @CsvSource({"16, 0.5, 58", "12, 0.7, 77"})
  void webstersCycle(double lost, double flowRatio, double seconds) {
    assertEquals(seconds, AlternatingTraffic.websterCycleSeconds(lost, flowRatio), 0.5);
  }

  /** Signals take that cycle: no other green of the same signal makes less delay (own search). */
  @Test
  void signalsDelayLeastByWebstersCycle() {
    AlternatingTraffic signals =
        new AlternatingTraffic(
            TrafficSettings.Delay.standard(), AlternatingTraffic.Control.SIGNALS);
    for (double demand : new double[] {150, 250, 300}) {
      AlternatingTraffic.Cycle cycle = signals.cycle(demand, 600 * FT);
      double own = delay(cycle);
      double best = Double.POSITIVE_INFINITY;
      double clearance = cycle.cycleSeconds() - 2 * cycle.greenSeconds();
      for (double green = 20; green <= 180; green += 1) {
        double whole = 2 * green + clearance;
        double use = demand / (cycle.saturation() * green / whole);
        best =
            Math.min(
                best,
                delay(new AlternatingTraffic.Cycle(demand, cycle.saturation(), green, whole, use)));
      }
      // Webster: within 3/4 to 1 1/2 of the best cycle the delay is at most 10 to 20 % more.
      assertTrue(own <= 1.2 * best, demand + " cars: " + own + " s, best " + best + " s");
    }
  }

  private static double delay(AlternatingTraffic.Cycle cycle) {
    return cycle.uniformDelaySeconds() + cycle.randomDelaySeconds(2);
  }

  /** At the longest closure the longest green is nine tenths used; a foot more and it is over. */
  @ParameterizedTest
  @CsvSource({"300", "350", "400"})
  void longestClosureIsWhereTheLongestGreenIsUsed(double demand) {
    double most = traffic.longestClosureM(demand, 36_000);
    double use = traffic.cycle(demand, most).use();

    assertEquals(180, traffic.cycle(demand, most).greenSeconds(), 1e-6);
    assertEquals(0.9, use, 1e-9);
    assertTrue(traffic.cycle(demand, most + FT).use() > 0.9);
  }

  /** With little traffic the wait decides: cycle less green is the 900 s that may be waited. */
  @Test
  void longestClosureKeepsTheWait() {
    double most = traffic.longestClosureM(1, 900);

    // By hand: 900 = 180 + 2 l / v + 4, v = 25 mph.
    assertEquals((900 - 180 - 4) / 2.0 * 25 * 5280 / 3600, most / FT, 1e-6);
    assertEquals(0, traffic.longestClosureM(5000, 900), 0);
  }

  /** A pilot car turns at both ends of each cycle: two minutes more at a minute each. */
  @Test
  void pilotCarTurnsAtBothEnds() {
    AlternatingTraffic pilot =
        new AlternatingTraffic(
            TrafficSettings.Delay.standard(), AlternatingTraffic.Control.PILOT_CAR);
    AlternatingTraffic.Cycle with = pilot.cycle(20, 1000 * FT);
    AlternatingTraffic.Cycle without = traffic.cycle(20, 1000 * FT);

    assertEquals(with.greenSeconds(), without.greenSeconds(), 1e-9);
    assertEquals(120, with.cycleSeconds() - without.cycleSeconds(), 1e-9);
  }
}
