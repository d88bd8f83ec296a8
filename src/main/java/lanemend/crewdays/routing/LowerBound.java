package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.BooleanSupplier;
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

  /** Share of the time in which days go without an order, which is far quicker. */
  private static final double UNORDERED = 0.4;

  private static final double ORDERED_STEP = 0.03;
  private static final int ORDERED_PATIENCE = 3;

  /** Beginnings of a day looked at; four times as many whenever steps are halved. */
  private static final int FIRST_STEPS = 20_000;

  /** Weight of the newest subgradient in the direction taken. */
  private static final double FRESH = 0.4;

  /** Rounding of sums must not make a bound that is too high. */
  private static final double SAFETY = 1e-9;

  private final DayProblem p;
  private final RelaxedDay[] days;
  private final int[][] kindsOf;
  private final double seconds;
  private final SearchProgress progress;
  private final long start = System.nanoTime();

  /** Beginnings of a day that may be looked at; 0 while days go without an order. */
  private int steps;

  private final Thread owner = Thread.currentThread();
  private volatile boolean over;

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

  private LowerBound(DayProblem p, double seconds, SearchProgress progress) {
    this.p = p;
    this.seconds = seconds;
    this.progress = progress;
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
    return new LowerBound(p, seconds, progress).search(known, prices, rounds);
  }

  private Bound search(double known, double[] prices, int rounds) {
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
    while (round < Math.max(1, rounds)) {
      int[] taken = new int[price.length];
      double done = (double) round / rounds;
      double soFar = best;
      double value = value(price, taken, () -> over(done, soFar));
      round++;
      if (round == 1 || value > best + Math.abs(best) * 1e-7) {
        best = value;
        bestPrice = price.clone();
        still = 0;
      } else if (++still >= (steps > 0 ? ORDERED_PATIENCE : PATIENCE)) {
        still = 0;
        step /= 2;
        steps *= 4;
        price = bestPrice.clone();
        Arrays.fill(direction, 0);
      }
      if (known - best <= Math.abs(known) * 1e-7 || over((double) round / rounds, best)) {
        break;
      }
      if (steps == 0 && (step <= LEAST_STEP || seconds() > UNORDERED * seconds)) {
        steps = FIRST_STEPS;
        step = ORDERED_STEP;
        still = 0;
        price = bestPrice.clone();
        Arrays.fill(direction, 0);
      } else if (step <= LEAST_STEP) {
        break;
      } else {
        move(price, direction, taken, step, known - value);
      }
    }
    return new Bound(best - Math.abs(best) * SAFETY, round);
  }

  private double seconds() {
    return (System.nanoTime() - start) / 1e9;
  }

  /**
   * True when the time is up or somebody wants an end. Asked for from both cores; who listens is
   * told by the thread that began only.
   */
  private boolean over(double share, double best) {
    if (seconds() > seconds || (Thread.currentThread() == owner && !progress.at(share, best))) {
      over = true;
    }
    return over;
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
  private double value(double[] price, int[] taken, BooleanSupplier end) {
    RelaxedDay.Best[] chosen = new RelaxedDay.Best[kindsOf.length];
    IntStream.range(0, kindsOf.length)
        .parallel()
        .forEach(s -> chosen[s] = steps > 0 && !end.getAsBoolean() ? ordered(s, price) : unordered(s, price));
    double sum = 0;
    for (double one : price) {
      sum += one;
    }
    for (RelaxedDay.Best best : chosen) {
      if (best != null) {
        sum -= best.value();
        for (int c : best.stops()) {
          taken[c]++;
        }
      }
    }
    return sum;
  }

  /** What a slot earns at most when the order of its stops is given up. */
  private RelaxedDay.Best unordered(int slot, double[] price) {
    RelaxedDay.Best best = null;
    for (int k : kindsOf[slot]) {
      double floor = best == null ? 0 : best.value();
      RelaxedDay.Best one = days[k].best(p.date(slot), price, floor);
      best = one == null ? best : one;
    }
    return best;
  }

  /** What a slot earns at most, its stops in order; the most promising kind first. */
  private RelaxedDay.Best ordered(int slot, double[] price) {
    record Sack(RelaxedDay day, RelaxedDay.Knapsack items) {}
    int date = p.date(slot);
    BestDay search = new BestDay(p, steps);
    RelaxedDay.Best best = null;
    List<Sack> sacks = new ArrayList<>();
    for (int k : kindsOf[slot]) {
      RelaxedDay.Knapsack items = days[k].fill(date, price, 0);
      if (items != null) {
        sacks.add(new Sack(days[k], items));
      }
    }
    sacks.sort(Comparator.comparingDouble((Sack sack) -> -sack.items().value()));
    for (Sack sack : sacks) {
      double floor = best == null ? 0 : best.value();
      if (sack.items().value() <= floor) {
        break;
      }
      RelaxedDay.Best one = search.search(sack.day(), sack.items(), date, price, floor);
      best = one == null ? best : one;
    }
    return best;
  }
}
