package lanemend.patching.traffic;

/** Where across the roadway the work lies, seen in the direction of its traffic. */
public enum WorkPosition {
  SHOULDER("the shoulder"),
  /** The lane at the shoulder, also the only lane of its direction. */
  OUTER_LANE("the outer lane"),
  MIDDLE_LANE("a middle lane"),
  /** The lane at the centreline or median. */
  INNER_LANE("the lane at the centreline or median");

  private final String words;

  WorkPosition(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
