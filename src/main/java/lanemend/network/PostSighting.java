package lanemend.network;

import java.util.OptionalDouble;

/**
 * A milepost sign (or an equation) as it was surveyed, before it is set on a route.
 *
 * @param origin where it stands, for instance {@code posts.csv:12}
 * @param backMiles the number on the sign; at an equation, the number that ends there
 * @param aheadMiles the same, or at an equation the number that starts there
 * @param x projected; not read when alongM is given
 * @param alongM ground metres from the start of the route, where the post was given by distance
 */
public record PostSighting(
    String origin, double backMiles, double aheadMiles, double x, double y, OptionalDouble alongM) {

  /** A sign seen at a point. */
  public static PostSighting seenAt(String origin, double miles, double x, double y) {
    return new PostSighting(origin, miles, miles, x, y, OptionalDouble.empty());
  }

  /** A sign at a distance from the start of the route. */
  public static PostSighting atDistance(String origin, double miles, double alongM) {
    return new PostSighting(origin, miles, miles, 0, 0, OptionalDouble.of(alongM));
  }

  /** The same place as an equation, {@code miles back = aheadMiles ahead}. */
  public PostSighting equation(double ahead) {
    return new PostSighting(origin, backMiles, ahead, x, y, alongM);
  }
}
