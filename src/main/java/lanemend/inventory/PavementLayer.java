package lanemend.inventory;

/**
 * What is known of one layer of the pavement in place over a stretch.
 *
 * @param year it was measured or built
 */
public record PavementLayer(
    String id,
    String routeId,
    double fromAlongM,
    double toAlongM,
    Course course,
    double thicknessM,
    int year,
    Source source) {

  /** The layers that are told apart, from the top. */
  public enum Course {
    ASPHALT,
    BASE,
    SUBBASE
  }

  /** Where the thickness comes from. */
  public enum Source {
    CORE,
    AS_BUILT
  }

  public PavementLayer {
    if (!(thicknessM > 0) || !(fromAlongM < toAlongM)) {
      throw new IllegalArgumentException(
          "layer %s: %s m thick from %s to %s".formatted(id, thicknessM, fromAlongM, toAlongM));
    }
  }
}
