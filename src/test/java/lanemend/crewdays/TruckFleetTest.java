package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Trucks for one zone. */
class TruckFleetTest {
  /** Load 6, haul 20, spot and dump 4, return 20: a cycle of 50 minutes; 9 t trucks. */
  private static final TruckFleet.Haulage ROAD = new TruckFleet.Haulage(20, 20, 6, 4, 120, 9);

  /** 90 t at 10 minutes for each load of 9 t. */
  private static final TruckFleet.Laying LAYING = new TruckFleet.Laying(90, 100, 100);

  /**
   * The deterministic rate with k trucks, min(1/s, k/(s + cycle)), reaches the grader's first at
   * the simple rule's count, 1 + cycle / interval rounded up (FM 5-434 paragraph 10-10, as quoted
   * by another work).
   */
  @Test
  void theSimpleRuleIsTheLimitWithoutVariation() {
    for (double s : new double[] {5, 7, 10, 12.5, 16, 50, 80}) {
      int rule = TruckFleet.trucksByRule(s, ROAD);
      double cycle = ROAD.cycleMinutes();
      assertTrue(rule / (s + cycle) >= 1 / s - 1e-12, "enough at " + s);
      assertTrue((rule - 1) / (s + cycle) < 1 / s - 1e-12, "no fewer at " + s);
    }
    assertEquals(6, TruckFleet.trucksByRule(10, ROAD));
  }

  /**
   * FM 5-434 paragraph 10-10 example, as quoted by another work: load 0.5 min and cycle 20.5 min
   * ask for 42 trucks, load 1.0 min and cycle 21 min for 22. The interval there is the loader's;
   * here it is the grader's, and the rule is the same.
   */
  @Test
  void theArmysExampleComesOut() {
    assertEquals(42, TruckFleet.trucksByRule(0.5, new TruckFleet.Haulage(10, 8, 0.5, 2, 120, 9)));
    assertEquals(22, TruckFleet.trucksByRule(1, new TruckFleet.Haulage(10, 8, 1, 2, 120, 9)));
  }

  @Test
  void queueRateStaysBelowBothBoundsAndReachesTheGraderWithManyTrucks() {
    for (int k = 1; k <= 12; k++) {
      double rate = TruckFleet.queue(k, 10, ROAD).throughputPerMinute();
      assertTrue(rate <= Math.min(0.1, k / 60.0) + 1e-12);
    }
    assertEquals(0.1, TruckFleet.queue(30, 10, ROAD).throughputPerMinute(), 1e-6);
    // One truck never queues: one load in each cycle and laying, 1 / (50 + 10).
    assertEquals(1 / 60.0, TruckFleet.queue(1, 10, ROAD).throughputPerMinute(), 1e-12);
  }

  @Test
  void oneTruckMakesTheCrewWaitARoundForEachLoadAfterTheFirst() {
    TruckFleet.Supply s = TruckFleet.supply(1, LAYING, ROAD).orElseThrow();
    assertEquals(10, s.loads());
    assertEquals(9 * 50, s.waitMinutes(), 1e-9);
    assertEquals(0, s.queueMinutes(), 1e-9);
  }

  @Test
  void loadsThatAllComeWithTheCrewAreNeverWaitedFor() {
    TruckFleet.Laying small = new TruckFleet.Laying(17, 30, 30);
    assertEquals(0, TruckFleet.supply(2, small, ROAD).orElseThrow().waitMinutes(), 0);
    assertTrue(TruckFleet.supply(1, small, ROAD).orElseThrow().waitMinutes() > 0);
  }

  @Test
  void moreTrucksWaitLessUntilTheyCostMoreThanTheySave() {
    double before = Double.POSITIVE_INFINITY;
    for (int k = 1; k <= 8; k++) {
      double wait = TruckFleet.supply(k, LAYING, ROAD).orElseThrow().waitMinutes();
      assertTrue(wait < before);
      before = wait;
    }
    int dearTrucks = TruckFleet.cheapest(8, LAYING, ROAD, 160, 240, 300).orElseThrow().trucks();
    int cheapTrucks = TruckFleet.cheapest(8, LAYING, ROAD, 160, 240, 30).orElseThrow().trucks();
    assertTrue(dearTrucks < cheapTrucks, dearTrucks + " and " + cheapTrucks);
  }

  /** The chosen count against every count priced by hand from the queue's own closed form. */
  @Test
  void cheapestIsTheLeastOfAllCounts() {
    double best = Double.POSITIVE_INFINITY;
    int at = 0;
    for (int k = 1; k <= 8; k++) {
      double idle = TruckFleet.queue(k, 10, ROAD).idle();
      double wait = Math.max(0, 10 - k) * (10 / (1 - idle) - 10);
      double cost = (300 + k * 95) * (160 + wait) / 60;
      if (cost < best) {
        best = cost;
        at = k;
      }
    }
    assertEquals(at, TruckFleet.cheapest(8, LAYING, ROAD, 160, 300, 95).orElseThrow().trucks());
  }

  @Test
  void loadsShrinkUntilOneIsLaidInsideTheMixWindow() {
    // 4 t raked out over 300 minutes: one load would be 24 + 300 minutes old, the window is 120.
    TruckFleet.Laying slow = new TruckFleet.Laying(4, 200, 300);
    TruckFleet.Supply s = TruckFleet.supply(4, slow, ROAD).orElseThrow();
    assertEquals(4, s.loads());
    assertTrue(24 + 300.0 / s.loads() <= 120);
  }

  @Test
  void aPlantTooFarForItsWindowSuppliesNothing() {
    TruckFleet.Haulage far = new TruckFleet.Haulage(130, 130, 6, 4, 120, 9);
    assertEquals(Optional.empty(), TruckFleet.supply(3, LAYING, far));
  }
}
