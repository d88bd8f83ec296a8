package lanemend.patching.traffic;

/**
 * A thing or person at one place of a work zone, on the scale of {@link Stretch}.
 *
 * @param facesOthers true where it faces the traffic of the other direction
 */
public record Station(Kind kind, double atM, boolean facesOthers) {

  /** What stands there. */
  public enum Kind {
    FLAGGER("flagger"),
    SIGNAL("temporary signal"),
    ARROW_BOARD("arrow board"),
    SHADOW_VEHICLE("shadow vehicle"),
    BARRICADES("Type 3 barricades");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
