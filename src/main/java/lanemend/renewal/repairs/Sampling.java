package lanemend.renewal.repairs;

import java.util.SplittableRandom;

/** Random numbers the forecasts draw; repeatable from the generator's seed. */
public final class Sampling {
  /** Above this many, a sum of tonnages is drawn as normal with its exact mean and variance. */
  private static final long MANY = 500;

  private final SplittableRandom random;

  public Sampling(SplittableRandom random) {
    this.random = random;
  }

  public double uniform() {
    return random.nextDouble();
  }

  public double normal() {
    return random.nextGaussian();
  }

  /** A gamma variate with mean 1 and this variance; 1 when the variance is 0. */
  public double gammaWithMeanOne(double variance) {
    return variance == 0 ? 1 : gamma(1 / variance) * variance;
  }

  /** A gamma variate of unit scale (Marsaglia and Tsang 2000). */
  public double gamma(double shape) {
    if (shape < 1) {
      return gamma(shape + 1) * Math.pow(1 - random.nextDouble(), 1 / shape);
    }
    double d = shape - 1.0 / 3;
    double c = 1 / Math.sqrt(9 * d);
    while (true) {
      double x = random.nextGaussian();
      double v = 1 + c * x;
      if (v <= 0) {
        continue;
      }
      v = v * v * v;
      double u = 1 - random.nextDouble();
      if (Math.log(u) < x * x / 2 + d - d * v + d * Math.log(v)) {
        return d * v;
      }
    }
  }

  /**
   * A Poisson variate: by inversion for small means, else split by the arrival time of about half
   * the events (Ahrens and Dieter 1974), so that no approximation enters.
   */
  public long poisson(double mean) {
    long n = 0;
    double left = mean;
    while (left > 12) {
      long half = (long) Math.floor(left * 7 / 8);
      double at = gamma((double) half);
      if (at > left) {
        return n + binomial(half - 1, left / at);
      }
      n += half;
      left -= at;
    }
    double limit = Math.exp(-left);
    double product = 1 - random.nextDouble();
    while (product > limit) {
      n++;
      product *= 1 - random.nextDouble();
    }
    return n;
  }

  private long binomial(long trials, double chance) {
    long n = 0;
    for (long k = 0; k < trials; k++) {
      if (random.nextDouble() < chance) {
        n++;
      }
    }
    return n;
  }

  /** Sum of n lognormal variates. */
  public double lognormals(long n, double logMean, double logSd) {
    if (n > MANY) {
      double mean = Math.exp(logMean + logSd * logSd / 2);
      double variance = mean * mean * Math.expm1(logSd * logSd);
      return Math.max(0, n * mean + Math.sqrt(n * variance) * random.nextGaussian());
    }
    double sum = 0;
    for (long k = 0; k < n; k++) {
      sum += Math.exp(logMean + logSd * random.nextGaussian());
    }
    return sum;
  }
}
