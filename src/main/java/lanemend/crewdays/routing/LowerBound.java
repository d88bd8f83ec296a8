package lanemend.crewdays.routing;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * What no solution of a problem can cost less than, with stops left out priced as the problem
 * prices them. Lagrangian relaxation: the rule that each stop is done once or left out is given up
 * for a price on each stop, so that the slots part and each takes what pays it best:
 *
 * <pre>
 *   L(price) = sum of prices - sum over slots of max(0, best day of the slot at these prices)
 * </pre>
 *
 * <p>Any prices not above the cost of leaving out give a valid bound; a subgradient method looks
 * for good ones. The best day of a slot is itself bounded from above ({@link RelaxedDay});
 * machines, plants and trucks that slots of a date share are left free. All of that only lowers the
 * bound.
 */
public final class LowerBound {
  /** Rounds without a better bound after which steps are halved. */
  private static final int PATIENCE = 12;

  private static final double FIRST_STEP = 1.2;
  private static final double LEAST_STEP = 0.003;

  /** Weight of the newest subgradient in the direction taken. */
  private static final double FRESH = 0.4;

  /** Rounding of sums must not make a bound that is too high. */
  private static final double SAFETY = 1e-9;

  private final DayProblem p;
  private final RelaxedDay[] days;
  private final int[][] kindsOf;

  /**
   * What was proven.
   *
   * @param cost no solution costs less, what it leaves out included
   * @param rounds of prices tried
   */
  public record Bound(double cost, int rounds) {
    /** How much more a solution costs at most than the best there is, as a share of its cost. */
    public double gap(double solutionCost) {
      return solutionCost <= 0 ? 0 : Math.max(0, 1 - cost / solutionCost);
    }
  }

  private LowerBound(DayProblem p) {
    this.p = p;
    days =
        IntStream.range(0, p.kinds().length)
            .parallel()
            .mapToObj(k -> new RelaxedDay(p, k))
            .toArray(RelaxedDay[]::new);
    kindsOf = Arrays.stream(p.slots()).map(DayProblem.Slot::kinds).toArray(int[][]::new);
  }

  /**
   * Looks for a bound.
   *
   * @param known cost of a solution at hand, what it leaves out included; guides the steps
   * @param prices to begin with, by stop, for instance each stop's share of that cost
   * @param rounds at most
   * @param seconds at most; the first round is always finished
   * @param progress may end it early
   */
  public static Bound of(
      DayProblem p,
      double known,
      double[] prices,
      int rounds,
      double seconds,
      SearchProgress progress) {
    return new LowerBound(p).search(known, prices, rounds, seconds, progress);
  }

  private Bound search(
      double known, double[] prices, int rounds, double seconds, SearchProgress progress) {
    long end = System.nanoTime() + (long) (seconds * 1e9);
    double[] price = new double[p.stops()];
    for (int c = 0; c < price.length; c++) {
      price[c] = Math.max(0, Math.min(prices[c], p.skipCost()[c]));
    }
    double[] bestPrice = price.clone();
    double[] direction = new double[price.length];
    double best = Double.NEGATIVE_INFINITY;
    double step = FIRST_STEP;
    int still = 0;
    int round = 0;
    while (round < Math.max(1, rounds) && step > LEAST_STEP) {
      int[] taken = new int[price.length];
      double value = value(price, taken);
      round++;
      if (round == 1 || value > best + Math.abs(best) * 1e-7) {
        best = value;
        bestPrice = price.clone();
        still = 0;
      } else if (++still >= PATIENCE) {
        still = 0;
        step /= 2;
        price = bestPrice.clone();
        Arrays.fill(direction, 0);
      }
      if (known - best <= Math.abs(known) * 1e-7
          || System.nanoTime() > end
          || !progress.at((double) round / rounds, best)) {
        break;
      }
      move(price, direction, taken, step, known - value);
    }
    return new Bound(best - Math.abs(best) * SAFETY, round);
  }

  private void move(double[] price, double[] direction, int[] taken, double step, double short0) {
    double norm = 0;
    for (int c = 0; c < price.length; c++) {
      double slope = 1 - taken[c];
      if ((slope > 0 && price[c] >= p.skipCost()[c]) || (slope < 0 && price[c] <= 0)) {
        slope = 0;
      }
      direction[c] = direction[c] == 0 ? slope : FRESH * slope + (1 - FRESH) * direction[c];
      norm += direction[c] * direction[c];
    }
    if (norm == 0) {
      return;
    }
    double length = step * Math.max(0, short0) / norm;
    for (int c = 0; c < price.length; c++) {
      price[c] = Math.max(0, Math.min(price[c] + length * direction[c], p.skipCost()[c]));
    }
  }

  /** The bound these prices give; counts how often each stop is taken. */
  private double value(double[] price, int[] taken) {
    int[][] chosen = new int[kindsOf.length][];
    double[] pays = new double[kindsOf.length];
    IntStream.range(0, kindsOf.length)
        .parallel()
        .forEach(
            s -> {
              RelaxedDay.Best best = null;
              for (int k : kindsOf[s]) {
                double floor = best == null ? 0 : best.value();
                RelaxedDay.Best one = days[k].best(p.date(s), price, floor);
                best = one == null ? best : one;
              }
              chosen[s] = best == null ? new int[0] : best.stops();
              pays[s] = best == null ? 0 : best.value();
            });
    double sum = 0;
    for (double one : price) {
      sum += one;
    }
    for (int s = 0; s < pays.length; s++) {
      sum -= pays[s];
      for (int c : chosen[s]) {
        taken[c]++;
      }
    }
    return sum;
  }
}
