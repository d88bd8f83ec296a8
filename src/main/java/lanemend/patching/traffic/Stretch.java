package lanemend.patching.traffic;

/**
 * A stretch of a work zone. Places are metres from where the closed lane is first narrowed, growing
 * the way its traffic goes; a shoulder taper ahead of that is negative.
 *
 * @param spacingM most between channelizing devices; 0 where none stand
 */
public record Stretch(Kind kind, double fromM, double toM, double spacingM) {

  /** What a stretch is for. */
  public enum Kind {
    SHOULDER_TAPER("shoulder taper"),
    MERGING_TAPER("merging taper"),
    /** Between two merging tapers. */
    TANGENT("lane kept closed"),
    SHIFTING_TAPER("shifting taper"),
    ONE_LANE_TAPER("one-lane two-way taper"),
    BUFFER("buffer"),
    WORK("work"),
    DOWNSTREAM_TAPER("downstream taper");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  public double lengthM() {
    return toM - fromM;
  }
}
