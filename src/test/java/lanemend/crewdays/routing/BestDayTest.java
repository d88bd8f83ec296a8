package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The best day at given prices against every order of every set of stops. */
class BestDayTest {
  private static final int ALL = 1_000_000;

  /** What the best day earns, by trying all. */
  private static final class EveryDay {
    private final DayProblem p;
    private final DayPrice day;
    private final double[] prices;
    private final int kind;
    private final int date;
    private final int[] path;
    private double best;

    EveryDay(DayProblem p, double[] prices, int kind, int date) {
      this.p = p;
      this.prices = prices;
      this.kind = kind;
      this.date = date;
      day = new DayPrice(p);
      path = new int[p.stops()];
    }

    double best(int size, double paid, double load) {
      for (int c = 0; c < p.stops(); c++) {
        int stop = c;
        double with = load + p.demand()[c];
        if (Arrays.stream(path, 0, size).noneMatch(s -> s == stop) && may(c, with)) {
          path[size] = c;
          if (day.price(kind, date, path, size + 1, -1, -1)) {
            best = Math.max(best, paid + prices[c] - day.cost);
          }
          best(size + 1, paid + prices[c], with);
        }
      }
      return best;
    }

    /** One machine and one plant, as {@link DaySearchTest#county} has them. */
    private boolean may(int stop, double load) {
      boolean machine = p.shared().machineBits()[stop] == 0 || machines() > 0;
      boolean plant = p.kinds()[kind].source() < 0 || load <= p.shared().sourceLimit()[date][0];
      return machine && plant && load <= p.kinds()[kind].capacity();
    }

    private int machines() {
      return p.shared().machineLimit()[date][0];
    }
  }

  /** What is found, and the days seen on the way. */
  private static double found(
      DayProblem p,
      int kind,
      int date,
      double[] prices,
      int steps,
      double close,
      List<int[]> seen) {
    RelaxedDay relaxed = new RelaxedDay(p, kind);
    RelaxedDay.Knapsack items = relaxed.fill(date, prices, 0);
    return items == null
        ? 0
        : new BestDay(p, steps, close, () -> false, seen::add)
            .most(relaxed, items, date, prices, 0);
  }

  /**
   * A small county: every second one must end in time as surely as asked, every third one has roads
   * on which the way round by another stop may be the shorter.
   */
  private static DayProblem county(Random random, int seed) {
    int n = 2 + seed % 6;
    double[] quantiles = {-0.2, 0.5, 1.04, 1.65, 2.4};
    DayProblem p =
        seed % 2 == 0
            ? DaySearchTest.county(random, n)
            : TimedPlacesTest.uncertain(random, n, quantiles[seed / 2 % quantiles.length]);
    if (seed % 3 == 0) {
      for (int leg = 0; leg < p.legs().length; leg++) {
        p.legs()[leg] *= 2 * random.nextDouble();
      }
    }
    return p;
  }

  @Test
  void theBestDayIsThatOfTryingAllAndNeverTakenForLessWhenStepsRunOut() {
    int pays = 0;
    int cutShort = 0;
    for (int seed = 0; seed < 200; seed++) {
      Random random = new Random(seed);
      DayProblem p = county(random, seed);
      double[] prices = random.doubles(p.stops(), 0, 4_000).toArray();
      for (int kind = 0; kind < p.kinds().length; kind++) {
        int date = random.nextInt(p.dates());
        double most = new EveryDay(p, prices, kind, date).best(0, 0, 0);
        String what = "seed " + seed + " kind " + kind;
        List<int[]> seen = new ArrayList<>();
        assertEquals(most, found(p, kind, date, prices, ALL, 0, seen), 1e-6, what);
        if (most > 0) {
          assertEquals(most, earns(p, kind, date, prices, seen.get(seen.size() - 1)), 1e-6, what);
        }
        double soon = found(p, kind, date, prices, random.nextInt(4), 0, new ArrayList<>());
        assertTrue(soon >= most - 1e-6, what + ": " + soon + " under " + most);
        double near = found(p, kind, date, prices, ALL, 50, new ArrayList<>());
        assertTrue(near >= most - 1e-6 && near <= most + 50 + 1e-6, what + ": " + near);
        pays += most > 0 ? 1 : 0;
        cutShort += soon > most + 1e-6 ? 1 : 0;
      }
    }
    assertTrue(pays > 200 && cutShort > 50, pays + " days pay, " + cutShort + " cut short");
  }

  @Test
  void aDayOnBothSidesOfTheYardEarnsWhatItsRoundTripLeaves() {
    // Given a yard at 0, stops at 10, 12, -10 and -12 km on one road, 1 a km, 50 for the first and
    // the third. Without an order each seems 2 km from somewhere: 100 - (18 + 2 + 2) = 78. The
    // round
    // trip by both is 40 km: 60.
    double[] at = {10, 12, -10, -12, 0};
    double[] legs = new double[50];
    for (int a = 0; a < 5; a++) {
      for (int b = 0; b < 5; b++) {
        legs[2 * (5 * a + b)] = Math.abs(at[a] - at[b]);
        legs[2 * (5 * a + b) + 1] = Math.abs(at[a] - at[b]);
      }
    }
    double[] minutes = {60, 60, 60, 60};
    DayProblem p =
        new DayProblem(
            4,
            1,
            legs,
            new DayKind[] {DayKind.plain(0, 600, 100)},
            new DayProblem.Slot[] {new DayProblem.Slot(0, 0, new int[] {0})},
            new double[][] {minutes},
            new double[1][4],
            new double[4],
            new double[1][4],
            DayProblem.Shared.nothing(4, 1),
            new double[] {900, 900, 900, 900},
            null);
    double[] prices = {50, 0, 50, 0};
    // Then
    assertEquals(78, new RelaxedDay(p, 0).best(0, prices, 0).value(), 1e-9);
    assertEquals(60, found(p, 0, 0, prices, ALL, 0, new ArrayList<>()), 1e-9);
  }

  private static double earns(DayProblem p, int kind, int date, double[] prices, int[] stops) {
    DayPrice day = new DayPrice(p);
    assertTrue(day.price(kind, date, stops, stops.length, -1, -1));
    return Arrays.stream(stops).mapToDouble(c -> prices[c]).sum() - day.cost;
  }
}
