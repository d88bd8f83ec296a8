package lanemend.renewal.repairs;

import org.hipparchus.special.Beta;
import org.hipparchus.special.Gamma;

/**
 * Counts whose Poisson rate is gamma distributed.
 *
 * @param mean expected count
 * @param rateVariance variance of the rate; 0 is a plain Poisson count
 */
public record NegativeBinomial(double mean, double rateVariance) {

  public NegativeBinomial {
    if (!(mean >= 0) || !(rateVariance >= 0)) {
      throw new IllegalArgumentException("mean " + mean + ", rate variance " + rateVariance);
    }
  }

  public double variance() {
    return mean + rateVariance;
  }

  /** Chance of {@code k} or fewer; 0 below zero. */
  public double cumulative(long k) {
    if (k < 0) {
      return 0;
    }
    if (mean == 0) {
      return 1;
    }
    double size = mean * mean / rateVariance;
    if (!(size < 1e8)) {
      return Gamma.regularizedGammaQ(k + 1.0, mean);
    }
    // The complement's argument keeps its digits where the mean is large.
    return 1 - Beta.regularizedBeta(mean / (size + mean), k + 1.0, size);
  }

  /** Smallest k with at least this chance of k or fewer. */
  public long quantile(double chance) {
    long high = Math.max(1, (long) Math.ceil(mean));
    while (cumulative(high) < chance) {
      high *= 2;
    }
    long low = -1;
    while (high - low > 1) {
      long middle = (low + high) >>> 1;
      if (cumulative(middle) >= chance) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return high;
  }
}
