package lanemend.renewal.sections;

import java.util.Arrays;

/**
 * Optimal partition of a series by pruned exact search (PELT: Killick, Fearnhead and Eckley 2012).
 */
public final class Pelt {
  private Pelt() {}

  /** Cost of one segment: minus twice its log-likelihood. */
  @FunctionalInterface
  public interface Cost {
    /** Cost of points {@code from} (included) to {@code to} (not included). */
    double of(int from, int to);
  }

  /**
   * The partition.
   *
   * @param ends last point of each segment plus one; the last is the series' length
   * @param cost segments' costs plus the penalty for each change
   */
  public record Partition(int[] ends, double cost) {}

  /**
   * The cheapest partition into segments of at least {@code shortest} points, {@code penalty} for
   * each change.
   *
   * @throws IllegalArgumentException when the penalty is negative or {@code shortest} below 1
   */
  public static Partition partition(Cost cost, int points, double penalty, int shortest) {
    if (!(penalty >= 0) || shortest < 1) {
      throw new IllegalArgumentException("penalty " + penalty + ", shortest " + shortest);
    }
    double[] best = new double[points + 1];
    int[] from = new int[points + 1];
    // A start found hopeless at t may still serve ends before t + shortest, which the better start
    // t cannot reach yet.
    int[] hopelessFrom = new int[points + 1];
    Arrays.fill(hopelessFrom, Integer.MAX_VALUE);
    Arrays.fill(best, Double.POSITIVE_INFINITY);
    best[0] = -penalty;
    int[] starts = new int[points + 1];
    int count = 0;
    for (int t = shortest; t <= points; t++) {
      if (!Double.isInfinite(best[t - shortest])) {
        starts[count++] = t - shortest;
      }
      int kept = 0;
      for (int k = 0; k < count; k++) {
        int s = starts[k];
        if (t < hopelessFrom[s]) {
          starts[kept++] = s;
          double value = best[s] + cost.of(s, t) + penalty;
          if (value < best[t]) {
            best[t] = value;
            from[t] = s;
          }
        }
      }
      count = kept;
      for (int k = 0; k < count; k++) {
        int s = starts[k];
        if (best[s] + cost.of(s, t) > best[t]) {
          hopelessFrom[s] = Math.min(hopelessFrom[s], t + shortest);
        }
      }
    }
    if (Double.isInfinite(best[points])) {
      return new Partition(new int[] {points}, cost.of(0, points));
    }
    return new Partition(ends(from, points), best[points]);
  }

  private static int[] ends(int[] from, int points) {
    int[] reversed = new int[points + 1];
    int n = 0;
    for (int t = points; t > 0; t = from[t]) {
      reversed[n++] = t;
    }
    int[] ends = new int[n];
    for (int i = 0; i < n; i++) {
      ends[i] = reversed[n - 1 - i];
    }
    return ends;
  }

  /**
   * Poisson counts over exposures, one rate a segment: {@code 2 S (ln T - ln S)}; 0 where S is 0.
   */
  public static Cost poisson(int[] counts, double[] exposure) {
    double[] sum = new double[counts.length + 1];
    double[] time = new double[counts.length + 1];
    for (int i = 0; i < counts.length; i++) {
      sum[i + 1] = sum[i] + counts[i];
      time[i + 1] = time[i] + exposure[i];
    }
    return (a, b) -> {
      double s = sum[b] - sum[a];
      return s == 0 ? 0 : 2 * s * (Math.log(time[b] - time[a]) - Math.log(s));
    };
  }

  /** Normal values of variance 1, one mean a segment: the sum of squares about it. */
  public static Cost mean(double[] values) {
    double[] sum = new double[values.length + 1];
    double[] squares = new double[values.length + 1];
    for (int i = 0; i < values.length; i++) {
      sum[i + 1] = sum[i] + values[i];
      squares[i + 1] = squares[i] + values[i] * values[i];
    }
    return (a, b) -> {
      double s = sum[b] - sum[a];
      return squares[b] - squares[a] - s * s / (b - a);
    };
  }
}
