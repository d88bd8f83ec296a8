package lanemend.network;

import java.util.Locale;
import java.util.Map;
import org.geotools.api.referencing.FactoryException;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.crs.GeographicCRS;
import org.geotools.api.referencing.crs.ProjectedCRS;
import org.geotools.api.referencing.operation.MathTransform;
import org.geotools.api.referencing.operation.NoninvertibleTransformException;
import org.geotools.api.referencing.operation.TransformException;
import org.geotools.referencing.ReferencingFactoryFinder;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.geotools.referencing.cs.DefaultCartesianCS;
import org.geotools.referencing.cs.DefaultEllipsoidalCS;
import org.geotools.referencing.datum.DefaultGeodeticDatum;
import org.geotools.referencing.operation.DefiningConversion;

/**
 * The projected system a network lives in: x east and y north, metres. A system given in feet or
 * with northing first is carried over to its twin in metres with easting first, so that nothing
 * inside needs to ask. Longitude and latitude are WGS 84 degrees, longitude first.
 *
 * <p>Well-known text is enough to make one; the EPSG tables (slow to open) are read only by {@link
 * #parse}. Safe for use by several threads.
 */
public final class ProjectedCrs {
  /**
   * Half base of the difference that stands for the derivative. Its error, (50 m / Earth radius)^2,
   * is below 1e-10 of the length; a shorter base would show the inverse projection's rounding.
   */
  private static final double HALF_BASE_M = 50;

  /** Longest piece that one Simpson step spans. */
  private static final double SIMPSON_PIECE_M = 2_000;

  private final String wkt;
  private final int epsg;
  private final MathTransform fromLonLat;
  private final MathTransform toLonLat;
  private final double semiMajorM;
  private final double eccentricitySquared;

  private ProjectedCrs(ProjectedCRS given, String givenWkt) throws FactoryException {
    GeographicCRS base = lonLatTwin(given);
    boolean already = SourceCrs.isMetricEastNorth(given);
    String name = given.getName().getCode() + (already ? "" : " in metres");
    ProjectedCRS metric =
        ReferencingFactoryFinder.getCRSFactory(null)
            .createProjectedCRS(
                Map.of("name", name),
                base,
                new DefiningConversion(name, given.getConversionFromBase().getParameterValues()),
                DefaultCartesianCS.PROJECTED);
    this.wkt = already ? givenWkt : metric.toWKT();
    this.epsg = already ? SourceCrs.epsgOf(given) : 0;
    MathTransform project = metric.getConversionFromBase().getMathTransform();
    this.fromLonLat =
        isWgs84Like(base) ? project : SourceCrs.transform(DefaultGeographicCRS.WGS84, metric);
    try {
      this.toLonLat = fromLonLat.inverse();
    } catch (NoninvertibleTransformException e) {
      throw new IllegalArgumentException(
          "the projection of " + given.getName().getCode() + " cannot be turned back", e);
    }
    var ellipsoid = metric.getBaseCRS().getDatum().getEllipsoid();
    this.semiMajorM = ellipsoid.getSemiMajorAxis();
    double ratio = ellipsoid.getSemiMinorAxis() / semiMajorM;
    this.eccentricitySquared = 1 - ratio * ratio;
  }

  /** The WGS 84 UTM zone that holds this place; made without the EPSG tables. */
  public static ProjectedCrs utmFor(double lon, double lat) {
    if (!(lon >= -180 && lon <= 180 && lat >= -80 && lat <= 84)) {
      throw new IllegalArgumentException(
          "longitude %s, latitude %s is outside the UTM zones (latitude -80 to 84)"
              .formatted(lon, lat));
    }
    int zone = Math.min(60, (int) Math.floor((lon + 180) / 6) + 1);
    boolean north = lat >= 0;
    return fromWkt(
        """
        PROJCS["WGS 84 / UTM zone %d%s",GEOGCS["WGS 84",DATUM["WGS_1984",\
        SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],\
        AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],\
        UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AUTHORITY["EPSG","4326"]],\
        PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",0],\
        PARAMETER["central_meridian",%d],PARAMETER["scale_factor",0.9996],\
        PARAMETER["false_easting",500000],PARAMETER["false_northing",%d],\
        UNIT["metre",1,AUTHORITY["EPSG","9001"]],AXIS["Easting",EAST],AXIS["Northing",NORTH],\
        AUTHORITY["EPSG","%d"]]"""
            .formatted(
                zone,
                north ? "N" : "S",
                zone * 6 - 183,
                north ? 0 : 10_000_000,
                (north ? 32600 : 32700) + zone));
  }

  /**
   * Reads well-known text (version 1) of a projected system.
   *
   * @throws IllegalArgumentException with a plain sentence when it is not one
   */
  public static ProjectedCrs fromWkt(String wkt) {
    return of(SourceCrs.readWkt(wkt), wkt.strip());
  }

  /**
   * Reads a code such as {@code EPSG:26915}, or well-known text.
   *
   * @throws IllegalArgumentException with a plain sentence when it names no projected system
   */
  public static ProjectedCrs parse(String code) {
    CoordinateReferenceSystem crs = SourceCrs.read(code);
    return of(crs, crs.toWKT());
  }

  private static ProjectedCrs of(CoordinateReferenceSystem crs, String wkt) {
    if (!(crs instanceof ProjectedCRS projected)) {
      throw new IllegalArgumentException(
          "found %s, expected a projected system (such as a UTM zone or a State Plane zone)"
              .formatted(crs.getName().getCode()));
    }
    try {
      return new ProjectedCrs(projected, wkt);
    } catch (FactoryException e) {
      throw new IllegalArgumentException(
          "the system %s cannot be used: %s"
              .formatted(crs.getName().getCode(), e.getLocalizedMessage()),
          e);
    }
  }

  private static GeographicCRS lonLatTwin(ProjectedCRS projected) {
    GeographicCRS base = projected.getBaseCRS();
    return new DefaultGeographicCRS(
        base.getName().getCode(), base.getDatum(), DefaultEllipsoidalCS.GEODETIC_2D);
  }

  /**
   * True where WGS 84 degrees may be used as they are: Greenwich, and no shift to WGS 84 known or
   * none needed. NAD 83 and ETRS 89 differ from WGS 84 by a metre or two, which no file states.
   */
  private static boolean isWgs84Like(GeographicCRS base) {
    if (base.getDatum().getPrimeMeridian().getGreenwichLongitude() != 0) {
      return false;
    }
    if (base.getDatum() instanceof DefaultGeodeticDatum datum) {
      for (var shift : datum.getBursaWolfParameters()) {
        if (!shift.isIdentity()) {
          return false;
        }
      }
    }
    return true;
  }

  /** Well-known text of the system in metres. */
  public String wkt() {
    return wkt;
  }

  /** EPSG code, or 0 when the system has none. */
  public int epsg() {
    return epsg;
  }

  /** Degrees to {x, y} metres. */
  public double[] project(double lon, double lat) {
    return transform(fromLonLat, lon, lat, "longitude %s, latitude %s cannot be projected");
  }

  /** Metres to {longitude, latitude} degrees. */
  public double[] unproject(double x, double y) {
    return transform(toLonLat, x, y, "x %s, y %s has no longitude and latitude");
  }

  private static double[] transform(MathTransform transform, double a, double b, String problem) {
    double[] at = {a, b};
    try {
      transform.transform(at, 0, at, 0, 1);
    } catch (TransformException e) {
      throw new IllegalArgumentException(String.format(Locale.ROOT, problem, a, b), e);
    }
    if (!Double.isFinite(at[0]) || !Double.isFinite(at[1])) {
      throw new IllegalArgumentException(String.format(Locale.ROOT, problem, a, b));
    }
    return at;
  }

  /**
   * Ground length of a straight projected segment: the integral, by Simpson's rule in pieces of at
   * most 2 km, of the ellipsoid's metre along the segment. At a place the metre is {@code hypot(M
   * dLat, N cos(lat) dLon)} with dLat and dLon from the derivative of the inverse projection, so
   * that it holds for any projection, conformal or not. A segment below 200 m is taken at its
   * middle.
   */
  public double groundM(double x1, double y1, double x2, double y2) {
    double length = Math.hypot(x2 - x1, y2 - y1);
    if (length == 0) {
      return 0;
    }
    double ux = (x2 - x1) / length;
    double uy = (y2 - y1) / length;
    if (length < 4 * HALF_BASE_M) {
      return length * groundPerUnit((x1 + x2) / 2, (y1 + y2) / 2, ux, uy);
    }
    int pieces = (int) Math.ceil(length / SIMPSON_PIECE_M);
    double step = length / pieces;
    double sum = 0;
    double atStart = groundPerUnit(x1, y1, ux, uy);
    for (int i = 0; i < pieces; i++) {
      double middle = (i + 0.5) * step;
      double end = (i + 1) * step;
      double atEnd = groundPerUnit(x1 + ux * end, y1 + uy * end, ux, uy);
      double atMiddle = groundPerUnit(x1 + ux * middle, y1 + uy * middle, ux, uy);
      sum += step * (atStart + 4 * atMiddle + atEnd) / 6;
      atStart = atEnd;
    }
    return sum;
  }

  /** Ground metres per projected metre at a place, in the direction of a unit vector. */
  private double groundPerUnit(double x, double y, double ux, double uy) {
    double[] before = unproject(x - ux * HALF_BASE_M, y - uy * HALF_BASE_M);
    double[] after = unproject(x + ux * HALF_BASE_M, y + uy * HALF_BASE_M);
    double lat = Math.toRadians((before[1] + after[1]) / 2);
    double dLat = Math.toRadians(after[1] - before[1]);
    double dLon = Math.toRadians(Math.IEEEremainder(after[0] - before[0], 360));
    double sin = Math.sin(lat);
    double w2 = 1 - eccentricitySquared * sin * sin;
    double meridianRadius = semiMajorM * (1 - eccentricitySquared) / (w2 * Math.sqrt(w2));
    double normalRadius = semiMajorM / Math.sqrt(w2);
    double ground = Math.hypot(meridianRadius * dLat, normalRadius * Math.cos(lat) * dLon);
    return ground / (2 * HALF_BASE_M);
  }
}
