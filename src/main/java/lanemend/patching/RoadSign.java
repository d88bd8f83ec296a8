package lanemend.patching;

/**
 * A sign by its designation in the MUTCD and what it says. {@code {side}} and {@code {SIDE}} stand
 * for the side of the closed lane until it is known: {@code W20-5{side}} becomes {@code W20-5R}.
 *
 * @param code for instance {@code W20-1}
 * @param legend for instance {@code ROAD WORK AHEAD}
 */
public record RoadSign(String code, String legend) {

  public RoadSign {
    if (code.isBlank() || legend.isBlank()) {
      throw new IllegalArgumentException("a sign needs a code and a legend");
    }
  }

  /** As on a list: {@code ROAD WORK AHEAD (W20-1)}. */
  public String text() {
    return legend + " (" + code + ")";
  }

  /** With the side put in. */
  public RoadSign on(boolean right) {
    return new RoadSign(
        code.replace("{side}", right ? "R" : "L"),
        legend.replace("{SIDE}", right ? "RIGHT" : "LEFT"));
  }
}
