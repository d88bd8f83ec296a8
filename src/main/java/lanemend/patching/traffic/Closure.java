package lanemend.patching.traffic;

import lanemend.measure.Conversion;
import lanemend.patching.RoadSetting;

/** How traffic gets past the work, by what the road offers. */
enum Closure {
  /** Undivided, one lane each way: the open lane serves both by turns. */
  ALTERNATING("one lane closed on a two-lane road, flaggers at both ends"),
  /** Two or more lanes in the direction of the work: one is closed. */
  LANE_CLOSED("one lane closed on a multilane roadway, traffic merges"),
  /** Two-way with a middle lane: traffic shifts into it. */
  SHIFTED("one lane closed, traffic shifted into the middle lane"),
  /** A one-way roadway of a single lane with a shoulder wide enough to drive on. */
  ON_SHOULDER("the only lane closed, traffic shifted onto the shoulder"),
  /** A one-way roadway of a single lane and nothing beside it. */
  ROAD_CLOSED("the only lane closed, traffic on a detour");

  private static final double DRIVABLE_SHOULDER_M = 10 * Conversion.M_PER_FT;

  private final String words;

  Closure(String words) {
    this.words = words;
  }

  String words() {
    return words;
  }

  static Closure on(RoadSetting setting) {
    if (setting.oneDirection()) {
      if (setting.lanes() >= 2) {
        return LANE_CLOSED;
      }
      return setting.shoulderWidthM() >= DRIVABLE_SHOULDER_M - 1e-9 ? ON_SHOULDER : ROAD_CLOSED;
    }
    if (setting.lanes() >= 4) {
      return LANE_CLOSED;
    }
    return setting.lanes() == 3 ? SHIFTED : ALTERNATING;
  }
}
