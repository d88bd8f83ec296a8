package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
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
 * <p>Any prices not above the cost of leaving out give a valid bound, and so does anything that is
 * at least what the best day earns. Good prices are looked for in two stages. First the best day is
 * bounded without an order ({@link RelaxedDay}), and a subgradient method moves the prices. Then it
 * is searched for with its order ({@link BestDay}); the days found are kept ({@link DayPool}),
 * prices that are best for these alone are soon told, and the next ones tried lie on the way there
 * (column generation, smoothed: Wentges 1997, from memory). Machines, plants and trucks that slots
 * of a date share are left free but for what one day alone may have.
 */
public final class LowerBound {
  /** Rounds without a better bound after which steps are halved. */
  private static final int PATIENCE = 12;

  private static final double FIRST_STEP = 1.2;
  private static final double LEAST_STEP = 0.003;

  /** Share of the time, and of the rounds, in which days go without an order at most. */
  private static final double UNORDERED_TIME = 0.6;

  private static final double UNORDERED_ROUNDS = 0.4;

  /** Rounds that look for the best prices of the days known. */
  private static final int POOL_ROUNDS = 300;

  private static final double POOL_STEP = 0.5;
  private static final int POOL_PATIENCE = 8;

  /** Share of the way to those prices; longer after a better bound, shorter after none. */
  private static final double FIRST_WAY = 0.2;

  private static final double LEAST_WAY = 0.05;
  private static final double MOST_WAY = 0.7;
  private static final double LONGER = 1.5;
  private static final double SHORTER = 0.7;

  /** Share of what is wanting that all slots together may leave open; halved when nothing comes. */
  private static final double CLOSE = 0.03;

  private static final double CLOSEST = 1e-4;

  /** Beginnings of a day looked into, by slot and kind. */
  private static final int MOST_STEPS = 20_000;

  /** Between two questions whether to go on, inside a round. */
  private static final long ASK_NANOS = 50_000_000;

  /** Rounding of sums must not make a bound that is too high. */
  private static final double SAFETY = 1e-9;

  private final DayProblem p;
  private final RelaxedDay[] days;
  private final int[][] kindsOf;
  private final double known;
  private final int rounds;
  private final double seconds;
  private final SearchProgress progress;
  private final DayPool pool;
  private final long start = System.nanoTime();
  private final Thread owner = Thread.currentThread();
  private long asked = start;
  private volatile boolean over;
  private int round;
  private double best = Double.NEGATIVE_INFINITY;
  private double[] bestPrice;

  /** What each slot earned at most without an order, at the best prices. */
  private RelaxedDay.Best[] unordered;

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

  /** What a slot earns at most at some prices, null for nothing. */
  private interface Earning {
    RelaxedDay.Best of(int slot);
  }

  private LowerBound(
      DayProblem p, double known, int rounds, double seconds, SearchProgress progress) {
    this.p = p;
    this.known = known;
    this.rounds = Math.max(1, rounds);
    this.seconds = seconds;
    this.progress = progress;
    days =
        IntStream.range(0, p.kinds().length)
            .parallel()
            .mapToObj(k -> new RelaxedDay(p, k))
            .toArray(RelaxedDay[]::new);
    kindsOf = Arrays.stream(p.slots()).map(DayProblem.Slot::kinds).toArray(int[][]::new);
    pool = new DayPool(p);
  }

  /**
   * Looks for a bound. Where rounds run out before the time does it is the same every time.
   *
   * @param known cost of a solution at hand, what it leaves out included; guides the steps
   * @param prices to begin with, by stop, for instance each stop's share of that cost
   * @param stops of that solution in order, by slot; may be empty
   * @param rounds at most
   * @param seconds at most; the first round is always finished
   * @param progress may end it early; called by this thread only
   */
  public static Bound of(
      DayProblem p,
      double known,
      double[] prices,
      int[][] stops,
      int rounds,
      double seconds,
      SearchProgress progress) {
    LowerBound bound = new LowerBound(p, known, rounds, seconds, progress);
    for (int s = 0; s < stops.length; s++) {
      if (stops[s].length > 0) {
        bound.pool.add(s, stops[s]);
      }
    }
    return bound.search(prices);
  }

  private Bound search(double[] prices) {
    bestPrice = prices.clone();
    for (int c = 0; c < prices.length; c++) {
      bestPrice[c] = Math.max(0, Math.min(prices[c], p.skipCost()[c]));
    }
    withoutOrder();
    inOrder();
    return new Bound(best - Math.abs(best) * SAFETY, round);
  }

  private void withoutOrder() {
    Subgradient way = new Subgradient(bestPrice, p.skipCost(), known, FIRST_STEP, PATIENCE);
    boolean more = true;
    while (more) {
      double[] price = way.price();
      RelaxedDay.Best[] chosen = chosen(s -> round > 0 && over() ? null : withoutOrder(s, price));
      if (round > 0 && over) {
        return;
      }
      round++;
      if (way.learn(value(price, chosen), taken(chosen))) {
        best = way.best();
        bestPrice = price;
        unordered = chosen;
      }
      more =
          !way.reached()
              && !over(0)
              && way.step() > LEAST_STEP
              && used() < UNORDERED_TIME
              && round < UNORDERED_ROUNDS * rounds;
    }
  }

  private void inOrder() {
    double[] price = bestPrice;
    double way = FIRST_WAY;
    double close = CLOSE;
    double hoped = known;
    boolean first = true;
    while (round < rounds && close > CLOSEST && known - best > Math.abs(known) * 1e-7 && !over(0)) {
      double[] at = price;
      double open = close * Math.max(0, hoped - best) / Math.max(1, kindsOf.length);
      List<List<int[]>> seen = new ArrayList<>();
      IntStream.range(0, kindsOf.length).forEach(s -> seen.add(new ArrayList<>()));
      RelaxedDay.Best[] chosen = chosen(s -> inOrder(s, at, open, seen.get(s)));
      if (over && !first) {
        return;
      }
      first = false;
      round++;
      int had = pool.size();
      for (int s = 0; s < seen.size(); s++) {
        for (int[] stops : seen.get(s)) {
          pool.add(s, stops);
        }
      }
      double value = value(price, chosen);
      boolean better = value > best;
      if (better) {
        best = value;
        bestPrice = price;
      } else if (pool.size() == had) {
        close /= 2;
      }
      unordered = null;
      way = better ? Math.min(MOST_WAY, LONGER * way) : Math.max(LEAST_WAY, SHORTER * way);
      Subgradient ofPool = ofPool();
      hoped = ofPool.best();
      price = between(bestPrice, ofPool.bestPrice(), way);
    }
  }

  /** Prices that are good for the days known. */
  private Subgradient ofPool() {
    Subgradient way = new Subgradient(bestPrice, p.skipCost(), known, POOL_STEP, POOL_PATIENCE);
    for (int i = 0; i < POOL_ROUNDS && !way.reached() && !over(); i++) {
      double[] price = way.price();
      RelaxedDay.Best[] chosen = chosen(s -> pool.best(s, price));
      way.learn(value(price, chosen), taken(chosen));
    }
    return way;
  }

  private static double[] between(double[] from, double[] to, double share) {
    double[] price = from.clone();
    for (int c = 0; c < price.length; c++) {
      price[c] += share * (to[c] - price[c]);
    }
    return price;
  }

  /** Share of the time used. */
  private double used() {
    return (System.nanoTime() - start) / 1e9 / seconds;
  }

  /**
   * True when the time is up or somebody wants an end. Asked for on every core; who listens is told
   * by the thread that began only, at most once in so many nanoseconds.
   */
  private boolean over(long nanosApart) {
    double used = used();
    if (over || used > 1) {
      over = true;
    } else if (Thread.currentThread() == owner && System.nanoTime() - asked >= nanosApart) {
      asked = System.nanoTime();
      over |= !progress.at(Math.max(used, (double) round / rounds), best);
    }
    return over;
  }

  private boolean over() {
    return over(ASK_NANOS);
  }

  private RelaxedDay.Best[] chosen(Earning earning) {
    RelaxedDay.Best[] chosen = new RelaxedDay.Best[kindsOf.length];
    IntStream.range(0, kindsOf.length).parallel().forEach(s -> chosen[s] = earning.of(s));
    return chosen;
  }

  /** The bound these prices give when slots earn this. */
  private static double value(double[] price, RelaxedDay.Best[] chosen) {
    double sum = Arrays.stream(price).sum();
    for (RelaxedDay.Best one : chosen) {
      sum -= one == null ? 0 : one.value();
    }
    return sum;
  }

  /** How often each stop is taken. */
  private int[] taken(RelaxedDay.Best[] chosen) {
    int[] taken = new int[p.stops()];
    for (RelaxedDay.Best one : chosen) {
      if (one != null) {
        Arrays.stream(one.stops()).forEach(c -> taken[c]++);
      }
    }
    return taken;
  }

  /** What a slot earns at most when the order of its stops is given up. */
  private RelaxedDay.Best withoutOrder(int slot, double[] price) {
    RelaxedDay.Best best = null;
    for (int k : kindsOf[slot]) {
      double floor = best == null ? 0 : best.value();
      RelaxedDay.Best one = days[k].best(p.date(slot), price, floor);
      best = one == null ? best : one;
    }
    return best;
  }

  /**
   * What a slot earns at most, its stops in order; the most promising kind first.
   *
   * @param open how much more than the best day known may be left open
   * @param seen takes better days than are known
   * @return when ended early what it earns without an order where that is known, else null
   */
  private RelaxedDay.Best inOrder(int slot, double[] price, double open, List<int[]> seen) {
    record Sack(RelaxedDay day, RelaxedDay.Knapsack items) {}
    RelaxedDay.Best early = unordered == null ? null : unordered[slot];
    if (over()) {
      return early;
    }
    int date = p.date(slot);
    RelaxedDay.Best known = pool.best(slot, price);
    double most = known == null ? 0 : known.value();
    List<Sack> sacks = new ArrayList<>();
    for (int k : kindsOf[slot]) {
      RelaxedDay.Knapsack items = days[k].fill(date, price, most);
      if (items != null) {
        sacks.add(new Sack(days[k], items));
      }
    }
    sacks.sort(Comparator.comparingDouble((Sack sack) -> -sack.items().value()));
    BestDay search = new BestDay(p, MOST_STEPS, open, this::over, seen::add);
    for (Sack sack : sacks) {
      if (over()) {
        return early;
      }
      if (sack.items().value() > most) {
        most = search.most(sack.day(), sack.items(), date, price, most);
      }
    }
    return new RelaxedDay.Best(most, new int[0]);
  }
}
