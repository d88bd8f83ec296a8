package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import lanemend.crewdays.routing.DayChance;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.inventory.Severity;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.random.RandomDataGenerator;
import org.junit.jupiter.api.Test;

/** The chance of ending inside the shift, against days drawn step by step. */
class FinishChanceTest {
  private static final int DRAWS = 40_000;

  /** The formula is off by at most this much of probability on every day drawn below. */
  private static final double WORST = 0.012;

  private final RandomDataGenerator dice = new RandomDataGenerator(20260601);

  /** Steps are drawn from gamma distributions, the day's common factor from a gamma as well. */
  private double drawn(List<double[]> steps, double daySpread, double limit) {
    int inside = 0;
    for (int i = 0; i < DRAWS; i++) {
      double sum = 0;
      for (double[] step : steps) {
        sum += gamma(step[0], step[1]);
      }
      double factor = daySpread > 0 ? gamma(1, daySpread) : 1;
      inside += sum * factor <= limit ? 1 : 0;
    }
    return (double) inside / DRAWS;
  }

  private double gamma(double mean, double spread) {
    double shape = mean * mean / (spread * spread);
    return dice.nextGamma(shape, mean / shape);
  }

  @Test
  void theFormulaAgreesWithDrawnDaysFromOneStepToForty() {
    double worst = 0;
    Random random = new Random(7);
    for (int day = 0; day < 24; day++) {
      List<double[]> steps = new ArrayList<>();
      double mean = 0;
      double squares = 0;
      int count = 4 + random.nextInt(37);
      for (int i = 0; i < count; i++) {
        double minutes = 4 + random.nextInt(40);
        // Machines 0.20, hands 0.30, waits 0.40: the standard spreads of the repairs' steps.
        double spread = minutes * (0.2 + 0.1 * random.nextInt(3));
        steps.add(new double[] {minutes, spread});
        mean += minutes;
        squares += spread * spread;
      }
      double c = 0.05 * random.nextInt(3);
      FinishChance chance = new FinishChance(new FinishRule(0.85, c, 0.15, 0.25, 0.4));
      FinishChance.Minutes minutes = new FinishChance.Minutes(mean, squares, 0);
      for (double z : new double[] {-1.5, -0.5, 0, 0.7, 1.04, 1.6, 2.3}) {
        double limit = mean + z * chance.spread(minutes);
        double off = Math.abs(chance.within(minutes, limit) - drawn(steps, c, limit));
        worst = Math.max(worst, off);
      }
    }
    assertTrue(worst <= WORST, "off by " + worst);
  }

  /**
   * Worked by hand: mean 100, steps' spread 20, common factor 0.1: variance 1.01 x 400 + 0.01 x
   * 10,000 = 504; v = ln(1.0504) = 0.049171; (ln 1.2 + v / 2) / root of v = 0.93309. Normal table
   * (any textbook): 0.8246.
   */
  @Test
  void theWorkedExampleComesOut() {
    FinishChance chance = new FinishChance(new FinishRule(0.85, 0.1, 0, 0, 0));
    FinishChance.Minutes day = new FinishChance.Minutes(100, 400, 30);
    assertEquals(Math.sqrt(504), chance.spread(day), 1e-9);
    assertEquals(0.8246, chance.within(day, 150), 1e-4);
  }

  @Test
  void theSearchsQuantileIsTheInverseOfTheChance() {
    FinishChance chance = new FinishChance(FinishRule.NONE.asking(0.85));
    DayChance search = chance.search(null);
    FinishChance.Minutes day = new FinishChance.Minutes(430, 900, 25);
    double sure = search.minutes(day.mean(), day.separate()) + day.certain();
    assertEquals(0.85, chance.within(day, sure), 1e-9);
    assertEquals(
        new NormalDistribution().inverseCumulativeProbability(0.85),
        FinishChance.quantile(0.85),
        1e-9);
  }

  @Test
  void aCertainDayIsInTimeOrNot() {
    FinishChance chance = new FinishChance(new FinishRule(0.5, 0, 0, 0, 0));
    FinishChance.Minutes day = new FinishChance.Minutes(100, 0, 10);
    assertEquals(1, chance.within(day, 110));
    assertEquals(0, chance.within(day, 109));
    assertEquals(0, chance.within(day, 5));
  }

  /** Given 12 crack repairs of 90 min, when 0.95 is asked, then days are shorter and more. */
  @Test
  void askingForMoreMakesDaysShorterAndEveryDayKeepsIt() {
    List<PatchDesign> repairs = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      repairs.add(
          TestCounty.repair(
              "D" + i,
              "SR 1",
              lanemend.network.Side.RIGHT,
              1000 + 2000 * i,
              5,
              Treatment.CRACK_TREATMENT,
              0,
              90));
    }
    int loose = days(repairs, 0.5).size();
    List<CrewDay> sure = days(repairs, 0.95);
    assertTrue(sure.size() > loose, sure.size() + " days against " + loose);
    for (CrewDay day : sure) {
      assertTrue(day.finishProbability().orElseThrow() >= 0.95 - 1e-6);
    }
    assertEquals(Severity.MEDIUM, repairs.get(0).defect().severity());
  }

  private static List<CrewDay> days(List<PatchDesign> repairs, double asked) {
    PlanSettings settings =
        TestCounty.settings(14).under(FinishRule.NONE.asking(asked), WorkSeason.NONE);
    Agency agency =
        TestCounty.agency(
            List.of(TestCounty.crew("A", "Y1", 600, 3, Treatment.values())), settings);
    return new CrewDayPlanner(TestCounty.CROW, agency, TestCounty.CONES)
        .plan(repairs, SearchBudget.iterations(2_000, 1), PlanProgress.NONE)
        .plan()
        .days();
  }
}
