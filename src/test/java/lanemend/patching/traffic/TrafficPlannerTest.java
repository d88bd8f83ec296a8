package lanemend.patching.traffic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.network.RoadClass;
import lanemend.patching.Bad;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.traffic.TrafficPlan.DeviceCount;
import lanemend.patching.traffic.TrafficPlan.SignPlacement;
import org.junit.jupiter.api.Test;

/** First traffic-control list of a zone. */
class TrafficPlannerTest {
  private static final double FT = Conversion.M_PER_FT;
  private static final double MPH = Conversion.KMH_PER_MPH;
  private final TrafficPlanner planner = new TrafficPlanner(PatchSettings.standard());

  /** Given a rural two-lane road at 55 mph, then flaggers, 500-ft signs and the 495-ft buffer. */
  @Test
  void flagsATwoLaneRoad() {
    TrafficPlan plan = planner.plan(ZoneWork.inLane(Bad.twoLane(55, 2000), 200 * FT, 120));

    assertEquals(2, plan.flaggers());
    assertEquals(100, figure(plan, "one-lane two-way taper") / FT, 1e-9);
    assertEquals(495, figure(plan, "buffer") / FT, 1e-6);
    // 6 devices in the taper (100 / 20 + 1), 7 along 695 ft at 110 ft, 5 downstream.
    assertEquals(18, figure(plan, "channelizing devices"));
    assertEquals(100 + 495 + 200 + 100, figure(plan, "closure") / FT, 1e-6);
    List<SignPlacement> lower =
        plan.signs().stream().filter(s -> s.approach() == TrafficApproach.LOWER_MILEPOSTS).toList();
    assertEquals(
        List.of(
            "ROAD WORK AHEAD (W20-1)",
            "ONE LANE ROAD AHEAD (W20-4)",
            "BE PREPARED TO STOP (W3-4)",
            "flagger symbol (W20-7)",
            "END ROAD WORK (G20-2)"),
        lower.stream().map(p -> p.sign().text()).toList());
    assertEquals(2000, lower.get(0).beforeWorkM() / FT, 1e-6);
    assertEquals(500, lower.get(3).beforeWorkM() / FT, 1e-6);
    assertEquals(-(895 + 500), lower.get(4).beforeWorkM() / FT, 1e-6);
    assertEquals(10, plan.signs().size());
    assertTrue(plan.cautions().get(0).startsWith("Plan for review: the MUTCD"));
  }

  /** Iowa DOT Design Manual 9C-3 (read): closures over a quarter mile take a pilot car. */
  @Test
  void asksForAPilotCarOnALongClosure() {
    assertFalse(
        devices(planner.plan(ZoneWork.inLane(Bad.twoLane(55, 2000), 600 * FT, 120)))
            .contains("pilot"));
    assertTrue(
        devices(planner.plan(ZoneWork.inLane(Bad.twoLane(55, 2000), 700 * FT, 120)))
            .contains("pilot"));
  }

  /** Missouri DOT EPG 616.5.1 (read): no alternating traffic above 600 veh/h. */
  @Test
  void warnsOfTooMuchTrafficForOneLane() {
    String busy =
        planner.plan(ZoneWork.inLane(Bad.twoLane(45, 7600), 50, 120)).cautions().toString();
    String quiet =
        planner.plan(ZoneWork.inLane(Bad.twoLane(45, 7400), 50, 120)).cautions().toString();

    assertTrue(busy.contains("608 vehicles an hour"), busy);
    assertFalse(quiet.contains("vehicles an hour"), quiet);
  }

  /**
   * Given a freeway at 70 mph: merging taper 840 ft and 13 devices in it (California table
   * 6H-4(CA), read), signs at 1,000, 2,500 and 5,140 ft, an arrow board, no flagger.
   */
  @Test
  void closesAFreewayLane() {
    TrafficPlan plan = planner.plan(ZoneWork.inLane(Bad.freeway(70, 12000), 300 * FT, 180));

    assertEquals(0, plan.flaggers());
    assertEquals(840, figure(plan, "merging taper") / FT, 1e-6);
    assertEquals(700.0 / 3, figure(plan, "shoulder taper") / FT, 1e-6);
    assertTrue(Bad.freeway(70, 12000).severalLanesEachWay());
    assertTrue(devices(plan).contains("arrow board"));
    // 13 in the taper, 8 along 1,030 ft at 140 ft, 5 downstream, 5 on the shoulder.
    assertEquals(31, figure(plan, "channelizing devices"));
    assertEquals(
        List.of(5140L, 2500L, 1000L),
        plan.signs().stream()
            .filter(s -> s.beforeWorkM() > 0)
            .map(s -> Math.round(s.beforeWorkM() / FT))
            .toList());
    // Four signs, each on both sides of the roadway.
    assertEquals(8, stands(plan));
  }

  /** Given a four-lane undivided street, then only one direction is told to merge. */
  @Test
  void closesALaneOfAFourLaneStreet() {
    RoadSetting street = road(RoadClass.ARTERIAL, 35, 4, false, true, 0);
    TrafficPlan plan = planner.plan(ZoneWork.inLane(street, 50, 90));

    assertEquals(245, figure(plan, "merging taper") / FT, 1e-6);
    assertEquals(
        1, plan.signs().stream().filter(s -> s.sign().text().contains("LANE CLOSED")).count());
    assertEquals(
        2, plan.signs().stream().filter(s -> s.approach() == TrafficApproach.OTHER_SIDE).count());
  }

  @Test
  void shiftsTrafficWhereThereIsRoomBesideTheOnlyLane() {
    assertTrue(
        planner
            .plan(ZoneWork.inLane(road(RoadClass.COLLECTOR, 45, 3, false, false, 4), 50, 90))
            .situation()
            .contains("middle lane"));
    assertTrue(
        planner
            .plan(ZoneWork.inLane(road(RoadClass.COLLECTOR, 45, 1, true, false, 10), 50, 90))
            .situation()
            .contains("onto the shoulder"));
    TrafficPlan closed =
        planner.plan(ZoneWork.inLane(road(RoadClass.LOCAL, 25, 1, true, true, 0), 50, 90));
    assertTrue(closed.situation().contains("detour"));
    assertTrue(closed.cautions().toString().contains("its delay is not in the cost"));
  }

  /** HCM 2000 (from memory): 1,600 cars an hour past one closed lane of two, then a queue grows. */
  @Test
  void queuesOnlyAboveTheCapacityOfTheOpenLane() {
    // 18,604 x 0.08 x (1 + 0.15 x 0.5) = 1,600 cars an hour: just served.
    double under =
        planner.plan(ZoneWork.inLane(Bad.freeway(70, 18_600), 200, 120)).delayVehicleHoursPerHour();
    double over =
        planner.plan(ZoneWork.inLane(Bad.freeway(70, 20_000), 200, 120)).delayVehicleHoursPerHour();

    assertTrue(under < 3, "delay " + under);
    // 120 cars an hour above capacity over 2 hours: 120 x 2 / 2 vehicle-hours an hour more.
    assertEquals(120, over - under, 0.5);
  }

  @Test
  void takesLongerToSetUpThanToTakeDown() {
    TrafficPlan plan = planner.plan(ZoneWork.inLane(Bad.twoLane(55, 2000), 200 * FT, 120));

    assertEquals(5 + 10 * 1.5 + 18 * 0.15, plan.setUpMinutes(), 1e-9);
    assertEquals(plan.setUpMinutes() * 0.7, plan.takeDownMinutes(), 1e-9);
  }

  @Test
  void saysWhatItCannotPlan() {
    assertEquals(
        "zone length is -5.0; 0 m or more is expected",
        assertThrows(
                IllegalArgumentException.class,
                () -> planner.plan(ZoneWork.inLane(Bad.twoLane(55, 2000), -5, 60)))
            .getMessage());
    assertThrows(
        IllegalArgumentException.class,
        () -> planner.plan(ZoneWork.inLane(road(RoadClass.LOCAL, 0, 2, false, true, 0), 50, 60)));
  }

  private static RoadSetting road(
      RoadClass roadClass,
      double mph,
      int lanes,
      boolean oneDirection,
      boolean urban,
      double shoulderFt) {
    return new RoadSetting(
        roadClass, mph * MPH, lanes, 12 * FT, shoulderFt * FT, oneDirection, urban, 4000, 0.05);
  }

  private static double figure(TrafficPlan plan, String name) {
    return plan.figures().stream()
        .filter(f -> f.name().equals(name))
        .mapToDouble(Figure::value)
        .findFirst()
        .orElseThrow();
  }

  private static String devices(TrafficPlan plan) {
    return plan.devices().toString();
  }

  private static int stands(TrafficPlan plan) {
    return plan.devices().stream()
        .filter(d -> d.device().equals("sign stands"))
        .mapToInt(DeviceCount::count)
        .sum();
  }
}
