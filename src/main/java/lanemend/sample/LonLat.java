package lanemend.sample;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicMask;

/**
 * A place on the ellipsoid as the files write it: degrees, seven decimals (about a centimetre).
 * Ground lengths are geodesics between such written places, so what is written is what is true.
 */
record LonLat(double lon, double lat) {

  /** The middle of the county: a stretch of high desert with next to no roads of its own. */
  private static final double LON0 = -107.55;

  private static final double LAT0 = 42.05;
  private static final double M_PER_DEG_LAT = 111_070;
  private static final double M_PER_DEG_LON = 82_780;

  static LonLat of(Pt p) {
    return new LonLat(round(LON0 + p.x() / M_PER_DEG_LON), round(LAT0 + p.y() / M_PER_DEG_LAT));
  }

  /** Back to the drawing board. */
  Pt pt() {
    return new Pt((lon - LON0) * M_PER_DEG_LON, (lat - LAT0) * M_PER_DEG_LAT);
  }

  /** Geodesic length in metres (WGS 84, GeographicLib). */
  double metersTo(LonLat other) {
    return Geodesic.WGS84.Inverse(lat, lon, other.lat, other.lon, GeodesicMask.DISTANCE).s12;
  }

  private static double round(double degrees) {
    return StrictMath.rint(degrees * 1e7) / 1e7;
  }
}
