package lanemend.renewal.program;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Depth-first search over sections, the surest first, cut by the bound: what is decided, plus each
 * year's unspent money at its price, plus every undecided section's best net choice; the lowest of
 * several price vectors counts.
 */
final class Branching {
  private final double[][] cost;
  private final double[][] benefit;
  private final int[][] year;
  private final double tolerance;
  private final long mostNodes;
  private final int[] order;
  private final int[][] children;
  private final double[][] prices;
  private final double[][] suffix;
  private final double[] left;
  private final int[] pick;
  private int[] best;
  private double bestValue;
  private long nodes;
  private boolean complete = true;

  Branching(
      double[][] cost,
      double[][] benefit,
      int[][] year,
      double[] budgets,
      List<Multipliers> bounds,
      double tolerance,
      long mostNodes) {
    this.cost = cost;
    this.benefit = benefit;
    this.year = year;
    this.tolerance = tolerance;
    this.mostNodes = mostNodes;
    left = budgets.clone();
    pick = new int[cost.length];
    Multipliers main = bounds.get(0);
    order = order(main);
    children = new int[cost.length][];
    for (int s = 0; s < cost.length; s++) {
      int of = s;
      children[s] =
          IntStream.range(-1, cost[s].length)
              .boxed()
              .sorted(Comparator.comparingDouble((Integer c) -> c < 0 ? 0 : -main.net(of, c)))
              .mapToInt(Integer::intValue)
              .toArray();
    }
    prices = bounds.stream().map(Multipliers::price).toArray(double[][]::new);
    suffix = new double[prices.length][cost.length + 1];
    for (int k = 0; k < prices.length; k++) {
      for (int d = cost.length - 1; d >= 0; d--) {
        suffix[k][d] = suffix[k][d + 1] + bestNet(bounds.get(k), order[d]);
      }
    }
  }

  private double bestNet(Multipliers m, int s) {
    double net = 0;
    for (int c = 0; c < cost[s].length; c++) {
      net = Math.max(net, m.net(s, c));
    }
    return net;
  }

  /** By the lead of the best choice over the second: what is sure is decided first. */
  private int[] order(Multipliers m) {
    double[] lead = new double[cost.length];
    for (int s = 0; s < cost.length; s++) {
      double first = 0;
      double second = Double.NEGATIVE_INFINITY;
      for (int c = 0; c < cost[s].length; c++) {
        double net = m.net(s, c);
        second = Math.max(second, Math.min(first, net));
        first = Math.max(first, net);
      }
      lead[s] = first - second;
    }
    return IntStream.range(0, cost.length)
        .boxed()
        .sorted(Comparator.comparingDouble((Integer s) -> -lead[s]))
        .mapToInt(Integer::intValue)
        .toArray();
  }

  /** Searches from a known program; true when all branches were searched or cut. */
  boolean search(int[] known, double value) {
    best = known.clone();
    bestValue = value;
    java.util.Arrays.fill(pick, -1);
    // A stack of its own: a county has more sections than a thread has frames.
    int[] next = new int[cost.length + 1];
    double[] decided = new double[cost.length + 1];
    int d = 0;
    while (d >= 0) {
      if (d == cost.length) {
        take(decided[d]);
        d = back(d);
        continue;
      }
      int s = order[d];
      if (next[d] == children[s].length || nodes >= mostNodes) {
        complete &= next[d] == children[s].length;
        next[d] = 0;
        d = back(d);
        continue;
      }
      int c = children[s][next[d]++];
      if (c >= 0 && (benefit[s][c] <= 0 || cost[s][c] > left[year[s][c]] + 1e-9)) {
        continue;
      }
      nodes++;
      choose(s, c, 1);
      decided[d + 1] = decided[d] + (c < 0 ? 0 : benefit[s][c]);
      if (bound(decided[d + 1], d + 1) <= bestValue * (1 + tolerance) + 1e-9) {
        choose(s, c, -1);
        continue;
      }
      pick[s] = c;
      d++;
    }
    return complete;
  }

  private void take(double value) {
    if (value > bestValue) {
      bestValue = value;
      best = pick.clone();
    }
  }

  private int back(int d) {
    if (d > 0) {
      int s = order[d - 1];
      choose(s, pick[s], -1);
      pick[s] = -1;
    }
    return d - 1;
  }

  private void choose(int s, int c, int sign) {
    if (c >= 0) {
      left[year[s][c]] -= sign * cost[s][c];
    }
  }

  private double bound(double decided, int d) {
    double least = Double.POSITIVE_INFINITY;
    for (int k = 0; k < prices.length; k++) {
      double sum = decided + suffix[k][d];
      for (int y = 0; y < left.length; y++) {
        sum += prices[k][y] * left[y];
      }
      least = Math.min(least, sum);
    }
    return least;
  }

  int[] best() {
    return best;
  }

  double bestValue() {
    return bestValue;
  }

  long nodes() {
    return nodes;
  }
}
