package lanemend.web.desk;

/**
 * The map's plane: spherical Mercator of the whole world as the unit square, x to the east and y to
 * the south, as map tiles are numbered (EPSG:3857, its formula from memory).
 */
final class Mercator {
  private Mercator() {}

  static double x(double lon) {
    return (lon + 180) / 360;
  }

  static double y(double lat) {
    double sin = Math.sin(Math.toRadians(lat));
    return 0.5 - Math.log((1 + sin) / (1 - sin)) / (4 * Math.PI);
  }

  static double lon(double x) {
    return 360 * x - 180;
  }

  static double lat(double y) {
    return Math.toDegrees(Math.atan(Math.sinh(Math.PI * (1 - 2 * y))));
  }
}
