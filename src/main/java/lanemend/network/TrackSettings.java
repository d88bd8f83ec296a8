package lanemend.network;

import java.util.Optional;

/**
 * What is taken for granted when a track is put on the roads.
 *
 * @param accuracyM one standard deviation of a fix across the road to begin with; the track's own
 *     is worked out from it
 * @param errorSeconds how long a receiver's error lasts before it is a new one: fixes closer
 *     together than this repeat each other and are believed the less
 * @param clear share of belief from which on a road counts as told
 * @param aroundSeconds something noted at a time was seen at most this long before or after it
 * @param patrolled name or id of the route the patrol was sent along, where routes run together
 */
public record TrackSettings(
    double accuracyM,
    double errorSeconds,
    double clear,
    double aroundSeconds,
    Optional<String> patrolled) {

  /**
   * 6 m with the lane's distance from the centreline; 20 s; four fifths, as for a single point; 30
   * s (all common practice, no source).
   */
  public static final TrackSettings STANDARD = new TrackSettings(6, 20, 0.8, 30, Optional.empty());

  public TrackSettings {
    if (!(accuracyM > 0 && errorSeconds >= 0 && clear > 0.5 && clear <= 1 && aroundSeconds >= 0)) {
      throw new IllegalArgumentException("settings of a track out of range");
    }
  }

  /** The same with the route the patrol was sent along. */
  public TrackSettings along(String route) {
    return new TrackSettings(accuracyM, errorSeconds, clear, aroundSeconds, Optional.of(route));
  }
}
