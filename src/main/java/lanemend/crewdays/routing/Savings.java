package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * First days by savings (Clarke and Wright, Operations Research 12, 1964): every stop starts as a
 * day of its own, and days are joined end to start where that saves most driving, as long as some
 * kind of day can run the joined day. Days then go to slots, most urgent first.
 */
final class Savings {
  /** Kinds tried for a joined day: an agency of many crews has hundreds, most of them far away. */
  private static final int MOST_KINDS = 24;

  /** Rounding that must not cut off a join that would do. */
  private static final double SLACK = 1e-6;

  private static final int RADIX = 1 << Short.SIZE;

  private final DayProblem p;
  private final int[][] near;
  private final DayPrice price;
  private final int[][] route;
  private final int[] routeOf;

  /** A kind that can run each route. */
  private final int[] kindOf;

  /** Kinds that can do each stop alone, the cheapest first, so many at most. */
  private final int[][] kindsOf;

  /** Longest day of any kind, with room for rounding. */
  private final double longest;

  /** No kind of day serves the stop in less. */
  private final double[] leastService;

  /** The least that each route takes besides the drives from and to a depot, and its variance. */
  private final double[] leastMinutes;

  private final double[] leastVariances;

  /** Driving from and to the nearest depot, minutes by stop. */
  private final double[] back;

  private final double[] out;

  Savings(DayProblem p, int[][] near) {
    this.p = p;
    this.near = near;
    price = new DayPrice(p);
    route = new int[p.stops()][];
    routeOf = new int[p.stops()];
    kindOf = new int[p.stops()];
    kindsOf = new int[p.stops()][];
    leastService = new double[p.stops()];
    leastMinutes = new double[p.stops()];
    leastVariances = new double[p.stops()];
    longest = Arrays.stream(p.kinds()).mapToDouble(DayKind::limitMinutes).max().orElse(0) + SLACK;
    back = new double[p.stops()];
    out = new double[p.stops()];
  }

  /** Fills an empty solution; stops that find no slot stay absent. */
  void apply(Solution s) {
    IntStream.range(0, p.stops())
        .parallel()
        .forEach(c -> kindsOf[c] = kindsFor(c, new DayPrice(p)));
    for (int c = 0; c < p.stops(); c++) {
      route[c] = new int[] {c};
      routeOf[c] = c;
      leastMinutes[c] = leastService[c];
      kindOf[c] = kindsOf[c].length == 0 ? 0 : kindsOf[c][0];
    }
    int most = near[0].length;
    for (int join : joins(most)) {
      tryJoin(join / most, near[join / most][join % most]);
    }
    List<int[]> routes = new ArrayList<>();
    for (int[] r : route) {
      if (r != null) {
        routes.add(r);
      }
    }
    routes.sort(Comparator.comparingDouble(this::urgency).reversed());
    int[][] groups = DateSwap.groups(p);
    for (int[] r : routes) {
      place(s, r, groups);
    }
    int kept = 0;
    for (int c = 0; c < p.stops(); c++) {
      if (s.slotOf[c] < 0) {
        s.absent[kept++] = c;
      }
    }
    s.absentCount = kept;
  }

  /**
   * All joins that save anything, the largest savings first. A join's number is that of its first
   * stop times {@code most}, and the second's place among the first's neighbours.
   */
  private int[] joins(int most) {
    double[] legs = p.legs();
    for (int c = 0; c < p.stops(); c++) {
      out[c] = Double.POSITIVE_INFINITY;
      back[c] = Double.POSITIVE_INFINITY;
      for (int d = p.stops(); d < p.places(); d++) {
        out[c] = Math.min(out[c], legs[p.leg(d, c) + 1]);
        back[c] = Math.min(back[c], legs[p.leg(c, d) + 1]);
      }
    }
    int[] joins = new int[p.stops() * most];
    long[] falling = new long[joins.length];
    int count = 0;
    for (int c = 0; c < p.stops(); c++) {
      for (int i = 0; i < most; i++) {
        int other = near[c][i];
        double saved = back[c] + out[other] - legs[p.leg(c, other) + 1];
        if (other != c && saved > 0) {
          joins[count] = c * most + i;
          falling[count++] = ~Double.doubleToRawLongBits(saved);
        }
      }
    }
    return sorted(Arrays.copyOf(joins, count), Arrays.copyOf(falling, count));
  }

  /**
   * Numbers in the order of their keys, equal ones as they stand: radix sort, 16 bits at a time
   * from the lowest. Millions of joins as objects would fill much memory.
   */
  static int[] sorted(int[] numbers, long[] keys) {
    int[] from = numbers;
    int[] to = new int[from.length];
    long[] fromKeys = keys;
    long[] toKeys = new long[from.length];
    for (int shift = 0; shift < Long.SIZE; shift += Short.SIZE) {
      int[] at = new int[RADIX + 1];
      for (long key : fromKeys) {
        at[(int) (key >>> shift & RADIX - 1) + 1]++;
      }
      Arrays.parallelPrefix(at, Integer::sum);
      for (int i = 0; i < from.length; i++) {
        int place = at[(int) (fromKeys[i] >>> shift & RADIX - 1)]++;
        to[place] = from[i];
        toKeys[place] = fromKeys[i];
      }
      int[] free = from;
      from = to;
      to = free;
      long[] freeKeys = fromKeys;
      fromKeys = toKeys;
      toKeys = freeKeys;
    }
    return from;
  }

  /** Joins the days of two stops where both are at an end of theirs. */
  private void tryJoin(int from, int to) {
    int a = routeOf[from];
    int b = routeOf[to];
    if (a == b) {
      return;
    }
    int[] ra = route[a];
    int[] rb = route[b];
    boolean turnA = ra[ra.length - 1] != from;
    boolean turnB = rb[0] != to;
    if ((turnA && ra[0] != from) || (turnB && rb[rb.length - 1] != to)) {
      return;
    }
    int[] joined = new int[ra.length + rb.length];
    for (int i = 0; i < ra.length; i++) {
      joined[i] = ra[turnA ? ra.length - 1 - i : i];
    }
    for (int i = 0; i < rb.length; i++) {
      joined[ra.length + i] = rb[turnB ? rb.length - 1 - i : i];
    }
    double variances = leastVariances[a] + leastVariances[b];
    double inner = leastMinutes[a] + leastMinutes[b] + p.legs()[p.leg(from, to) + 1];
    if (tooLong(inner + out[joined[0]] + back[joined[joined.length - 1]], variances)) {
      return;
    }
    int kind = kindFor(joined, kindOf[a], kindOf[b], kindsOf[from]);
    if (kind >= 0) {
      route[a] = joined;
      leastMinutes[a] = leastMinutes(joined);
      leastVariances[a] = variances;
      route[b] = null;
      kindOf[a] = kind;
      for (int stop : rb) {
        routeOf[stop] = a;
      }
    }
  }

  /** True when no kind of day has the time for stops that take at least this. */
  private boolean tooLong(double minutes, double variances) {
    return minutes > longest
        || (p.chance() != null && p.chance().beyond(longest, minutes, variances));
  }

  /** The least that stops in this order, or turned round, take with the drives between them. */
  private double leastMinutes(int[] stops) {
    double work = leastService[stops[0]];
    double ahead = 0;
    double turned = 0;
    for (int i = 1; i < stops.length; i++) {
      work += leastService[stops[i]];
      ahead += p.legs()[p.leg(stops[i - 1], stops[i]) + 1];
      turned += p.legs()[p.leg(stops[i], stops[i - 1]) + 1];
    }
    return work + Math.min(ahead, turned);
  }

  private int[] kindsFor(int stop, DayPrice pricing) {
    int[] alone = {stop};
    double[] cost = new double[p.kinds().length];
    leastService[stop] = Double.POSITIVE_INFINITY;
    leastVariances[stop] = Double.POSITIVE_INFINITY;
    for (int k = 0; k < cost.length; k++) {
      if (p.byStop().can(k, stop)) {
        leastService[stop] = Math.min(leastService[stop], p.byStop().service(k, stop));
        leastVariances[stop] = Math.min(leastVariances[stop], p.byStop().variance(k, stop));
      }
      boolean runs = runs(pricing, k, alone, p.demand()[stop]);
      cost[k] = runs ? pricing.cost : Double.POSITIVE_INFINITY;
    }
    return IntStream.range(0, cost.length)
        .filter(k -> Double.isFinite(cost[k]))
        .boxed()
        .sorted(Comparator.comparingDouble(k -> cost[k]))
        .limit(MOST_KINDS)
        .mapToInt(k -> k)
        .toArray();
  }

  /** A kind that can run these stops, those that ran their parts tried first; -1 when none can. */
  private int kindFor(int[] stops, int first, int second, int[] others) {
    double demand = 0;
    for (int stop : stops) {
      demand += p.demand()[stop];
    }
    if (runs(price, first, stops, demand)) {
      return first;
    }
    if (second != first && runs(price, second, stops, demand)) {
      return second;
    }
    for (int k : others) {
      if (k != first && k != second && runs(price, k, stops, demand)) {
        return k;
      }
    }
    return -1;
  }

  private boolean runs(DayPrice pricing, int k, int[] stops, double demand) {
    return demand <= p.kinds()[k].capacity() + 1e-7
        && pricing.mayDo(k, 0, stops, stops.length, Double.POSITIVE_INFINITY)
        && pricing.price(k, 0, stops, stops.length, -1, -1)
        && Double.isFinite(pricing.cost);
  }

  private double urgency(int[] stops) {
    double sum = 0;
    for (int stop : stops) {
      sum += p.late()[p.dates() - 1][stop];
    }
    return sum;
  }

  private void place(Solution s, int[] stops, int[][] groups) {
    double best = Double.POSITIVE_INFINITY;
    int bestSlot = -1;
    int bestKind = -1;
    for (int[] group : groups) {
      for (int slot : group) {
        int found = s.size[slot] > 0 ? -1 : cheapestKind(s, slot, stops);
        if (found >= 0) {
          if (price.cost < best) {
            best = price.cost;
            bestSlot = slot;
            bestKind = found;
          }
          break;
        }
      }
    }
    if (bestSlot >= 0) {
      s.setKind(bestSlot, bestKind);
      for (int i = 0; i < stops.length; i++) {
        s.skipped -= p.skipCost()[stops[i]];
        s.insert(bestSlot, i, stops[i]);
      }
    }
  }

  /** The cheapest kind for these stops, with its price left standing; -1 when none can. */
  private int cheapestKind(Solution s, int slot, int[] stops) {
    int best = -1;
    double cost = Double.POSITIVE_INFINITY;
    int date = p.date(slot);
    for (int k : p.slots()[slot].kinds()) {
      if (s.admitsAll(slot, k, stops, stops.length)
          && price.mayDo(k, date, stops, stops.length, cost)
          && price.price(k, date, stops, stops.length, -1, -1)
          && price.cost < cost) {
        cost = price.cost;
        best = k;
      }
    }
    price.cost = cost;
    return best;
  }
}
