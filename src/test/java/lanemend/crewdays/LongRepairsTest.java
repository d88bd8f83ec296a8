package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/** Repairs too long for a day, cut into parts. */
class LongRepairsTest {
  private static final SearchBudget SHORT = SearchBudget.iterations(1_000, 1);

  private static CrewDayPlanner planner(Agency agency) {
    return new CrewDayPlanner(TestCounty.CROW, agency, TestCounty.CONES, TestCounty::parts);
  }

  private static List<String> violations(Agency agency, Plan plan, List<PatchDesign> repairs) {
    return new PlanChecker(agency, TestCounty.CROW, TestCounty.CONES, TestCounty::parts)
        .check(plan, repairs);
  }

  private static PatchDesign crack(String id, double lengthM, double minutes) {
    return TestCounty.repair(
        id, "SR 1", Side.RIGHT, 1000, lengthM, Treatment.CRACK_TREATMENT, 0, minutes);
  }

  /**
   * Given 1,000 minutes of work, when a day has 600, then two parts of 500 and 510 with set-up and
   * drive each; not three.
   */
  @Test
  void aRepairOfTwoDaysIsDoneInTwoParts() {
    Agency agency = TestCounty.agency();
    List<PatchDesign> repairs = List.of(crack("D1", 300, 1_000));
    CrewDayPlanner.Planned planned = planner(agency).plan(repairs, SHORT, PlanProgress.NONE);
    Plan plan = planned.plan();
    assertEquals(List.of(), plan.leftOut());
    assertEquals(2, plan.days().size());
    assertEquals(List.of(), violations(agency, plan, repairs));
    List<PatchDesign> parts = new ArrayList<>();
    plan.days().forEach(d -> parts.addAll(d.stops().get(0).zone().repairs()));
    TreeSet<String> ids = new TreeSet<>();
    parts.forEach(p -> ids.add(p.defect().id()));
    assertEquals(new TreeSet<>(List.of("D1#1/2", "D1#2/2")), ids);
    assertEquals(1_010, parts.stream().mapToDouble(PatchDesign::minutes).sum(), 1e-9);
    assertEquals("D1, part 1 of 2", RepairPart.label(ids.first()));
    Plan again = planner(agency).schedule(planned.assignment(), repairs);
    assertEquals(plan.days(), again.days());
    assertEquals(List.of(), again.leftOut());
  }

  @Test
  void aRepairLongerThanAZoneMayBeIsCutToZones() {
    // Zones may be 800 m long: 1,700 m make three parts, each done in its own zone.
    Agency agency = TestCounty.agency();
    List<PatchDesign> repairs = List.of(crack("D1", 1_700, 90));
    Plan plan = planner(agency).plan(repairs, SHORT, PlanProgress.NONE).plan();
    assertEquals(List.of(), violations(agency, plan, repairs));
    assertEquals(3, plan.days().stream().mapToInt(d -> d.stops().size()).sum());
    assertEquals(List.of(), plan.leftOut());
  }

  @Test
  void whatTheHorizonHasNoRoomForIsNamedByPart() {
    Agency agency =
        TestCounty.agency(
            List.of(TestCounty.crew("A", "Y1", 600, 3, Treatment.values())),
            TestCounty.settings(1));
    List<PatchDesign> repairs = List.of(crack("D1", 300, 1_000));
    Plan plan = planner(agency).plan(repairs, SHORT, PlanProgress.NONE).plan();
    assertEquals(List.of(), violations(agency, plan, repairs));
    assertEquals(1, plan.leftOut().size());
    assertTrue(
        plan.leftOut().get(0).reason().matches("part [12] of 2: horizon full before 2026-06-02"),
        plan.leftOut().get(0).reason());
  }

  @Test
  void withoutCuttingItIsLeftOutAsBefore() {
    Plan plan =
        new CrewDayPlanner(TestCounty.CROW, TestCounty.agency(), TestCounty.CONES)
            .plan(List.of(crack("D1", 300, 1_000)), SHORT, PlanProgress.NONE)
            .plan();
    assertTrue(plan.leftOut().get(0).reason().contains("longest shift 600 min"));
  }

  @Test
  void manyCountiesWithLongRepairsBreakNoLimit() {
    int cut = 0;
    for (int seed = 0; seed < 40; seed++) {
      Random random = new Random(seed);
      Agency agency = TestCounty.randomWeather(random);
      List<PatchDesign> repairs = TestCounty.randomRepairs(random, 5 + random.nextInt(15));
      for (int i = 0; i < 3; i++) {
        repairs.add(
            TestCounty.repair(
                "L" + i,
                "SR " + i,
                Side.LEFT,
                random.nextInt(4000),
                20 + random.nextInt(1500),
                random.nextBoolean() ? Treatment.BLADE_PATCH : Treatment.CRACK_TREATMENT,
                0,
                200 + random.nextInt(1500)));
      }
      Plan plan = planner(agency).plan(repairs, SHORT, PlanProgress.NONE).plan();
      assertEquals(List.of(), violations(agency, plan, repairs), "seed " + seed);
      cut +=
          (int)
              plan.days().stream()
                  .flatMap(d -> d.stops().stream())
                  .flatMap(s -> s.zone().repairs().stream())
                  .filter(r -> RepairPart.parse(r.defect().id()).isPresent())
                  .count();
    }
    assertTrue(cut > 40, cut + " parts");
  }
}
