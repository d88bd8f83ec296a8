package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.network.SideRoad;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.Treatment;
import lanemend.patching.traffic.TrafficPlan;
import lanemend.patching.traffic.TrafficPlanner;
import lanemend.patching.traffic.ZoneWork;
import org.junit.jupiter.api.Test;

/** What is loaded for a day of zones, and where it stands along the road. */
class DayNeedsTest {
  private static final double FT = Conversion.M_PER_FT;
  private static final TrafficPlanner PLANNER = new TrafficPlanner(PatchSettings.standard());

  private static TrafficPlan flagged(double mph) {
    return PLANNER.plan(
        ZoneWork.inLane(
            new RoadSetting(
                RoadClass.COLLECTOR,
                mph * Conversion.KMH_PER_MPH,
                2,
                12 * FT,
                4 * FT,
                false,
                false,
                2000,
                0.08),
            200 * FT,
            120));
  }

  private static TrafficPlan merge() {
    return PLANNER.plan(
        ZoneWork.inLane(
            new RoadSetting(
                RoadClass.ARTERIAL,
                55 * Conversion.KMH_PER_MPH,
                2,
                12 * FT,
                0,
                true,
                false,
                9000,
                0.08),
            200 * FT,
            120));
  }

  private static WorkZone zone(Side side, TrafficPlan traffic) {
    return new WorkZone(
        "z",
        "SR 1",
        ZoneSide.of(side),
        3000,
        3000 + 200 * FT,
        0,
        0,
        List.of(TestCounty.repair("D1", "SR 1", side, 3000, 10, Treatment.BLADE_PATCH, 5, 60)),
        traffic,
        100,
        5,
        LocalDate.of(2026, 6, 1));
  }

  private static CrewDay day(TrafficPlan... plans) {
    List<CrewDay.Stop> stops =
        java.util.Arrays.stream(plans)
            .map(
                p ->
                    new CrewDay.Stop(
                        zone(Side.RIGHT, p), 5, LocalTime.NOON, LocalTime.NOON, null, List.of()))
            .toList();
    return new CrewDay(
        LocalDate.of(2026, 6, 1),
        null,
        "",
        0,
        stops,
        LocalTime.NOON,
        LocalTime.NOON,
        0,
        0,
        List.of());
  }

  /** Three zones one after another: the most at any one stop, and the sum. */
  @Test
  void countsTheWorstStopAndTheDay() {
    TrafficPlan slow = flagged(35);
    TrafficPlan fast = flagged(55);
    TrafficPlan divided = merge();
    Map<String, DayNeeds.Need> needs =
        DayNeeds.of(day(slow, fast, divided), route -> List.of()).needs().stream()
            .collect(Collectors.toMap(DayNeeds.Need::text, n -> n));

    // ROAD WORK AHEAD: 2, 2, and 1 at both edges of the divided road.
    assertEquals(2, needs.get("ROAD WORK AHEAD (W20-1)").atOneStop());
    assertEquals(6, needs.get("ROAD WORK AHEAD (W20-1)").overTheDay());
    assertEquals(2, needs.get("RIGHT LANE CLOSED AHEAD (W20-5R)").atOneStop());
    assertEquals(2, needs.get("flaggers").atOneStop());
    assertEquals(4, needs.get("flaggers").overTheDay());
    int cones =
        Math.max(
            slow.layout().devices(), Math.max(fast.layout().devices(), divided.layout().devices()));
    DayNeeds.Need cone = needs.get("channelizing devices (cones or drums)");
    assertEquals(cones, cone.atOneStop());
    assertEquals(
        slow.layout().devices() + fast.layout().devices() + divided.layout().devices(),
        cone.overTheDay());
  }

  /**
   * Given a zone at 3,000 m on the right side at 55 mph, then by hand: 595 ft of taper and buffer
   * before it, the flagger sign 500 ft further back, and the other direction's counted from the end
   * of the downstream taper, 100 ft past the work.
   */
  @Test
  void standsWhereTheDistancesSay() {
    ZoneAxis axis = ZoneAxis.of(zone(Side.RIGHT, flagged(55)));

    assertEquals(3000 - 595 * FT, axis.alongM(0), 1e-6);
    assertEquals(3000 - 1095 * FT, axis.signAlongM(true, 500 * FT), 1e-6);
    assertEquals(3000 + (200 + 100 + 500) * FT, axis.signAlongM(false, 500 * FT), 1e-6);
  }

  /**
   * The zone of {@link #standsWhereTheDistancesSay}: closed from 3,000 m - 595 ft to 3,000 m + 300
   * ft (200 of work and 100 of taper); each way's first sign stands ahead of that.
   */
  @Test
  void whoComesFromASideRoadHasNotPassedTheSigns() {
    WorkZone zone = zone(Side.RIGHT, flagged(55));
    double signed =
        zone.traffic().signs().stream()
            .mapToDouble(TrafficPlan.SignPlacement::beforeWorkM)
            .max()
            .orElseThrow();
    List<SideRoad> roads =
        List.of(
            side(3000 - 595 * FT - signed - 1),
            side(3000 - 595 * FT - signed + 1),
            side(3000 - 596 * FT),
            side(3000 - 594 * FT),
            side(3000 + 299 * FT),
            side(3000 + 301 * FT),
            side(3000 + 300 * FT + signed - 1),
            side(3000 + 300 * FT + signed + 1));

    List<SideRoadInZone> found = SideRoadInZone.of(zone, roads);

    SideRoadInZone.Where past = SideRoadInZone.Where.PAST_SIGNS;
    SideRoadInZone.Where closure = SideRoadInZone.Where.CLOSURE;
    assertEquals(
        List.of(past, past, closure, closure, past, past),
        found.stream().map(SideRoadInZone::where).toList());
    assertEquals(roads.subList(1, 7), found.stream().map(SideRoadInZone::road).toList());
    // each crosses: two signs for each go on the truck
    DayNeeds needs = DayNeeds.of(day(zone.traffic()), route -> roads);
    DayNeeds.Need signs =
        needs.needs().stream().filter(n -> n.what().contains("side roads")).findAny().orElseThrow();
    assertEquals(12, signs.atOneStop());
  }

  /** On a one-way roadway nobody comes from past the work, so nobody misses signs there. */
  @Test
  void onAOneWayRoadwayOnlyWhatOpensAheadOfTheWorkMatters() {
    WorkZone zone = zone(Side.RIGHT, merge());
    double end = ZoneAxis.of(zone).alongM(zone.traffic().layout().closureM());
    assertEquals(
        List.of(SideRoadInZone.Where.PAST_SIGNS, SideRoadInZone.Where.CLOSURE),
        SideRoadInZone.of(zone, List.of(side(3000 - 2000 * FT), side(3000), side(end + 1))).stream()
            .map(SideRoadInZone::where)
            .toList());
  }

  private static SideRoad side(double alongM) {
    return new SideRoad(alongM, "CR 9", true, true);
  }

  /** On the left side traffic runs the other way: everything is mirrored at the zone. */
  @Test
  void mirrorsOnTheLeftSide() {
    ZoneAxis axis = ZoneAxis.of(zone(Side.LEFT, flagged(55)));

    assertEquals(3000 + (200 + 595) * FT, axis.alongM(0), 1e-6);
    assertEquals(3000 - (100 + 500) * FT, axis.signAlongM(false, 500 * FT), 1e-6);
  }
}
