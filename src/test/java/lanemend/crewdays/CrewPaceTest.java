package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.measure.Figure;
import lanemend.patching.FigureName;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.patching.LearnedFactors;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/** Crews that were learned to be slower or dearer, in plans. */
class CrewPaceTest {
  private static final LocalDate DAY = LocalDate.of(2026, 5, 4);

  private static LearnedFactor factor(Measure m, Treatment t, String crew, double factor) {
    return new LearnedFactor(m, t, crew, factor, factor, factor, 23, "ann", DAY);
  }

  /**
   * The agency's repairs take 1.2 times the design, crew B's 1.5 times: a repair designed with the
   * agency's factor takes crew B 1.5 / 1.2 = 1.25 times as long.
   */
  @Test
  void aCrewsPaceIsRelativeToTheAgencys() {
    LearnedFactors learned =
        new LearnedFactors(
            List.of(
                factor(Measure.MINUTES, Treatment.HAND_PATCH, "", 1.2),
                factor(Measure.MINUTES, Treatment.HAND_PATCH, "B", 1.5)));
    PatchDesign repair = TestCounty.repair("D-1", 100, Treatment.HAND_PATCH, 2);
    PatchDesign paced = CrewPace.of("B", learned).paced(repair);
    assertEquals(45 * 1.25, paced.minutes(), 1e-9);
    assertEquals(9 * 1.25, paced.steps().get(0).spreadMinutes(), 1e-9);
    double rate = repair.figure(FigureName.LAYDOWN_RATE).orElseThrow().value();
    assertEquals(rate / 1.25, paced.figure(FigureName.LAYDOWN_RATE).orElseThrow().value(), 1e-9);
    // and the figure says where it comes from
    Figure minutes = paced.steps().get(0).minutes();
    assertTrue(minutes.source().contains("23 repairs of crew B"), minutes.source());
    assertTrue(minutes.source().contains("accepted 2026-05-04 by ann"), minutes.source());
    // other crews and other treatments are as designed
    assertSame(repair, CrewPace.of("A", learned).paced(repair));
    PatchDesign blade = TestCounty.repair("D-2", 100, Treatment.BLADE_PATCH, 2);
    assertSame(blade, CrewPace.of("B", learned).paced(blade));
  }

  @Test
  void anHourOfACrewCostsWhatWasLearnedAndTheDaysCostSaysSo() {
    LearnedFactors learned = new LearnedFactors(List.of(factor(Measure.HOUR_COST, null, "A", 1.1)));
    Agency agency = TestCounty.agency().withLearned(learned);
    assertEquals(new BigDecimal("264.00"), agency.crews().get(0).costPerHour());
    Plan plan = plan(agency, List.of(TestCounty.repair("D-1", 100, Treatment.HAND_PATCH, 2)));
    Figure crew =
        plan.days().get(0).figures().stream()
            .filter(f -> f.name().equals(DayFigureName.CREW_COST))
            .findFirst()
            .orElseThrow();
    assertTrue(crew.source().contains("learned factor 1.100"), crew.source());
  }

  /** The checker works every day out again by code of its own. */
  @Test
  void plansOfLearnedCrewsBreakNoLimit() {
    int slower = 0;
    for (int seed = 0; seed < 60; seed++) {
      Random random = new Random(seed);
      Agency plain = TestCounty.randomWeather(random);
      List<LearnedFactor> factors = new ArrayList<>();
      for (Crew crew : plain.crews()) {
        for (Treatment t : crew.does()) {
          if (random.nextInt(3) > 0) {
            factors.add(
                factor(Measure.MINUTES, t, crew.id(), Math.exp(0.3 * random.nextGaussian())));
          }
        }
        factors.add(factor(Measure.HOUR_COST, null, crew.id(), 0.9 + random.nextDouble() / 3));
      }
      Agency agency = plain.withLearned(new LearnedFactors(factors));
      List<PatchDesign> repairs = TestCounty.randomRepairs(random, 5 + random.nextInt(30));
      Plan plan = plan(agency, repairs);
      List<String> broken =
          new PlanChecker(agency, TestCounty.CROW, TestCounty.CONES).check(plan, repairs);
      assertEquals(List.of(), broken, "seed " + seed);
      for (CrewDay day : plan.days()) {
        for (CrewDay.Stop stop : day.stops()) {
          for (PatchDesign r : stop.zone().repairs()) {
            CrewPace.Ratio ratio = day.crew().pace().minutes().get(r.choice().treatment());
            slower += ratio != null && ratio.value() > 1.05 ? 1 : 0;
          }
        }
      }
    }
    assertTrue(slower > 50, slower + " repairs by slower crews");
  }

  /** Given two crews alike but for their pace, the quicker one is sent. */
  @Test
  void theQuickerCrewIsSent() {
    Crew a = TestCounty.crew("A", "Y1", 600, 3, Treatment.values());
    Crew b = TestCounty.crew("B", "Y1", 600, 3, Treatment.values());
    Agency agency =
        TestCounty.agency(List.of(a, b), TestCounty.settings(14))
            .withLearned(
                new LearnedFactors(
                    List.of(factor(Measure.MINUTES, Treatment.HAND_PATCH, "A", 1.4))));
    List<PatchDesign> repairs = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      repairs.add(TestCounty.repair("D-" + i, 100 + 3000 * i, Treatment.HAND_PATCH, 1));
    }
    Plan plan = plan(agency, repairs);
    assertTrue(plan.days().stream().allMatch(d -> d.crew().id().equals("B")), plan.toString());
  }

  private static Plan plan(Agency agency, List<PatchDesign> repairs) {
    return new CrewDayPlanner(TestCounty.CROW, agency, TestCounty.CONES)
        .plan(repairs, SearchBudget.iterations(200, 3), PlanProgress.NONE)
        .plan();
  }
}
