package lanemend.crewdays.routing;

/**
 * How sure a day must be to end inside its limit. Driving and work of a day have a mean and a
 * variance; their sum is taken as lognormal with both, and its quantile at the wanted probability
 * must lie inside what waiting leaves of the limit.
 *
 * <p>Minutes of steps vary apart from each other, and all of a day's minutes vary together by one
 * factor of mean 1 (a slow crew, bad weather, heavy traffic). With {@code M} the mean of the sum,
 * {@code S} the sum of the separate variances and {@code c} the factor's coefficient of variation,
 * the variance is {@code (1 + c^2) S + c^2 M^2}.
 *
 * @param quantile standard normal quantile of the wanted probability
 * @param daySpread coefficient of variation of the common factor
 * @param driveSpread one standard deviation of a drive as a share of its mean
 * @param variance of the minutes at the stop, by kind and stop
 */
public record DayChance(
    double quantile, double daySpread, double driveSpread, double[][] variance) {
  private static final int HALVINGS = 30;

  /** Series of a larger share of variance are not used. */
  private static final double WIDE = 0.5;

  /** More than the rounding of either side of a comparison, as a share. */
  private static final double ROUNDING = 1e-12;

  /** Steps that bring a mean close enough to where its day is too long. */
  private static final int STEPS_DOWN = 3;

  /** More than the rounding of those steps, as a share. */
  private static final double CLOSE = 1e-9;

  /** Standard normal quantile up to which a longer mean always makes a longer day. */
  private static final double MOST_GROWING = 1.9;

  /** Variance of a day's minutes, from their mean and the sum of their separate variances. */
  public static double variance(double daySpread, double mean, double separate) {
    double c2 = daySpread * daySpread;
    return (1 + c2) * separate + c2 * mean * mean;
  }

  /** Minutes that the sum does not exceed with the wanted probability. */
  public double minutes(double mean, double separate) {
    if (!(mean > 0)) {
      return 0;
    }
    double logVariance = Math.log1p(variance(daySpread, mean, separate) / (mean * mean));
    return mean * Math.exp(quantile * Math.sqrt(logVariance) - logVariance / 2);
  }

  /**
   * True when the sum is not beyond {@code room} with the wanted probability: the answer of {@code
   * minutes(mean, separate) <= room}, mostly without its logarithm and its exponential. With {@code
   * x} the variance over the squared mean, {@code x - x^2/2 <= log(1 + x) <= x - x^2/2 + x^3/3};
   * and where the quantile grows with the logarithm, the exponential's series bounds it from both
   * sides.
   */
  boolean within(double mean, double separate, double room) {
    if (mean > 0 && quantile > 0 && room > 0) {
      double x = variance(daySpread, mean, separate) / (mean * mean);
      double least = x - x * x / 2;
      double most = least + x * x * x / 3;
      if (x < WIDE && most <= quantile * quantile) {
        double low = quantile * Math.sqrt(least) - least / 2;
        double high = quantile * Math.sqrt(most) - most / 2;
        if (mean * (1 + low + low * low / 2 + low * low * low / 6) > room * (1 + ROUNDING)) {
          return false;
        }
        double rest = high * high * high * (1.0 / 6 + high / 12);
        if (high < 1 && mean * (1 + high + high * high / 2 + rest) < room * (1 - ROUNDING)) {
          return true;
        }
      }
    }
    return minutes(mean, separate) <= room;
  }

  /**
   * The most mean minutes a day may have that ends inside the limit with the wanted probability,
   * when the separate variances add up to at least this. Where the wanted probability is beyond
   * what grows with mean and spread (about 97 %), the limit itself.
   */
  public double most(double limit, double separate) {
    if (quantile <= 0 || quantile > MOST_GROWING) {
      return limit;
    }
    double low = 0;
    double high = limit;
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (low + high) / 2;
      if (minutes(middle, separate) <= limit) {
        low = middle;
      } else {
        high = middle;
      }
    }
    // Beyond this spread a larger variance would make the quantile smaller, and prove nothing.
    double widest = Math.sqrt(Math.log1p(variance(daySpread, high, separate) / (high * high)));
    return widest <= quantile ? high : limit;
  }

  /**
   * Mean minutes from which on a day with at least these separate variances is proven not to end
   * inside the limit, as {@link #beyond} has it; the limit itself where nothing less is proven.
   */
  double beyondFrom(double limit, double separate) {
    double mean = limit;
    if (quantile > 0 && quantile <= MOST_GROWING) {
      // The quantile over the mean falls as the mean grows: each step comes down to it from above.
      for (int i = 0; i < STEPS_DOWN; i++) {
        mean *= limit / minutes(mean, separate);
      }
      mean *= 1 + CLOSE;
    }
    return mean < limit && beyond(limit, mean, separate) ? mean : limit;
  }

  /**
   * True when a day with at least this mean, whatever part of it is driven, takes the longer the
   * more its minutes vary: below a log spread as large as the quantile.
   */
  boolean growing(double mean, double separate) {
    double drives = driveSpread * driveSpread * mean * mean;
    // The logarithm's argument is never smaller than the logarithm.
    double most = quantile * quantile * mean * mean;
    return quantile > 0 && variance(daySpread, mean, separate + drives) <= most;
  }

  /**
   * True when a day with at least this mean and these separate variances, whatever its drives add
   * to them, is proven not to end inside the limit with the wanted probability.
   */
  boolean beyond(double limit, double mean, double separate) {
    // The quantile grows with the mean while it is asked for about 97 % at most, and with the
    // spread up to a log spread as large as itself.
    if (!(quantile > 0 && quantile <= MOST_GROWING && mean > 0) || within(mean, separate, limit)) {
      return false;
    }
    double drives = driveSpread * driveSpread * mean * mean;
    double widest = Math.log1p(variance(daySpread, mean, separate + drives) / (mean * mean));
    return widest <= quantile * quantile;
  }
}
