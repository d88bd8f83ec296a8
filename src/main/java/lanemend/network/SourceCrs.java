package lanemend.network;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.measure.Unit;
import org.geotools.api.metadata.Identifier;
import org.geotools.api.referencing.FactoryException;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.crs.ProjectedCRS;
import org.geotools.api.referencing.cs.AxisDirection;
import org.geotools.api.referencing.operation.MathTransform;
import org.geotools.api.referencing.operation.TransformException;
import org.geotools.referencing.CRS;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.geotools.util.factory.Hints;

/**
 * The coordinate system of a file: turns its coordinates, x (or longitude) first whatever the
 * system's own axis order says, into WGS 84 longitude and latitude. Datum shifts are lenient: where
 * no shift to WGS 84 is known, none is made.
 */
public final class SourceCrs {
  private static final Pattern CODE =
      Pattern.compile("(?i)(?:.*EPSG[:/]+(?:[0-9.]*[:/]+)?)?([0-9]{3,6})");
  private static final Pattern LON_LAT =
      Pattern.compile("(?i)(?:.*[:/])?(?:CRS:?84|WGS ?84)|(?:EPSG[:/]+)?4326");

  private final String name;
  private final MathTransform toLonLat;
  private final boolean northingFirst;

  private SourceCrs(String name, MathTransform toLonLat, boolean northingFirst) {
    this.name = name;
    this.toLonLat = toLonLat;
    this.northingFirst = northingFirst;
  }

  /**
   * Reads {@code EPSG:26915}, {@code urn:ogc:def:crs:EPSG::26915}, {@code 26915}, {@code CRS84} or
   * well-known text (version 1).
   *
   * @throws IllegalArgumentException with a plain sentence when it is none of these
   */
  public static SourceCrs parse(String codeOrWkt) {
    String text = codeOrWkt == null ? "" : codeOrWkt.strip();
    if (LON_LAT.matcher(text).matches()) {
      return new SourceCrs("WGS 84", null, false);
    }
    CoordinateReferenceSystem crs = read(text);
    try {
      return new SourceCrs(
          crs.getName().getCode(),
          transform(crs, DefaultGeographicCRS.WGS84),
          CRS.getAxisOrder(crs) == CRS.AxisOrder.NORTH_EAST);
    } catch (FactoryException e) {
      throw new IllegalArgumentException(
          "no way from %s to longitude and latitude: %s"
              .formatted(crs.getName().getCode(), e.getLocalizedMessage()),
          e);
    }
  }

  /** Coordinates as the file holds them, x first, to {longitude, latitude} degrees. */
  public double[] toLonLat(double x, double y) {
    double[] at = northingFirst ? new double[] {y, x} : new double[] {x, y};
    if (toLonLat != null) {
      try {
        toLonLat.transform(at, 0, at, 0, 1);
      } catch (TransformException e) {
        throw new IllegalArgumentException(notInside(x, y), e);
      }
    }
    if (!(Math.abs(at[0]) <= 180.0000001 && Math.abs(at[1]) <= 90.0000001)) {
      throw new IllegalArgumentException(notInside(x, y));
    }
    return at;
  }

  private String notInside(double x, double y) {
    return String.format(Locale.ROOT, "found %s, %s, expected a place in %s", x, y, name);
  }

  static CoordinateReferenceSystem read(String codeOrWkt) {
    String text = codeOrWkt == null ? "" : codeOrWkt.strip();
    if (text.contains("[") || text.contains("(")) {
      return readWkt(text);
    }
    Matcher code = CODE.matcher(text);
    if (!code.matches()) {
      throw new IllegalArgumentException(
          "found \"%s\", expected a coordinate system such as EPSG:26915 or well-known text"
              .formatted(text));
    }
    try {
      return CRS.decode("EPSG:" + code.group(1), true);
    } catch (FactoryException e) {
      throw new IllegalArgumentException(
          "EPSG:%s is not a coordinate system of the EPSG tables".formatted(code.group(1)), e);
    }
  }

  static CoordinateReferenceSystem readWkt(String wkt) {
    try {
      return CRS.parseWKT(wkt.strip());
    } catch (FactoryException | RuntimeException e) {
      String shown = wkt.strip().length() > 60 ? wkt.strip().substring(0, 60) + "..." : wkt.strip();
      throw new IllegalArgumentException(
          "found \"%s\", expected the well-known text (version 1) of a coordinate system"
              .formatted(shown),
          e);
    }
  }

  static MathTransform transform(CoordinateReferenceSystem from, CoordinateReferenceSystem to)
      throws FactoryException {
    // Not CRS.findMathTransform: that one asks the EPSG tables even when both ends are spelt out.
    var factory =
        new org.geotools.referencing.operation.DefaultCoordinateOperationFactory(
            new Hints(Hints.LENIENT_DATUM_SHIFT, true));
    return factory.createOperation(from, to).getMathTransform();
  }

  static int epsgOf(CoordinateReferenceSystem crs) {
    for (Identifier id : crs.getIdentifiers()) {
      if (id.getCode().matches("[0-9]{4,6}")) {
        return Integer.parseInt(id.getCode());
      }
    }
    return 0;
  }

  static boolean isMetricEastNorth(ProjectedCRS crs) {
    var axes = crs.getCoordinateSystem();
    Unit<?> unit = axes.getAxis(0).getUnit();
    return axes.getAxis(0).getDirection().equals(AxisDirection.EAST)
        && axes.getAxis(1).getDirection().equals(AxisDirection.NORTH)
        && unit.isCompatible(si.uom.SI.METRE)
        && unit.equals(si.uom.SI.METRE);
  }
}
