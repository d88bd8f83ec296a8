package lanemend.network;

/**
 * A place trucks start from or go to.
 *
 * @param label for messages, for instance {@code plant P1}
 * @param x projected; the nearest road of any class is taken
 * @param routeId when not empty, the place is on this route at alongM and x, y are not read
 */
public record HaulPlace(String label, double x, double y, String routeId, double alongM) {

  /** Beside the road nearest to a point. */
  public static HaulPlace near(String label, double x, double y) {
    return new HaulPlace(label, x, y, "", 0);
  }

  /** On a route. */
  public static HaulPlace on(String label, String routeId, double alongM) {
    return new HaulPlace(label, 0, 0, routeId, alongM);
  }
}
