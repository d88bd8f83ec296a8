package lanemend.patching.traffic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.patching.Bad;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import org.junit.jupiter.api.Test;

/** One set-up for both sides of a road, its closure turned over in between. */
class TurnOverTest {
  private static final double FT = Conversion.M_PER_FT;
  private final TrafficPlanner planner = new TrafficPlanner(PatchSettings.standard());

  private static ZoneWork both(RoadSetting road, double lengthFt, double minutes) {
    return new ZoneWork(
        road,
        lengthFt * FT,
        minutes,
        WorkPosition.OUTER_LANE,
        false,
        minutes / 2,
        true,
        Double.NaN,
        true);
  }

  private static double feet(TrafficPlan plan, String name) {
    return plan.figure(name).orElseThrow().value() / FT;
  }

  /**
   * Given the 55 mph road of {@link TrafficPlannerTest}, 200 ft of work: 100-ft taper and 495-ft
   * buffer as the MUTCD has them, now at both ends.
   */
  @Test
  void flaggersAndSignsStandClearOfTheTapersOfBothLanes() {
    TrafficPlan one = planner.plan(ZoneWork.inLane(Bad.twoLane(55, 2000), 200 * FT, 120));
    TrafficPlan plan = planner.plan(both(Bad.twoLane(55, 2000), 200, 120));

    assertTrue(plan.turnsOver());
    assertEquals("TA-10", plan.choice().situation().code());
    assertEquals(2 * (100 + 495) + 200, feet(plan, "closure"), 1e-6);
    List<Double> flaggers = plan.layout().stations().stream().map(s -> s.atM() / FT).toList();
    assertEquals(0, flaggers.get(0), 1e-9);
    assertEquals(1390, flaggers.get(1), 1e-6);
    // Each direction meets the same signs at the same distances: nothing to move but devices.
    Map<TrafficApproach, List<String>> met =
        plan.signs().stream()
            .collect(
                Collectors.groupingBy(
                    TrafficPlan.SignPlacement::approach,
                    Collectors.mapping(
                        s -> s.sign().code() + " " + s.beforeWorkM(), Collectors.toList())));
    assertEquals(2, met.size());
    assertEquals(1, met.values().stream().distinct().count());
    // Devices are carried once and stand in one lane at a time.
    assertEquals(one.devices(), plan.devices().subList(0, one.devices().size()));
    assertEquals(one.setUpMinutes(), plan.setUpMinutes(), 1e-9);
  }

  /** Worked by hand: 18 devices, 5 + 18 x 0.15 x 1.7 = 9.59 min. */
  @Test
  void turningOverTakesMinutesAndHoldsTheTraffic() {
    TrafficPlan plan = planner.plan(both(Bad.twoLane(55, 2000), 200, 120));

    assertEquals(9.59, plan.turnOverMinutes(), 1e-9);
    // 2,000 x 0.08 = 160 vehicles an hour both ways, held 9.59 min.
    double use = plan.figure("use of the open lane").orElseThrow().value();
    double held = 160 * Math.pow(9.59 / 60, 2) / 2 / (1 - use);
    assertEquals(
        held, plan.figure("delay while traffic is held both ways").orElseThrow().value(), 1e-9);
    double byHour = plan.figure("road-user delay for each hour").orElseThrow().value();
    assertEquals(byHour + held / 2, plan.delayVehicleHoursPerHour(), 1e-9);
    assertTrue(
        plan.cautions().stream()
            .anyMatch(c -> c.startsWith("Turning the closure over: all traffic is held")));
  }

  /** Only where one lane each way is held at both ends. */
  @Test
  void noOtherRoadIsTurnedOver() {
    RoadSetting oneWay =
        new RoadSetting(RoadClass.COLLECTOR, 88, 2, 3.6, 3.5, true, false, 2000, 0);
    RoadSetting four = new RoadSetting(RoadClass.ARTERIAL, 72, 4, 3.6, 1, false, true, 9000, 0.1);
    RoadSetting three = new RoadSetting(RoadClass.ARTERIAL, 72, 3, 3.6, 1, false, true, 9000, 0.1);
    for (RoadSetting road : List.of(oneWay, four, three)) {
      assertFalse(planner.plan(both(road, 200, 120)).turnsOver());
    }
    // A minor street has nobody who holds the traffic.
    RoadSetting minor = new RoadSetting(RoadClass.LOCAL, 40, 2, 3.3, 0, false, true, 300, 0.02);
    TrafficPlan street = planner.plan(both(minor, 200, 120));
    assertEquals("TA-18", street.choice().situation().code());
    assertFalse(street.turnsOver());
  }

  /** Nobody is kept waiting longer than the agency allows: 15 minutes. */
  @Test
  void aClosureOfTooManyDevicesIsNotTurnedOver() {
    // 6 + 27 + 5 devices: 5 + 38 x 0.255 = 14.69 min.
    assertEquals(
        14.69, planner.plan(both(Bad.twoLane(55, 2000), 2400, 120)).turnOverMinutes(), 1e-9);
    // At 25 mph they stand 50 ft apart: 6 + 56 + 5, 22.1 min.
    assertFalse(planner.plan(both(Bad.twoLane(25, 2000), 2600, 120)).turnsOver());
  }
}
