package lanemend.web.desk;

import java.time.Clock;
import java.util.Map;
import lanemend.accounts.Recent;

/**
 * How often one account, or one address before sign-in, may ask: a bucket that refills steadily. A
 * map that is moved quickly asks for some fifty tiles at a time.
 */
final class RequestRate {
  /** Requests at once after a pause. */
  static final int BURST = 900;

  /** Requests each second for good. */
  static final int PER_SECOND = 30;

  private static final int KEPT = 10_000;

  private final Clock clock;
  private final Map<String, Bucket> buckets = new Recent<>(KEPT);

  RequestRate(Clock clock) {
    this.clock = clock;
  }

  private record Bucket(double left, long atMillis) {}

  /**
   * Takes one request.
   *
   * @throws Problem when there were too many
   */
  synchronized void check(String who) {
    long now = clock.millis();
    Bucket before = buckets.getOrDefault(who, new Bucket(BURST, now));
    double refilled = Math.max(0, now - before.atMillis()) * (PER_SECOND / 1_000.0);
    double left = Math.min(BURST, before.left() + refilled) - 1;
    if (left < 0) {
      buckets.put(who, new Bucket(before.left() + Math.min(refilled, 1), now));
      throw new Problem(
              Problem.Kind.TOO_MANY, "too many requests in a short time: wait a second, then go on")
          .with("waitSeconds", 1);
    }
    buckets.put(who, new Bucket(left, now));
  }
}
