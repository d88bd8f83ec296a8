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

  private final DayProblem p;
  private final int[][] near;
  private final DayPrice price;
  private final int[][] route;
  private final int[] routeOf;

  /** A kind that can run each route. */
  private final int[] kindOf;

  /** Kinds that can do each stop alone, the cheapest first, so many at most. */
  private final int[][] kindsOf;

  private record Join(int from, int to, double saved) {}

  Savings(DayProblem p, int[][] near) {
    this.p = p;
    this.near = near;
    price = new DayPrice(p);
    route = new int[p.stops()][];
    routeOf = new int[p.stops()];
    kindOf = new int[p.stops()];
    kindsOf = new int[p.stops()][];
  }

  /** Fills an empty solution; stops that find no slot stay absent. */
  void apply(Solution s) {
    for (int c = 0; c < p.stops(); c++) {
      route[c] = new int[] {c};
      routeOf[c] = c;
      kindsOf[c] = kindsFor(c);
      kindOf[c] = kindsOf[c].length == 0 ? 0 : kindsOf[c][0];
    }
    for (Join join : joins()) {
      tryJoin(join.from(), join.to());
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

  private Join[] joins() {
    double[] legs = p.legs();
    double[] out = new double[p.stops()];
    double[] back = new double[p.stops()];
    for (int c = 0; c < p.stops(); c++) {
      out[c] = Double.POSITIVE_INFINITY;
      back[c] = Double.POSITIVE_INFINITY;
      for (int d = p.stops(); d < p.places(); d++) {
        out[c] = Math.min(out[c], legs[p.leg(d, c) + 1]);
        back[c] = Math.min(back[c], legs[p.leg(c, d) + 1]);
      }
    }
    List<Join> joins = new ArrayList<>();
    for (int c = 0; c < p.stops(); c++) {
      for (int other : near[c]) {
        double saved = back[c] + out[other] - legs[p.leg(c, other) + 1];
        if (other != c && saved > 0) {
          joins.add(new Join(c, other, saved));
        }
      }
    }
    Join[] sorted = joins.toArray(Join[]::new);
    Arrays.parallelSort(sorted, Comparator.comparingDouble(Join::saved).reversed());
    return sorted;
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
    int kind = kindFor(joined, kindOf[a], kindOf[b], kindsOf[from]);
    if (kind >= 0) {
      route[a] = joined;
      route[b] = null;
      kindOf[a] = kind;
      for (int stop : rb) {
        routeOf[stop] = a;
      }
    }
  }

  private int[] kindsFor(int stop) {
    int[] alone = {stop};
    double[] cost = new double[p.kinds().length];
    for (int k = 0; k < cost.length; k++) {
      cost[k] = runs(k, alone, p.demand()[stop]) ? price.cost : Double.POSITIVE_INFINITY;
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
    if (runs(first, stops, demand)) {
      return first;
    }
    if (second != first && runs(second, stops, demand)) {
      return second;
    }
    for (int k : others) {
      if (k != first && k != second && runs(k, stops, demand)) {
        return k;
      }
    }
    return -1;
  }

  private boolean runs(int k, int[] stops, double demand) {
    return demand <= p.kinds()[k].capacity() + 1e-7
        && price.price(k, 0, stops, stops.length, -1, -1)
        && Double.isFinite(price.cost);
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
    int date = p.slots()[slot].date();
    for (int k : p.slots()[slot].kinds()) {
      if (s.admitsAll(slot, k, stops, stops.length)
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
