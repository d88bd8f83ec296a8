package lanemend.network;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What the patrol knew besides the point.
 *
 * @param headingDeg compass heading of travel, degrees clockwise from north
 * @param routeName name or id of the route being driven
 * @param accuracyM one standard deviation of the point's position error
 */
public record SnapHint(OptionalDouble headingDeg, Optional<String> routeName, double accuracyM) {
  /** Nothing known but the point; 5 m position error (common practice for a phone, no source). */
  public static final SnapHint NONE = new SnapHint(OptionalDouble.empty(), Optional.empty(), 5);
}
