package lanemend.crewdays;

import java.util.List;
import lanemend.crewdays.routing.DayChance;
import lanemend.patching.PatchDesign;
import lanemend.patching.WorkStep;
import org.hipparchus.special.Erf;

/**
 * The chance that a day ends inside its shift. Each step, drive and wait for trucks has a mean and
 * a standard deviation of its own; one factor stretches or shrinks the whole day. The sum is taken
 * as lognormal with the same mean and variance ({@link DayChance}); waits for the plant and the
 * first loads stay as they are. A test draws the steps one by one and states the worst error.
 */
final class FinishChance {
  private final FinishRule rule;

  /** For days looked at one by one, without variances by kind and zone. */
  private final DayChance alone;

  FinishChance(FinishRule rule) {
    this.rule = rule;
    alone = rule.asked() ? search(null) : null;
  }

  /**
   * How a day's minutes stray.
   *
   * @param mean minutes of driving and work
   * @param separate sum of the variances of steps, drives and waits, which vary apart
   * @param certain minutes of waiting for the plant and for first loads
   */
  record Minutes(double mean, double separate, double certain) {
    static final Minutes NONE = new Minutes(0, 0, 0);

    Minutes plus(double moreMean, double moreSeparate) {
      return new Minutes(mean + moreMean, separate + moreSeparate, certain);
    }

    Minutes waiting(double minutes) {
      return new Minutes(mean, separate, minutes);
    }
  }

  /** Variance of a zone's minutes, trucks never waited for. */
  double ofZone(WorkZone zone) {
    double sum =
        square(rule.setUpSpread() * zone.traffic().setUpMinutes())
            + square(rule.setUpSpread() * zone.traffic().takeDownMinutes());
    List<PatchDesign> repairs = zone.repairs();
    for (int i = 0; i < repairs.size(); i++) {
      if (i > 0) {
        sum += square(rule.setUpSpread() * Zones.betweenMinutes(zone, i));
      }
      for (WorkStep step : repairs.get(i).steps()) {
        sum += square(step.spreadMinutes());
      }
    }
    return sum;
  }

  /** Variance of the waits for trucks at a zone. */
  double ofTruckWait(double minutes) {
    return square(rule.truckWaitSpread() * minutes);
  }

  /** Variance of a drive. */
  double ofDrive(double minutes) {
    return square(rule.driveSpread() * minutes);
  }

  /** One standard deviation of a day, minutes. */
  double spread(Minutes day) {
    return Math.sqrt(DayChance.variance(rule.daySpread(), day.mean(), day.separate()));
  }

  /** Chance, 0 to 1, that the day takes at most {@code limit} minutes. */
  double within(Minutes day, double limit) {
    double room = limit - day.certain();
    if (!(room > 0)) {
      return 0;
    }
    double logVariance = Math.log1p(square(spread(day) / day.mean()));
    if (!(logVariance > 0)) {
      return day.mean() <= room ? 1 : 0;
    }
    double z = (Math.log(room / day.mean()) + logVariance / 2) / Math.sqrt(logVariance);
    return Erf.erfc(-z / Math.sqrt(2)) / 2;
  }

  /** True when the day keeps the wanted probability, to the rounding of its minutes. */
  boolean keeps(Minutes day, double limit) {
    return !rule.asked()
        || alone.minutes(day.mean(), day.separate()) <= limit - day.certain() + 1e-7;
  }

  /** What the search needs of it; {@code variance} by kind of day and zone. */
  DayChance search(double[][] variance) {
    return new DayChance(
        quantile(rule.probability()), rule.daySpread(), rule.driveSpread(), variance);
  }

  /** Standard normal quantile. */
  static double quantile(double probability) {
    return -Math.sqrt(2) * Erf.erfcInv(2 * probability);
  }

  private static double square(double v) {
    return v * v;
  }
}
