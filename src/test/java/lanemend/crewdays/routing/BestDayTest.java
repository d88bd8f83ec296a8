package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The best day at given prices against every order of every set of stops. */
class BestDayTest {

  /** What the best day earns, by trying all. */
  private static final class EveryDay {
    private final DayProblem p;
    private final DayPrice day;
    private final double[] prices;
    private final int[] path;
    private double best;

    EveryDay(DayProblem p, double[] prices) {
      this.p = p;
      this.prices = prices;
      day = new DayPrice(p);
      path = new int[p.stops()];
    }

    double best(int kind, int date, int size, double paid) {
      for (int c = 0; c < p.stops(); c++) {
        int stop = c;
        if (Arrays.stream(path, 0, size).noneMatch(s -> s == stop)) {
          path[size] = c;
          if (day.price(kind, date, path, size + 1, -1, -1)) {
            best = Math.max(best, paid + prices[c] - day.cost);
          }
          best(kind, date, size + 1, paid + prices[c]);
        }
      }
      return best;
    }
  }

  private static double found(DayProblem p, int kind, int date, double[] prices, int steps) {
    RelaxedDay relaxed = new RelaxedDay(p, kind);
    RelaxedDay.Knapsack items = relaxed.fill(date, prices, 0);
    if (items == null) {
      return 0;
    }
    RelaxedDay.Best best = new BestDay(p, steps).search(relaxed, items, date, prices, 0);
    return best == null ? 0 : best.value();
  }

  @Test
  void theBestDayIsThatOfTryingAllAndNeverTakenForLessWhenStepsRunOut() {
    int pays = 0;
    int cutShort = 0;
    for (int seed = 0; seed < 60; seed++) {
      Random random = new Random(seed);
      DayProblem p = DaySearchTest.county(random, 2 + seed % 5);
      double[] prices = random.doubles(p.stops(), 0, 4_000).toArray();
      for (int kind = 0; kind < p.kinds().length; kind++) {
        int date = random.nextInt(p.dates());
        double least = new EveryDay(p, prices).best(kind, date, 0, 0);
        assertEquals(least, found(p, kind, date, prices, 1_000_000), 1e-6, "seed " + seed);
        double soon = found(p, kind, date, prices, 1);
        assertTrue(soon >= least - 1e-6, "seed " + seed + ": " + soon + " under " + least);
        pays += least > 0 ? 1 : 0;
        cutShort += soon > least + 1e-6 ? 1 : 0;
      }
    }
    assertTrue(pays > 50 && cutShort > 20, pays + " days pay, " + cutShort + " cut short");
  }
}
