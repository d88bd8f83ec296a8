package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** The bound against the cheapest of all plans, on cases small enough for that. */
class LowerBoundTest {

  private static double[] shares(DayProblem p, double cost) {
    double[] prices = new double[p.stops()];
    java.util.Arrays.fill(prices, cost / Math.max(1, p.stops()));
    return prices;
  }

  @Test
  void noPlanCostsLessThanTheBoundAndTheBoundIsNotFarBelow() {
    double optimum = 0;
    double bound = 0;
    for (int seed = 0; seed < 40; seed++) {
      DayProblem p = DaySearchTest.county(new Random(seed), 3 + seed % 5);
      double least = new DaySearchTest.EveryWay(p).least();
      double proven =
          LowerBound.of(p, least, shares(p, least), 400, 60, SearchProgress.NONE).cost();
      assertTrue(proven <= least + 1e-6, "seed " + seed + ": " + proven + " over " + least);
      optimum += least;
      bound += proven;
    }
    // How close is a finding, not a rule: it is written in docs/method.md.
    assertTrue(bound > 0.5 * optimum, bound + " of " + optimum);
    System.out.println(bound / optimum);
  }

  @Test
  void anyPricesAtAllGiveAValidBound() {
    for (int seed = 0; seed < 40; seed++) {
      Random random = new Random(seed);
      DayProblem p = DaySearchTest.county(random, 3 + seed % 4);
      double least = new DaySearchTest.EveryWay(p).least();
      double[] prices = random.doubles(p.stops(), -1_000, 20_000).toArray();
      double proven = LowerBound.of(p, least, prices, 1, 60, SearchProgress.NONE).cost();
      assertTrue(proven <= least + 1e-6, "seed " + seed);
    }
  }

  @Test
  void withoutStopsNothingIsTheCost() {
    DayProblem p = DaySearchTest.county(new Random(1), 0);
    assertEquals(0, LowerBound.of(p, 0, new double[0], 5, 1, SearchProgress.NONE).cost(), 1e-9);
  }
}
