package lanemend.patching.traffic;

/** Which traffic meets a row of signs. */
public enum TrafficApproach {
  /** Where both directions meet the same signs, mileposts tell them apart. */
  LOWER_MILEPOSTS("traffic from lower mileposts"),
  HIGHER_MILEPOSTS("traffic from higher mileposts"),
  /** Where they do not, the work does: in the closed lane, or beside it. */
  TOWARDS_WORK("traffic towards the work"),
  OTHER_SIDE("traffic on the other side"),
  /** All there is on a one-way roadway. */
  ONE_WAY("approaching traffic");

  private final String words;

  TrafficApproach(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
