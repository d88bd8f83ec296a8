package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/** Whole plans: what is in them, what is left out and why, and that every limit holds. */
class CrewDayPlannerTest {
  private static final SearchBudget SHORT = SearchBudget.iterations(2_000, 1);

  private static CrewDayPlanner planner(Agency agency) {
    return new CrewDayPlanner(TestCounty.CROW, agency, TestCounty.CONES);
  }

  private static CrewDayPlanner.Planned plan(Agency agency, List<PatchDesign> repairs) {
    return planner(agency).plan(repairs, SHORT, PlanProgress.NONE);
  }

  private static List<String> violations(Agency agency, Plan plan, List<PatchDesign> repairs) {
    return new PlanChecker(agency, TestCounty.CROW, TestCounty.CONES).check(plan, repairs);
  }

  @Test
  void manySmallCountiesArePlannedWithoutBreakingAnyLimit() {
    int planned = 0;
    int leftOut = 0;
    for (int seed = 0; seed < 150; seed++) {
      Random random = new Random(seed);
      Agency agency = TestCounty.randomAgency(random);
      List<PatchDesign> repairs = TestCounty.randomRepairs(random, 5 + random.nextInt(40));
      Plan plan = plan(agency, repairs).plan();
      assertEquals(List.of(), violations(agency, plan, repairs), "seed " + seed);
      planned += plan.days().stream().mapToInt(d -> d.stops().size()).sum();
      leftOut += plan.leftOut().size();
    }
    assertTrue(planned > 500 && leftOut > 500, planned + " zones, " + leftOut + " left out");
  }

  @Test
  void weatherPoolsAndChancesArePlannedWithoutBreakingAnyLimit() {
    int planned = 0;
    int fromStock = 0;
    for (int seed = 0; seed < 100; seed++) {
      Random random = new Random(seed);
      Agency agency = TestCounty.randomWeather(random);
      List<PatchDesign> repairs = TestCounty.randomRepairs(random, 5 + random.nextInt(40));
      Plan plan = plan(agency, repairs).plan();
      assertEquals(List.of(), violations(agency, plan, repairs), "seed " + seed);
      planned += plan.days().stream().mapToInt(d -> d.stops().size()).sum();
      fromStock += (int) plan.days().stream().filter(d -> d.plantId().equals("S1")).count();
    }
    assertTrue(planned > 200 && fromStock > 5, planned + " zones, " + fromStock + " from stock");
  }

  @Test
  void theSameSeedGivesTheSamePlanOnTwoThreads() {
    Random random = new Random(5);
    List<PatchDesign> repairs = TestCounty.randomRepairs(random, 60);
    Agency agency = TestCounty.agency();
    CrewDayPlanner.Planned one = plan(agency, repairs);
    CrewDayPlanner.Planned two = plan(agency, repairs);
    assertEquals(one.assignment(), two.assignment());
    assertEquals(one.plan().cost(), two.plan().cost());
  }

  @Test
  void schedulingThePlansDecisionsGivesThePlanAgain() {
    List<PatchDesign> repairs = TestCounty.randomRepairs(new Random(6), 30);
    Agency agency = TestCounty.agency();
    CrewDayPlanner.Planned planned = plan(agency, repairs);
    Plan again = planner(agency).schedule(planned.assignment(), repairs);
    assertEquals(planned.plan().days(), again.days());
    assertEquals(planned.plan().cost(), again.cost());
  }

  @Test
  void aDayChainsFromYardToZoneAndBack() {
    // 30 km along SR 1 from the yard at 0.9 of 60 km/h; 20 + 45 + 15 minutes at the zone.
    PatchDesign crack = TestCounty.repair("D1", 29_995, Treatment.CRACK_TREATMENT, 0);
    double y = crack.defect().place().y() / 1000;
    double drive = Math.hypot(30, y) / 0.9;
    CrewDay day = plan(TestCounty.agency(), List.of(crack)).plan().days().get(0);
    assertEquals(java.time.LocalTime.of(7, 0), day.leaveYard());
    assertEquals(drive, day.stops().get(0).driveMinutes(), 1e-9);
    assertEquals(day.leaveYard().plusSeconds(Math.round((2 * drive + 80) * 60)), day.backAtYard());
    assertEquals(0, day.trucks());
    assertEquals("", day.plantId());
  }

  @Test
  void reasonsAreGivenInWords() {
    Agency agency =
        TestCounty.agency(
            List.of(
                TestCounty.crew("A", "Y1", 480, 2, Treatment.HAND_PATCH, Treatment.BLADE_PATCH),
                TestCounty.crew("B", "Y1", 480, 0, Treatment.EDGE_REPAIR)),
            TestCounty.settings(14));
    List<PatchDesign> repairs =
        List.of(
            TestCounty.repair("D1", 1000, Treatment.DEFER_TO_OVERLAY, 0),
            TestCounty.repair("D2", 2000, Treatment.CRACK_TREATMENT, 0),
            TestCounty.repair("D3", 3000, Treatment.EDGE_REPAIR, 0.5),
            TestCounty.repair("D4", "SR 1", Side.RIGHT, 4000, 900, Treatment.HAND_PATCH, 0.5, 60),
            TestCounty.repair("D5", "SR 1", Side.RIGHT, 5000, 9, Treatment.HAND_PATCH, 1, 700),
            TestCounty.repair("D6", 500_000, Treatment.HAND_PATCH, 0.5),
            TestCounty.repair("D7", 6000, Treatment.BLADE_PATCH, 500));
    Plan plan = plan(agency, repairs).plan();
    assertEquals(0, plan.days().size());
    assertReason(plan, "D1", "deferred to overlay");
    assertReason(plan, "D2", "no crew does crack treatment");
    assertReason(plan, "D3", "no crew that does edge repair has a haul truck");
    assertReason(plan, "D4", "runs 2,953 ft, longest work zone on its road class 2,625 ft");
    assertReason(plan, "D5", "longest shift 480 min");
    assertReason(plan, "D6", "too far from plant P1");
    assertReason(plan, "D7", "most a plant gives in a day");
    assertEquals(List.of(), violations(agency, plan, repairs));
  }

  @Test
  void noRoadAndNoRoomAreToldApart() {
    Haul cut =
        (from, to) -> {
          Haul.Legs legs = TestCounty.CROW.between(from, to);
          for (int i = 0; i < from.size(); i++) {
            for (int j = 0; j < to.size(); j++) {
              if (from.get(i).x() > 40_000 != to.get(j).x() > 40_000) {
                legs.minutes()[i][j] = Double.POSITIVE_INFINITY;
              }
            }
          }
          return legs;
        };
    List<PatchDesign> repairs = new java.util.ArrayList<>();
    repairs.add(TestCounty.repair("far", 50_000, Treatment.CRACK_TREATMENT, 0));
    for (int i = 0; i < 12; i++) {
      repairs.add(
          TestCounty.repair(
              "D" + i, "SR 1", Side.RIGHT, 1000 + 2000 * i, 5, Treatment.CRACK_TREATMENT, 0, 400));
    }
    Agency agency =
        TestCounty.agency(
            List.of(TestCounty.crew("A", "Y1", 600, 1, Treatment.CRACK_TREATMENT)),
            TestCounty.settings(7));
    Plan plan =
        new CrewDayPlanner(cut, agency, TestCounty.CONES)
            .plan(repairs, SHORT, PlanProgress.NONE)
            .plan();
    assertEquals(5, plan.days().size());
    assertReason(plan, "far", "no road from the yard of any crew that does crack treatment");
    assertEquals(
        7,
        plan.leftOut().stream()
            .filter(l -> l.reason().equals("horizon full before 2026-06-08"))
            .count());
  }

  @Test
  void urgentWorkComesFirstAndNobodyWorksOnWeekends() {
    List<PatchDesign> repairs = new java.util.ArrayList<>();
    for (int i = 0; i < 8; i++) {
      repairs.add(
          TestCounty.repair(
              "D" + i, "SR 1", Side.RIGHT, 1000 + 2000 * i, 5, Treatment.CRACK_TREATMENT, 0, 400));
    }
    Agency agency = TestCounty.agency();
    Plan plan = plan(agency, repairs).plan();
    assertEquals(8, plan.days().size());
    // Monday to Friday, then Monday to Wednesday.
    assertEquals(TestCounty.MONDAY.plusDays(4), plan.days().get(4).date());
    assertEquals(TestCounty.MONDAY.plusDays(7), plan.days().get(5).date());
    assertEquals(List.of(), violations(agency, plan, repairs));
  }

  @Test
  void aListenerCanStopTheSearch() {
    int[] calls = {0};
    planner(TestCounty.agency())
        .plan(
            TestCounty.randomRepairs(new Random(1), 30),
            SearchBudget.iterations(1_000_000_000L, 1),
            (stage, share, cost) -> {
              calls[0]++;
              return !stage.equals("crew days");
            });
    assertTrue(calls[0] >= 1);
  }

  @Test
  void aListenerCanEndPlanningBeforeThereIsAnyPlan() {
    for (String at : List.of("work zones", "drives", "trucks")) {
      assertThrows(
          PlanStopped.class,
          () ->
              planner(TestCounty.agency())
                  .plan(
                      TestCounty.randomRepairs(new Random(1), 30),
                      SearchBudget.iterations(1_000_000_000L, 1),
                      (stage, share, cost) -> !stage.equals(at)));
    }
  }

  @Test
  void schedulingWhatIsNotThereIsRefusedInWords() {
    Assignment.Zone zone = new Assignment.Zone("SR 1", List.of("D9"));
    Assignment unknown =
        new Assignment(List.of(new Assignment.Day(TestCounty.MONDAY, "A", "", 0, List.of(zone))));
    String said =
        assertThrows(
                IllegalArgumentException.class,
                () -> planner(TestCounty.agency()).schedule(unknown, List.of()))
            .getMessage();
    assertEquals("the plan names defect D9, which is not among the repairs", said);
  }

  private static void assertReason(Plan plan, String defect, String part) {
    String reason =
        plan.leftOut().stream()
            .filter(l -> l.defectId().equals(defect))
            .map(Plan.LeftOut::reason)
            .findFirst()
            .orElse("planned");
    assertTrue(reason.contains(part), defect + ": " + reason);
  }
}
