package lanemend.crewdays.routing;

import java.util.Arrays;

/**
 * Moves prices of stops to where a bound is higher: up where a stop is taken by nobody, down where
 * it is taken twice, by {@code step x (known - bound) / |g|^2}, direction smoothed. Steps are
 * halved after some rounds without a better bound, and the way goes on from the best prices.
 */
final class Subgradient {
  /** Weight of the newest subgradient in the direction taken. */
  private static final double FRESH = 0.4;

  private final double[] dearest;
  private final double known;
  private final int patience;
  private final double[] direction;
  private double step;
  private int still;
  private double[] price;
  private double[] bestPrice;
  private double best = Double.NEGATIVE_INFINITY;

  /**
   * Begins.
   *
   * @param price of each stop to begin with
   * @param dearest a price may become
   * @param known a value the bound does not go beyond
   * @param step first, as a share
   * @param patience rounds without a better bound until it is halved
   */
  Subgradient(double[] price, double[] dearest, double known, double step, int patience) {
    this.price = price.clone();
    this.dearest = dearest;
    this.known = known;
    this.step = step;
    this.patience = patience;
    bestPrice = this.price;
    direction = new double[price.length];
  }

  /** Prices to try next; not to be changed. */
  double[] price() {
    return price;
  }

  /** Prices of the best bound, which is {@link #best}. */
  double[] bestPrice() {
    return bestPrice;
  }

  double best() {
    return best;
  }

  double step() {
    return step;
  }

  /** True when no more can be hoped for. */
  boolean reached() {
    return known - best <= Math.abs(known) * 1e-7;
  }

  /**
   * Goes on to other prices.
   *
   * @param value bound at {@link #price}
   * @param taken how often each stop was taken
   * @return true when it is the best so far
   */
  boolean learn(double value, int[] taken) {
    boolean better = best == Double.NEGATIVE_INFINITY || value > best + Math.abs(best) * 1e-7;
    if (better) {
      best = value;
      bestPrice = price;
      still = 0;
    } else if (++still >= patience) {
      still = 0;
      step /= 2;
      price = bestPrice;
      Arrays.fill(direction, 0);
    }
    move(taken, Math.max(0, known - value));
    return better;
  }

  private void move(int[] taken, double wanting) {
    double norm = 0;
    for (int c = 0; c < price.length; c++) {
      double slope = 1 - taken[c];
      if ((slope > 0 && price[c] >= dearest[c]) || (slope < 0 && price[c] <= 0)) {
        slope = 0;
      }
      direction[c] = direction[c] == 0 ? slope : FRESH * slope + (1 - FRESH) * direction[c];
      norm += direction[c] * direction[c];
    }
    if (norm == 0) {
      return;
    }
    double length = step * wanting / norm;
    double[] next = new double[price.length];
    for (int c = 0; c < price.length; c++) {
      next[c] = Math.max(0, Math.min(price[c] + length * direction[c], dearest[c]));
    }
    price = next;
  }
}
