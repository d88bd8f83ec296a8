package lanemend.renewal.program;

import java.util.Arrays;

/**
 * The Lagrangian bound: each year's budget is let go at a price, every section then picks its best
 * choice net of price, and the prices are moved to make the total bound as low as they can. The
 * bound is convex and piecewise linear in the prices; one price at a time is moved to its exact
 * minimum, then subgradient steps clear what that leaves.
 */
final class Multipliers {
  private final double[][] cost;
  private final double[][] benefit;
  private final int[][] year;
  private final double[] budgets;
  private final double[] price;
  private double bound;

  Multipliers(double[][] cost, double[][] benefit, int[][] year, double[] budgets) {
    this.cost = cost;
    this.benefit = benefit;
    this.year = year;
    this.budgets = budgets;
    price = new double[budgets.length];
    bound = at(price, null);
  }

  double[] price() {
    return price;
  }

  double bound() {
    return bound;
  }

  /** Net worth of a choice at the prices. */
  double net(int s, int c) {
    return benefit[s][c] - price[year[s][c]] * cost[s][c];
  }

  /** The bound at prices {@code p}; spending of the sections' picks into {@code spent}. */
  private double at(double[] p, double[] spent) {
    double total = 0;
    for (int y = 0; y < budgets.length; y++) {
      total += p[y] * budgets[y];
    }
    if (spent != null) {
      Arrays.fill(spent, 0);
    }
    for (int s = 0; s < cost.length; s++) {
      double best = 0;
      int pick = -1;
      for (int c = 0; c < cost[s].length; c++) {
        double net = benefit[s][c] - p[year[s][c]] * cost[s][c];
        if (net > best) {
          best = net;
          pick = c;
        }
      }
      total += best;
      if (pick >= 0 && spent != null) {
        spent[year[s][pick]] += cost[s][pick];
      }
    }
    return total;
  }

  /** Lowers the bound; {@code target} is a benefit already reached. */
  void lower(double target, int rounds) {
    for (int sweep = 0; sweep < 12; sweep++) {
      double before = bound;
      for (int y = 0; y < budgets.length; y++) {
        coordinate(y);
      }
      if (before - bound <= 1e-9 * Math.abs(before)) {
        break;
      }
    }
    subgradient(target, rounds);
  }

  /**
   * The exact minimum over one year's price: its breakpoints are where sections change their mind.
   */
  private void coordinate(int y) {
    double[] breaks = new double[4 * Math.max(1, cost.length)];
    double[] drop = new double[breaks.length];
    int n = 0;
    for (int s = 0; s < cost.length; s++) {
      double other = 0;
      for (int c = 0; c < cost[s].length; c++) {
        if (year[s][c] != y) {
          other = Math.max(other, net(s, c));
        }
      }
      for (int c = 0; c < cost[s].length; c++) {
        if (year[s][c] == y && cost[s][c] > 0 && benefit[s][c] > other) {
          if (n == breaks.length) {
            breaks = Arrays.copyOf(breaks, 2 * n);
            drop = Arrays.copyOf(drop, 2 * n);
          }
          drop[n] = cost[s][c];
          breaks[n++] = (benefit[s][c] - other) / cost[s][c];
        }
      }
    }
    double[] candidates = Arrays.copyOf(breaks, n);
    Arrays.sort(candidates);
    // The bound is convex in this price: a ternary search over its breakpoints finds the minimum.
    double[] p = price.clone();
    int low = -1;
    int high = n - 1;
    while (high - low > 2) {
      int a = low + (high - low) / 3;
      int b = high - (high - low) / 3;
      if (value(p, y, candidates, a) <= value(p, y, candidates, b)) {
        high = b;
      } else {
        low = a;
      }
    }
    for (int k = low; k <= high; k++) {
      double value = value(p, y, candidates, k);
      if (value < bound) {
        bound = value;
        price[y] = k < 0 ? 0 : candidates[k];
      }
    }
  }

  private double value(double[] p, int y, double[] candidates, int k) {
    p[y] = k < 0 ? 0 : candidates[k];
    return at(p, null);
  }

  private void subgradient(double target, int rounds) {
    double[] p = price.clone();
    double[] spent = new double[budgets.length];
    double step = 1;
    int since = 0;
    for (int k = 0; k < rounds && step > 1e-4; k++) {
      double value = at(p, spent);
      if (value < bound - 1e-12 * Math.abs(bound)) {
        bound = value;
        System.arraycopy(p, 0, price, 0, p.length);
        since = 0;
      } else if (++since == 8) {
        since = 0;
        step /= 2;
        System.arraycopy(price, 0, p, 0, p.length);
        at(p, spent);
      }
      double norm = 0;
      for (int y = 0; y < p.length; y++) {
        double g = budgets[y] - spent[y];
        norm += g * g;
      }
      if (norm == 0) {
        return;
      }
      double length = step * Math.max(value - target, 1e-9 * Math.abs(value)) / norm;
      for (int y = 0; y < p.length; y++) {
        p[y] = Math.max(0, p[y] - length * (budgets[y] - spent[y]));
      }
    }
  }
}
