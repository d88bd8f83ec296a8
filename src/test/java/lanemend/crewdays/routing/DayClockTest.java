package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Days run by hand beside the clock. Every number here is worked out in the comment beside it. */
class DayClockTest {
  /** Open from minute 0 to 600, 5 min to load, 120 min window, 9 t, 10 min from yard to plant. */
  private static MixDay mix(int trucks) {
    return new MixDay(trucks, 0, 600, 5, 120, 9, 10);
  }

  /** 8 t in one load, 20 min out and back, first mix 30 min after arrival, 40 min of laying. */
  private static final ZoneSupply FULL = new ZoneSupply(20, 20, 30, 40, 1, 8);

  private static final ZoneSupply SMALL = new ZoneSupply(20, 20, 30, 40, 1, 0.5);

  @Test
  void theFirstLoadIsThereWhenTheCrewIsReadyForIt() {
    DayClock clock = new DayClock();
    clock.begin(mix(1));
    // Crew ready at 15 + 30 = 45; truck at 10 + 5 + 20 = 35: no wait, it leaves the plant at 25.
    assertTrue(clock.visit(15, 90, FULL));
    assertEquals(0, clock.waitMinutes(), 0);
    assertEquals(25, clock.firstLoadLeft(), 1e-9);
    assertEquals(105, clock.now(), 1e-9);
    assertEquals(120, clock.end(15), 1e-9);
  }

  @Test
  void oneTruckMustComeRoundBeforeTheNextZoneCanStart() {
    DayClock clock = new DayClock();
    clock.begin(mix(1));
    clock.visit(15, 90, FULL);
    // Mix laid 45 to 85, truck back at the plant at 105, at the next zone at 130. The crew arrives
    // at 105 + 5 = 110 and is ready at 140: the truck is there first. With 2 minutes' drive and no
    // time before laying it would wait.
    clock.visit(5, 90, FULL);
    assertEquals(0, clock.waitMinutes(), 0);
    clock.begin(mix(1));
    clock.visit(15, 90, FULL);
    clock.visit(2, 60, new ZoneSupply(20, 20, 0, 40, 1, 8));
    // Crew ready at 107, truck at 130.
    assertEquals(23, clock.waitMinutes(), 1e-9);
    assertEquals(107 + 23 + 60, clock.now(), 1e-9);
  }

  @Test
  void aSecondTruckHasBroughtTheNextLoadAlready() {
    DayClock clock = new DayClock();
    clock.begin(mix(2));
    clock.visit(15, 90, FULL);
    clock.visit(2, 60, new ZoneSupply(20, 20, 0, 40, 1, 8));
    assertEquals(0, clock.waitMinutes(), 0);
    assertEquals(107 - 20, clock.firstLoadLeft(), 1e-9);
  }

  @Test
  void mixLeftOnTheTruckServesTheNextZoneInsideTheWindow() {
    DayClock clock = new DayClock();
    clock.begin(mix(1));
    clock.visit(15, 75, SMALL);
    // Left the plant at 25, so good until 145. Crew ready at 90 + 5 + 10 = 105, laid by 145.
    clock.visit(5, 60, new ZoneSupply(20, 20, 10, 40, 1, 0.5));
    assertEquals(0, clock.waitMinutes(), 0);
    assertEquals(25, clock.firstLoadLeft(), 1e-9);
    // The third zone would lay it too late: the truck, free at 145 + 20, loads and is there at 190;
    // the crew is ready at 155 + 5 + 10 = 170.
    clock.visit(5, 60, new ZoneSupply(20, 20, 10, 40, 1, 0.5));
    assertEquals(20, clock.waitMinutes(), 1e-9);
    assertEquals(170, clock.firstLoadLeft(), 1e-9);
  }

  @Test
  void nothingIsLoadedBeforeThePlantOpensOrAfterItCloses() {
    DayClock clock = new DayClock();
    clock.begin(new MixDay(1, 60, 100, 5, 120, 9, 10));
    // First load at 60 + 5 + 20 = 85; the crew is ready at 45.
    assertTrue(clock.visit(15, 90, FULL));
    assertEquals(40, clock.waitMinutes(), 1e-9);
    // The next would leave the plant at 150.
    assertFalse(clock.visit(5, 90, FULL));
  }
}
