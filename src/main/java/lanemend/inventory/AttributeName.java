package lanemend.inventory;

import java.util.Locale;

/** Attributes that Lanemend itself reads; lengths in metres, speed in km/h. */
public enum AttributeName {
  POSTED_SPEED_KMH,
  LANES,
  LANE_WIDTH_M,
  SHOULDER_WIDTH_M,
  /** {@code yes} or {@code no}. */
  ONE_WAY,
  /** Grade level, 0 on the ground. */
  LEVEL,
  SURFACE,
  BASE,
  AADT,
  TRUCK_SHARE,
  /** {@code yes} or {@code no}. */
  URBAN,
  /** Year of the last surfacing. */
  LAST_SURFACING;

  /** The name as stored: lower case. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
