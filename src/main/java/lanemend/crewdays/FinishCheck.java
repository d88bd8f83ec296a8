package lanemend.crewdays;

import org.hipparchus.distribution.continuous.LogNormalDistribution;

/** Adds a day's minutes and their spreads up again; part of {@link PlanChecker}. */
final class FinishCheck {
  private final FinishRule rule;
  private double mean;
  private double squares;

  FinishCheck(FinishRule rule) {
    this.rule = rule;
  }

  /** Minutes of driving and work so far. */
  double mean() {
    return mean;
  }

  void drive(double minutes) {
    mean += minutes;
    squares += Math.pow(rule.driveSpread() * minutes, 2);
  }

  void zone(ZoneCheck zone, double truckWait) {
    mean += zone.minutes + truckWait;
    squares += zone.squares + Math.pow(rule.truckWaitSpread() * truckWait, 2);
  }

  /** Chance that the day takes at most {@code limit}, waits of {@code certain} minutes besides. */
  double within(double limit, double certain) {
    double c2 = rule.daySpread() * rule.daySpread();
    double variance = squares + c2 * squares + c2 * mean * mean;
    if (limit <= certain) {
      return 0;
    }
    if (!(variance > 0)) {
      return mean <= limit - certain ? 1 : 0;
    }
    double shape = Math.sqrt(Math.log(1 + variance / (mean * mean)));
    double location = Math.log(mean) - shape * shape / 2;
    return new LogNormalDistribution(location, shape).cumulativeProbability(limit - certain);
  }
}
