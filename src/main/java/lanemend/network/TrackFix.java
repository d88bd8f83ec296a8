package lanemend.network;

import java.time.Instant;

/**
 * One position of a patrol's track.
 *
 * @param x projected
 * @param at when, or null where the receiver kept no time
 */
public record TrackFix(double x, double y, Instant at) {

  /** Straight ground-plan metres to another fix. */
  double metersTo(TrackFix other) {
    return Math.hypot(other.x - x, other.y - y);
  }

  /** Seconds to a later fix; NaN where either has no time. */
  double secondsTo(TrackFix later) {
    return at == null || later.at == null
        ? Double.NaN
        : java.time.Duration.between(at, later.at).toMillis() / 1000.0;
  }
}
