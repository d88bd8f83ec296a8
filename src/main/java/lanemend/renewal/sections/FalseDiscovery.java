package lanemend.renewal.sections;

import java.util.Comparator;
import java.util.stream.IntStream;

/** Step-up control of the false-discovery rate (Benjamini and Hochberg 1995). */
public final class FalseDiscovery {
  private FalseDiscovery() {}

  /** Adjusted p-values: rejecting those at or below q holds the rate at q. */
  public static double[] adjusted(double[] p) {
    int m = p.length;
    Integer[] order =
        IntStream.range(0, m)
            .boxed()
            .sorted(Comparator.comparingDouble((Integer i) -> p[i]))
            .toArray(Integer[]::new);
    double[] out = new double[m];
    double least = 1;
    for (int rank = m; rank >= 1; rank--) {
      int i = order[rank - 1];
      least = Math.min(least, p[i] * m / rank);
      out[i] = least;
    }
    return out;
  }

  /** The largest p-value that is rejected at rate q, by the step-up line; 0 when none is. */
  public static double line(double[] p, double q) {
    double[] adjusted = adjusted(p);
    int rejected = 0;
    for (double a : adjusted) {
      rejected += a <= q ? 1 : 0;
    }
    return rejected * q / p.length;
  }
}
