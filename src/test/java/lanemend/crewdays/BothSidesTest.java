package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.Treatment;
import lanemend.patching.traffic.TrafficPlan;
import lanemend.patching.traffic.TrafficPlanner;
import org.junit.jupiter.api.Test;

/** Repairs of both sides of a two-lane road under one set-up. */
class BothSidesTest {
  private static final Agency AGENCY = TestCounty.agency();
  private static final ZoneTraffic TRAFFIC = new TrafficPlanner(PatchSettings.standard())::plan;

  /** A quiet road: where more people wait, two set-ups cost less than a long one turned over. */
  private static final RoadSetting QUIET = road(2, false, 600);

  private static RoadSetting road(int lanes, boolean oneWay, double aadt) {
    return new RoadSetting(RoadClass.COLLECTOR, 80, lanes, 3.3, 1, oneWay, false, aadt, 0.1);
  }

  private static PatchDesign crack(String id, Side side, double alongM) {
    return on(
        TestCounty.repair(id, "SR 1", side, alongM, 10, Treatment.CRACK_TREATMENT, 0, 45), QUIET);
  }

  /** Two on the right and one on the left, all within 70 m. */
  private static List<PatchDesign> facing() {
    return new ArrayList<>(
        List.of(
            crack("R1", Side.RIGHT, 100),
            crack("L1", Side.LEFT, 120),
            crack("R2", Side.RIGHT, 160)));
  }

  private static CrewDayPlanner.Planned plan(ZoneTraffic traffic, List<PatchDesign> repairs) {
    return new CrewDayPlanner(TestCounty.CROW, AGENCY, traffic)
        .plan(repairs, SearchBudget.iterations(200, 1), PlanProgress.NONE);
  }

  private static List<WorkZone> zones(Plan plan) {
    return plan.days().stream().flatMap(d -> d.stops().stream()).map(CrewDay.Stop::zone).toList();
  }

  private static List<String> check(Plan plan, ZoneTraffic traffic, List<PatchDesign> repairs) {
    return new PlanChecker(AGENCY, TestCounty.CROW, traffic).check(plan, repairs);
  }

  /** The worked example of docs/method.md: crack work of 45 min on both sides. */
  @Test
  void theRightSideIsDoneThenTheClosureIsTurnedOverAndTheLeftSideIsDone() {
    Plan plan = plan(TRAFFIC, facing()).plan();

    WorkZone zone = zones(plan).get(0);
    assertEquals(1, zones(plan).size());
    assertEquals(ZoneSide.BOTH, zone.side());
    assertEquals(
        List.of("R1", "R2", "L1"), zone.repairs().stream().map(r -> r.defect().id()).toList());
    TrafficPlan control = zone.traffic();
    // Shifts: 3 min + 50 m at 8 km/h, 3 min + 30 m back; turning over is the traffic plan's.
    double shifts = 6 + (50 + 30) / (8000 / 60.0);
    assertEquals(
        control.setUpMinutes()
            + 3 * 45
            + shifts
            + control.turnOverMinutes()
            + control.takeDownMinutes(),
        zone.workMinutes(),
        1e-9);
    assertTrue(control.turnOverMinutes() > 0);
    assertEquals(
        List.of(ZoneSide.RIGHT, ZoneSide.LEFT),
        zone.phases().stream().map(WorkZone::side).toList());
    assertEquals(List.of(), check(plan, TRAFFIC, facing()));
  }

  /** The closure of either side lies inside the same flaggers and signs. */
  @Test
  void bothClosuresLieBetweenTheSameEnds() {
    WorkZone zone = zones(plan(TRAFFIC, facing()).plan()).get(0);
    ZoneAxis right = ZoneAxis.of(zone.phases().get(0));
    ZoneAxis left = ZoneAxis.of(zone.phases().get(1));
    double closure = zone.traffic().layout().closureM();
    assertEquals(right.alongM(0), left.alongM(closure), 1e-9);
    assertEquals(right.alongM(closure), left.alongM(0), 1e-9);
    assertEquals(right.signAlongM(true, 100), left.signAlongM(false, 100), 1e-9);
    assertEquals(right.signAlongM(false, 100), left.signAlongM(true, 100), 1e-9);
  }

  /** The same repairs where 3,000 a day would wait twice as long: a zone a side. */
  @Test
  void whereManyWaitEachSideHasASetUpOfItsOwn() {
    List<PatchDesign> busy = facing().stream().map(r -> on(r, road(2, false, 3_000))).toList();
    assertEquals(2, zones(plan(TRAFFIC, busy).plan()).size());
  }

  @Test
  void aDividedRoadKeepsItsSidesApart() {
    List<PatchDesign> divided = facing().stream().map(r -> on(r, road(2, true, 600))).toList();
    assertTrue(
        zones(plan(TRAFFIC, divided).plan()).stream().noneMatch(z -> z.side() == ZoneSide.BOTH));
  }

  private static PatchDesign on(PatchDesign r, RoadSetting road) {
    return new PatchDesign(
        r.defect(),
        road,
        r.choice(),
        r.figures(),
        r.steps(),
        r.equipment(),
        r.layDown(),
        r.cautions());
  }

  /** A plan that was good is no longer where the agency does not turn closures over. */
  @Test
  void theCheckerNamesAZoneThatMayNotTakeBothSides() {
    Plan plan = plan(TRAFFIC, facing()).plan();
    assertTrue(
        check(plan, TestCounty.CONES, facing()).stream()
            .anyMatch(s -> s.contains("takes both sides where the closure is not to be turned")));
    List<PatchDesign> four = facing().stream().map(r -> on(r, road(4, false, 600))).toList();
    assertTrue(
        check(plan, TRAFFIC, four).stream()
            .anyMatch(s -> s.contains("not on a two-lane two-way road")));
  }

  /** Left first, or to and fro, is not the order the sheet gives and the minutes count. */
  @Test
  void theCheckerNamesAWrongOrder() {
    Plan plan = plan(TRAFFIC, facing()).plan();
    CrewDay day = plan.days().get(0);
    WorkZone zone = day.stops().get(0).zone();
    List<PatchDesign> turned = new ArrayList<>(zone.repairs());
    Collections.reverse(turned);
    CrewDay.Stop stop = day.stops().get(0);
    WorkZone wrong = Spoiled.zone(zone, turned, zone.workMinutes(), zone.dueOn());
    CrewDay.Stop spoiled =
        Spoiled.stop(stop, wrong, stop.driveMinutes(), stop.arrive(), stop.depart());
    Plan bad =
        new Plan(
            List.of(Spoiled.times(day, day.leaveYard(), day.backAtYard(), List.of(spoiled))),
            plan.leftOut(),
            plan.cost(),
            plan.currency());
    assertTrue(
        check(bad, TRAFFIC, facing()).stream()
            .anyMatch(s -> s.contains("goes back to the side it had done")));
  }

  private static Plan again(Assignment kept, ZoneTraffic traffic) {
    LocalDate today = AGENCY.plan().firstDay();
    return new Replanner(TestCounty.CROW, AGENCY, traffic, HandRules.NONE, today)
        .adjust(facing(), kept, today, 100, SearchBudget.iterations(200, 1), PlanProgress.NONE)
        .plan();
  }

  /** Planning again keeps the zone; where it is not allowed any more it becomes a zone a side. */
  @Test
  void planningAgainTakesSidesApartThatMayNotBeTogether() {
    CrewDayPlanner.Planned planned = plan(TRAFFIC, facing());
    Plan kept = again(planned.assignment(), TRAFFIC);
    assertEquals(ZoneSide.BOTH, zones(kept).get(0).side());
    assertEquals(List.of(), check(kept, TRAFFIC, facing()));

    Plan apart = again(planned.assignment(), TestCounty.CONES);
    assertEquals(2, zones(apart).size());
    assertEquals(List.of(), check(apart, TestCounty.CONES, facing()));
  }

  /** What is left when one side is done is a zone of the other. */
  @Test
  void aSideThatIsDoneLeavesAZoneOfTheOther() {
    CrewDayPlanner.Planned planned = plan(TRAFFIC, facing());
    List<PatchDesign> left = List.of(crack("L1", Side.LEFT, 120));
    Plan rest =
        new Replanner(TestCounty.CROW, AGENCY, TRAFFIC, HandRules.NONE, AGENCY.plan().firstDay())
            .schedule(planned.assignment(), left);
    assertEquals(List.of(ZoneSide.LEFT), zones(rest).stream().map(WorkZone::side).toList());
    assertEquals(List.of(), check(rest, TRAFFIC, left));
  }

  /** An urgent repair across the road joins the set-up that stands there anyway. */
  @Test
  void anUrgentRepairJoinsAZoneOfTheOtherSide() {
    List<PatchDesign> right = List.of(crack("R1", Side.RIGHT, 100), crack("R2", Side.RIGHT, 160));
    CrewDayPlanner.Planned planned = plan(TRAFFIC, right);
    LocalDate today = AGENCY.plan().firstDay();
    Replanner.Urgent urgent =
        new Replanner(TestCounty.CROW, AGENCY, TRAFFIC, HandRules.NONE, today)
            .urgent(facing(), planned.assignment(), "L1", today.plusDays(7), today, 5);
    assertTrue(urgent.joined());
    assertEquals(
        List.of("R1", "R2", "L1"), urgent.assignment().days().get(0).zones().get(0).defectIds());
  }

  /** A zone of both sides is moved and held as one. */
  @Test
  void aZoneOfBothSidesIsMovedAndStaysTogether() {
    CrewDayPlanner.Planned planned = plan(TRAFFIC, facing());
    Assignment.Day at = planned.assignment().days().get(0);
    LocalDate today = AGENCY.plan().firstDay();
    LocalDate to = at.date().plusDays(1);
    Trial trial =
        new OpenPlan(
                TestCounty.CROW,
                AGENCY,
                TRAFFIC,
                HandRules.NONE,
                facing(),
                planned.assignment(),
                today)
            .move("L1", "A", to);
    assertEquals(List.of(), trial.broken());
    HandRules pinned = HandRules.NONE;
    for (PatchDesign r : facing()) {
      pinned = pinned.with(HandRule.pin(r.defect().id(), "one", "A", to, "the farmer asked"));
    }
    Plan anew =
        new Replanner(TestCounty.CROW, AGENCY, TRAFFIC, pinned, today)
            .anew(
                facing(),
                new Assignment(List.of()),
                SearchBudget.iterations(200, 1),
                PlanProgress.NONE)
            .plan();
    assertEquals(to, anew.days().get(0).date());
    assertEquals(ZoneSide.BOTH, zones(anew).get(0).side());
    assertFalse(anew.days().size() > 1);
    assertEquals(
        List.of(),
        new PlanChecker(AGENCY, TestCounty.CROW, TRAFFIC)
            .check(anew, facing(), pinned, new Assignment(List.of())));
  }
}
