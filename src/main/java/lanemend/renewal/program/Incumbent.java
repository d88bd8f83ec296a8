package lanemend.renewal.program;

import java.util.Arrays;
import java.util.Comparator;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * A good program found by hand-like moves: fill by benefit per cost, then exchange one overlay for
 * another, or move it to another year, while that gains; from several starts.
 */
final class Incumbent {
  private static final double GRAIN = 1e-9;

  private final double[][] cost;
  private final double[][] benefit;
  private final int[][] year;
  private final double[] budgets;
  private final int[] sectionOf;
  private final int[] choiceOf;
  private int[] pick;
  private double[] left;
  private double value;

  Incumbent(double[][] cost, double[][] benefit, int[][] year, double[] budgets) {
    this.cost = cost;
    this.benefit = benefit;
    this.year = year;
    this.budgets = budgets;
    int all = Arrays.stream(cost).mapToInt(c -> c.length).sum();
    sectionOf = new int[all];
    choiceOf = new int[all];
    int k = 0;
    for (int s = 0; s < cost.length; s++) {
      for (int c = 0; c < cost[s].length; c++) {
        sectionOf[k] = s;
        choiceOf[k++] = c;
      }
    }
  }

  /** The best program of all starts: the choice of each section or -1. */
  int[] find(double[] price, int starts, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int[] best = null;
    double bestValue = -1;
    for (int k = 0; k < starts; k++) {
      clear();
      fill(order(price, k, random));
      improve();
      if (value > bestValue) {
        bestValue = value;
        best = pick.clone();
      }
    }
    return best;
  }

  private void clear() {
    pick = new int[cost.length];
    Arrays.fill(pick, -1);
    left = budgets.clone();
    value = 0;
  }

  /** All choices, the most promising first: net of price, by cost, by turns, with some noise. */
  private int[] order(double[] price, int start, SplittableRandom random) {
    double[] key = new double[sectionOf.length];
    double noise = start < 3 ? 0 : 0.3;
    for (int k = 0; k < key.length; k++) {
      int s = sectionOf[k];
      int c = choiceOf[k];
      double net = benefit[s][c] - price[year[s][c]] * cost[s][c];
      double perCost = benefit[s][c] / Math.max(cost[s][c], GRAIN);
      double base = start % 3 == 0 ? net : start % 3 == 1 ? perCost : benefit[s][c];
      key[k] = -base * (1 + noise * random.nextGaussian());
    }
    return IntStream.range(0, key.length)
        .boxed()
        .sorted(Comparator.comparingDouble((Integer k) -> key[k]))
        .mapToInt(Integer::intValue)
        .toArray();
  }

  private void fill(int[] order) {
    for (int k : order) {
      int s = sectionOf[k];
      if (pick[s] < 0 && benefit[s][choiceOf[k]] > 0) {
        trySet(s, choiceOf[k]);
      }
    }
  }

  private boolean fits(int s, int c) {
    int y = year[s][c];
    double own = pick[s] >= 0 && year[s][pick[s]] == y ? cost[s][pick[s]] : 0;
    return cost[s][c] <= left[y] + own + GRAIN * budgets[y];
  }

  private void set(int s, int c) {
    if (pick[s] >= 0) {
      left[year[s][pick[s]]] += cost[s][pick[s]];
      value -= benefit[s][pick[s]];
    }
    pick[s] = c;
    if (c >= 0) {
      left[year[s][c]] -= cost[s][c];
      value += benefit[s][c];
    }
  }

  private boolean trySet(int s, int c) {
    if (!fits(s, c)) {
      return false;
    }
    set(s, c);
    return true;
  }

  private void improve() {
    boolean better = true;
    while (better) {
      better = false;
      for (int s = 0; s < cost.length; s++) {
        for (int c = 0; c < cost[s].length; c++) {
          double gain = benefit[s][c] - (pick[s] >= 0 ? benefit[s][pick[s]] : 0);
          if (c != pick[s] && gain > GRAIN && (trySet(s, c) || makeRoom(s, c, gain))) {
            better = true;
          }
        }
      }
    }
  }

  /** Sets s to c by moving or dropping one other section of that year, when that gains. */
  private boolean makeRoom(int s, int c, double gain) {
    int y = year[s][c];
    int was = pick[s];
    set(s, c);
    for (int t = 0; t < cost.length; t++) {
      if (t == s || pick[t] < 0 || year[t][pick[t]] != y) {
        continue;
      }
      int old = pick[t];
      if (left[y] + cost[t][old] < -GRAIN * budgets[y]) {
        continue;
      }
      set(t, -1);
      int best = -1;
      for (int d = 0; d < cost[t].length; d++) {
        if (d != old && fits(t, d) && (best < 0 || benefit[t][d] > benefit[t][best])) {
          best = d;
        }
      }
      double kept = best < 0 ? 0 : Math.max(0, benefit[t][best]);
      if (gain + kept - benefit[t][old] > GRAIN) {
        if (best >= 0 && benefit[t][best] > 0) {
          set(t, best);
        }
        return true;
      }
      set(t, old);
    }
    set(s, was);
    return false;
  }
}
