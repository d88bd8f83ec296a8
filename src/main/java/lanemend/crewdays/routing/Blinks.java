package lanemend.crewdays.routing;

import java.util.SplittableRandom;

/**
 * Says past which places to blink (Christiaens and Vanden Berghe 2020): how many lie between two
 * blinks is drawn, and not each place.
 */
final class Blinks {
  private final SplittableRandom random;
  private final double scale;
  private long left;

  Blinks(SplittableRandom random, double rate) {
    this.random = random;
    scale = 1 / Math.log(1 - rate);
    left = drawn();
  }

  private long drawn() {
    return 1 + (long) (Math.log(1 - random.nextDouble()) * scale);
  }

  /** True when the next place is blinked past. */
  boolean past() {
    if (--left > 0) {
      return false;
    }
    left = drawn();
    return true;
  }

  /** Counts places that need not be looked at. */
  void pass(int places) {
    long rest = places;
    while (left <= rest) {
      rest -= left;
      left = drawn();
    }
    left -= rest;
  }
}
