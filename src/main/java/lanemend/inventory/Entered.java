package lanemend.inventory;

/**
 * What was entered for a place, kept so that the place can be derived anew when a road is edited.
 * Either route and mileposts, or longitude and latitude; the other pair is null.
 *
 * @param milepostFrom as written, for instance {@code 12.3} or {@code 12.3 back}
 * @param milepostTo as written, or null for a spot
 * @param longitude degrees east, WGS 84
 */
public record Entered(
    String route, String milepostFrom, String milepostTo, Double longitude, Double latitude) {

  /** A place given by milepost. */
  public static Entered byMilepost(String route, String from, String to) {
    return new Entered(route, from, to, null, null);
  }

  /** A place given by coordinates, with the route the patrol named or null. */
  public static Entered byPoint(String route, double longitude, double latitude) {
    return new Entered(route, null, null, longitude, latitude);
  }
}
