package lanemend.sample;

import java.util.List;
import java.util.SplittableRandom;

/**
 * Chance from a seed. {@link StrictMath} throughout, so that a seed gives the same county on every
 * machine; {@link #fork()} gives each subject its own stream, so that more defects do not bend the
 * roads.
 */
final class Dice {
  private final SplittableRandom random;

  Dice(long seed) {
    this(new SplittableRandom(seed));
  }

  private Dice(SplittableRandom random) {
    this.random = random;
  }

  Dice fork() {
    return new Dice(random.split());
  }

  double uniform(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  int below(int bound) {
    return random.nextInt(bound);
  }

  boolean chance(double probability) {
    return random.nextDouble() < probability;
  }

  /** Standard normal, by Box and Muller: its bits do not depend on a library's tables. */
  double normal() {
    double r = StrictMath.sqrt(-2 * StrictMath.log(1 - random.nextDouble()));
    return r * StrictMath.cos(2 * StrictMath.PI * random.nextDouble());
  }

  /** Normal, drawn again until it lies within the bounds. */
  double normalWithin(double mean, double sd, double low, double high) {
    while (true) {
      double v = mean + sd * normal();
      if (v >= low && v <= high) {
        return v;
      }
    }
  }

  /** Lognormal with this median and this standard deviation of the logarithm. */
  double lognormal(double median, double logSd) {
    return median * StrictMath.exp(logSd * normal());
  }

  /**
   * Gamma with mean 1, so that its variance is 1/shape. Marsaglia and Tsang (2000); below shape 1
   * by their power of a uniform.
   */
  double gammaMeanOne(double shape) {
    double boost = shape < 1 ? StrictMath.pow(1 - random.nextDouble(), 1 / shape) : 1;
    double d = (shape < 1 ? shape + 1 : shape) - 1.0 / 3;
    double c = 1 / StrictMath.sqrt(9 * d);
    while (true) {
      double z = normal();
      double v = 1 + c * z;
      if (v <= 0) {
        continue;
      }
      v = v * v * v;
      double u = 1 - random.nextDouble();
      if (StrictMath.log(u) < 0.5 * z * z + d - d * v + d * StrictMath.log(v)) {
        return boost * d * v / shape;
      }
    }
  }

  /** Poisson count; large means are split so that exp(-mean) never underflows. */
  int poisson(double mean) {
    int count = 0;
    double left = mean;
    while (left > 20) {
      count += poissonByProduct(20);
      left -= 20;
    }
    return count + poissonByProduct(left);
  }

  private int poissonByProduct(double mean) {
    double limit = StrictMath.exp(-mean);
    int count = -1;
    double product = 1;
    do {
      product *= random.nextDouble();
      count++;
    } while (product > limit);
    return count;
  }

  <T> T pick(List<T> items) {
    return items.get(random.nextInt(items.size()));
  }

  /** An index by weight. */
  int pick(double... weights) {
    double sum = 0;
    for (double w : weights) {
      sum += w;
    }
    double left = random.nextDouble() * sum;
    for (int i = 0; i < weights.length - 1; i++) {
      left -= weights[i];
      if (left < 0) {
        return i;
      }
    }
    return weights.length - 1;
  }
}
