package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
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

  /** However dear. */
  private static final double ANY = Double.POSITIVE_INFINITY;

  /** Joins tried at once, and those of them that one thread tries. */
  private static final int BATCH = 4_096;

  private static final int CHUNK = 256;

  private static final int RADIX = 1 << Short.SIZE;

  private final DayProblem p;
  private final StopKinds byStop;
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
    byStop = p.byStop();
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
    joinAll(joins(near[0].length));
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

  /**
   * Joins days in the order given. Few joins will do, so those of a batch are tried at once, and
   * again one by one only where one before has changed a day of theirs.
   */
  private void joinAll(int[] joins) {
    int most = near[0].length;
    Join[] tried = new Join[BATCH];
    BitSet changed = new BitSet(p.stops());
    for (int start = 0; start < joins.length; start += BATCH) {
      int first = start;
      int count = Math.min(BATCH, joins.length - start);
      IntStream.range(0, (count + CHUNK - 1) / CHUNK)
          .parallel()
          .forEach(
              chunk -> {
                DayPrice pricing = new DayPrice(p);
                for (int i = chunk * CHUNK; i < Math.min(count, (chunk + 1) * CHUNK); i++) {
                  int join = joins[first + i];
                  tried[i] = joined(join / most, near[join / most][join % most], pricing);
                }
              });
      changed.clear();
      for (int i = 0; i < count; i++) {
        int from = joins[start + i] / most;
        int to = near[from][joins[start + i] % most];
        boolean stale = changed.get(routeOf[from]) || changed.get(routeOf[to]);
        Join join = stale ? joined(from, to, price) : tried[i];
        if (join != null) {
          changed.set(routeOf[from]);
          changed.set(routeOf[to]);
          apply(join, routeOf[from], routeOf[to]);
        }
      }
    }
  }

  /** Two days as one that a kind of day can run. */
  private record Join(int[] stops, int kind) {}

  /**
   * The days of two stops joined where both are at an end of theirs; null where they are not or no
   * kind can run it.
   */
  private Join joined(int from, int to, DayPrice pricing) {
    int a = routeOf[from];
    int b = routeOf[to];
    if (a == b) {
      return null;
    }
    int[] ra = route[a];
    int[] rb = route[b];
    boolean turnA = ra[ra.length - 1] != from;
    boolean turnB = rb[0] != to;
    if ((turnA && ra[0] != from) || (turnB && rb[rb.length - 1] != to)) {
      return null;
    }
    double inner = leastMinutes[a] + leastMinutes[b] + p.legs()[p.leg(from, to) + 1];
    double outer = out[ra[turnA ? ra.length - 1 : 0]] + back[rb[turnB ? 0 : rb.length - 1]];
    if (tooLong(inner + outer, leastVariances[a] + leastVariances[b])) {
      return null;
    }
    int[] joined = new int[ra.length + rb.length];
    for (int i = 0; i < ra.length; i++) {
      joined[i] = ra[turnA ? ra.length - 1 - i : i];
    }
    for (int i = 0; i < rb.length; i++) {
      joined[ra.length + i] = rb[turnB ? rb.length - 1 - i : i];
    }
    int kind = kindFor(pricing, joined, kindOf[a], kindOf[b], kindsOf[from]);
    return kind < 0 ? null : new Join(joined, kind);
  }

  private void apply(Join join, int a, int b) {
    for (int stop : route[b]) {
      routeOf[stop] = a;
    }
    route[a] = join.stops();
    leastMinutes[a] = leastMinutes(join.stops());
    leastVariances[a] += leastVariances[b];
    route[b] = null;
    kindOf[a] = join.kind();
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
    int[] kinds = new int[Math.min(MOST_KINDS, p.kinds().length)];
    double[] cost = new double[kinds.length];
    int count = 0;
    leastService[stop] = Double.POSITIVE_INFINITY;
    leastVariances[stop] = Double.POSITIVE_INFINITY;
    for (int k = 0; k < p.kinds().length; k++) {
      if (!byStop.can(k, stop)) {
        continue;
      }
      leastService[stop] = Math.min(leastService[stop], byStop.service(k, stop));
      leastVariances[stop] = Math.min(leastVariances[stop], byStop.variance(k, stop));
      double below = count < kinds.length ? ANY : cost[count - 1];
      if (runs(pricing, k, alone, p.demand()[stop], below) && pricing.cost < below) {
        count = Math.min(count + 1, kinds.length);
        int at = count - 1;
        while (at > 0 && cost[at - 1] > pricing.cost) {
          cost[at] = cost[at - 1];
          kinds[at] = kinds[at - 1];
          at--;
        }
        cost[at] = pricing.cost;
        kinds[at] = k;
      }
    }
    return Arrays.copyOf(kinds, count);
  }

  /** A kind that can run these stops, those that ran their parts tried first; -1 when none can. */
  private int kindFor(DayPrice pricing, int[] stops, int first, int second, int[] others) {
    double demand = 0;
    for (int stop : stops) {
      demand += p.demand()[stop];
    }
    if (runs(pricing, first, stops, demand, ANY)) {
      return first;
    }
    if (second != first && runs(pricing, second, stops, demand, ANY)) {
      return second;
    }
    for (int k : others) {
      if (k != first && k != second && runs(pricing, k, stops, demand, ANY)) {
        return k;
      }
    }
    return -1;
  }

  private boolean runs(DayPrice pricing, int k, int[] stops, double demand, double below) {
    return demand <= p.kinds()[k].capacity() + 1e-7
        && byStop.canAll(k, stops)
        && pricing.mayDo(k, 0, stops, stops.length, below)
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

  /** A day for a route. */
  private record Placed(int slot, int kind, double cost) {}

  /** Puts a route onto the first free day of the crew that runs it cheapest. */
  private void place(Solution s, int[] stops, int[][] groups) {
    Optional<Placed> best =
        Arrays.stream(groups)
            .parallel()
            .map(group -> firstFree(s, group, stops))
            .filter(Objects::nonNull)
            .min(Comparator.comparingDouble(Placed::cost));
    if (best.isPresent()) {
      int slot = best.get().slot();
      s.setKind(slot, best.get().kind());
      for (int i = 0; i < stops.length; i++) {
        s.skipped -= p.skipCost()[stops[i]];
        s.insert(slot, i, stops[i]);
      }
    }
  }

  /** The first day of a crew that can take these stops; null when none can. */
  private Placed firstFree(Solution s, int[] group, int[] stops) {
    DayPrice pricing = new DayPrice(p);
    for (int slot : group) {
      Placed found = s.size[slot] > 0 ? null : cheapestKind(s, slot, stops, pricing);
      if (found != null) {
        return found;
      }
    }
    return null;
  }

  /** The cheapest kind for these stops; null when none can. */
  private Placed cheapestKind(Solution s, int slot, int[] stops, DayPrice pricing) {
    Placed best = null;
    double cost = ANY;
    int date = p.date(slot);
    for (int k : p.slots()[slot].kinds()) {
      if (s.admitsAll(slot, k, stops, stops.length)
          && pricing.mayDo(k, date, stops, stops.length, cost)
          && pricing.price(k, date, stops, stops.length, -1, -1)
          && pricing.cost < cost) {
        cost = pricing.cost;
        best = new Placed(slot, k, cost);
      }
    }
    return best;
  }
}
