package lanemend.exchange;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import lanemend.network.SourceCrs;

/**
 * Brings a file's coordinates to WGS 84 longitude and latitude. The user's word on the system goes
 * before the file's; with neither, coordinates are longitude and latitude already (RFC 7946).
 */
final class Georeference {
  /** Coordinates, or what is wrong with them. */
  record Placed(double[] lonLat, String found, String expected) {}

  private final String given;
  private final Map<String, SourceCrs> known = new HashMap<>();

  /**
   * @param given the user's word, or empty
   */
  Georeference(String given) {
    this.given = given.strip();
  }

  static boolean isLonLat(String crs) {
    String c = crs.strip().toUpperCase(Locale.ROOT);
    return c.isEmpty()
        || c.endsWith("CRS84")
        || c.endsWith("CRS:84")
        || c.matches("(.*EPSG:.*)?4326");
  }

  /**
   * Checks a system before any row is read.
   *
   * @throws IllegalArgumentException with a sentence for the user
   */
  void check(String inFile) {
    system(inFile);
  }

  private SourceCrs system(String inFile) {
    String crs = given.isEmpty() ? inFile : given;
    if (isLonLat(crs)) {
      return null;
    }
    SourceCrs parsed = known.get(crs);
    if (parsed == null) {
      parsed = SourceCrs.parse(crs);
      known.put(crs, parsed);
    }
    return parsed;
  }

  Placed place(double x, double y, String inFile) {
    if (!Double.isFinite(x) || !Double.isFinite(y)) {
      return wrong(x, y, "coordinates that are finite numbers");
    }
    double[] at = {x, y};
    SourceCrs crs = system(inFile);
    if (crs != null) {
      try {
        at = crs.toLonLat(x, y);
      } catch (IllegalArgumentException e) {
        return wrong(x, y, "coordinates inside their coordinate system");
      }
    }
    if (Math.abs(at[0]) <= 180 && Math.abs(at[1]) <= 90) {
      return new Placed(at, "", "");
    }
    if (Math.abs(at[0]) <= 90 && Math.abs(at[1]) <= 180) {
      return wrong(x, y, "longitude before latitude (they look swapped)");
    }
    return wrong(
        x,
        y,
        "longitude -180 to 180 and latitude -90 to 90 (projected coordinates need their system"
            + " named, for instance EPSG:26915)");
  }

  private static Placed wrong(double x, double y, String expected) {
    return new Placed(null, Numbers.shown(x) + " " + Numbers.shown(y), expected);
  }
}
