package lanemend.network;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import net.sf.geographiclib.Geodesic;
import org.junit.jupiter.api.Test;

class ProjectedCrsTest {
  /** A State-Plane-like zone: Lambert conformal, US survey feet, northing first. */
  static final String LAMBERT_FEET =
      """
      PROJCS["An invented state, central (ftUS)",GEOGCS["NAD83",DATUM["North_American_Datum_1983",\
      SPHEROID["GRS 1980",6378137,298.257222101],TOWGS84[0,0,0,0,0,0,0]],\
      PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]],\
      PROJECTION["Lambert_Conformal_Conic_2SP"],PARAMETER["standard_parallel_1",47.05],\
      PARAMETER["standard_parallel_2",45.6166666666667],PARAMETER["latitude_of_origin",45],\
      PARAMETER["central_meridian",-94.25],PARAMETER["false_easting",2624666.6667],\
      PARAMETER["false_northing",328083.3333],UNIT["US survey foot",0.3048006096012192],\
      AXIS["Northing",NORTH],AXIS["Easting",EAST]]""";

  /** A projection that is equal-area, so its scale differs by direction. */
  static final String ALBERS =
      """
      PROJCS["An invented equal-area system",GEOGCS["NAD83",DATUM["North_American_Datum_1983",\
      SPHEROID["GRS 1980",6378137,298.257222101]],PRIMEM["Greenwich",0],\
      UNIT["degree",0.0174532925199433]],PROJECTION["Albers_Conic_Equal_Area"],\
      PARAMETER["latitude_of_center",23],PARAMETER["longitude_of_center",-96],\
      PARAMETER["standard_parallel_1",29.5],PARAMETER["standard_parallel_2",45.5],\
      PARAMETER["false_easting",0],PARAMETER["false_northing",0],UNIT["metre",1],\
      AXIS["Easting",EAST],AXIS["Northing",NORTH]]""";

  // Geocentric Datum of Australia Technical Manual v2.3, the Flinders Peak to Buninyong example
  // (read as others quote it; GRS 80 and WGS 84 differ by 0.1 mm here).
  private static final double FLINDERS_LAT = -(37 + 57 / 60.0 + 3.72030 / 3600);
  private static final double FLINDERS_LON = 144 + 25 / 60.0 + 29.52440 / 3600;
  private static final double BUNINYONG_LAT = -(37 + 39 / 60.0 + 10.15610 / 3600);
  private static final double BUNINYONG_LON = 143 + 55 / 60.0 + 35.38390 / 3600;

  @Test
  void projectsTheManualsPointsToItsGridCoordinates() {
    ProjectedCrs zone55 = ProjectedCrs.utmFor(147, -37);

    double[] flinders = zone55.project(FLINDERS_LON, FLINDERS_LAT);
    double[] buninyong = zone55.project(BUNINYONG_LON, BUNINYONG_LAT);

    assertArrayEquals(new double[] {273_741.297, 5_796_489.777}, flinders, 0.002);
    assertArrayEquals(new double[] {228_854.052, 5_828_259.038}, buninyong, 0.002);
  }

  @Test
  void groundLengthOfTheManualsLineIsItsGeodesic() {
    ProjectedCrs zone55 = ProjectedCrs.utmFor(147, -37);
    double[] from = zone55.project(FLINDERS_LON, FLINDERS_LAT);
    double[] to = zone55.project(BUNINYONG_LON, BUNINYONG_LAT);

    double ground = zone55.groundM(from[0], from[1], to[0], to[1]);

    // 54,972.271 m geodesic and 54,992.279 m on the grid. The straight on the grid is not the
    // geodesic itself but bows from it by metres over 55 km, which is worth 0.03 m of length.
    assertEquals(54_972.271, ground, 0.05);
    assertEquals(54_992.279, Math.hypot(to[0] - from[0], to[1] - from[1]), 0.002);
  }

  @Test
  void pointScaleOfTheManualsPoints() {
    ProjectedCrs zone55 = ProjectedCrs.utmFor(147, -37);
    double[] flinders = zone55.project(FLINDERS_LON, FLINDERS_LAT);

    double ground =
        zone55.groundM(flinders[0] - 40, flinders[1] - 30, flinders[0] + 40, flinders[1] + 30);

    assertEquals(1.00023056, 100 / ground, 2e-8);
  }

  @Test
  void lengthsAgreeWithGeographicLibInAnyProjection() {
    ProjectedCrs[] systems = {
      ProjectedCrs.utmFor(-93, 45), ProjectedCrs.fromWkt(LAMBERT_FEET), ProjectedCrs.fromWkt(ALBERS)
    };
    Random random = new Random(7);
    double worst = 0;
    for (ProjectedCrs crs : systems) {
      for (int i = 0; i < 2_000; i++) {
        double lon = -96 + 6 * random.nextDouble();
        double lat = 43 + 5 * random.nextDouble();
        double[] from = crs.project(lon, lat);
        double length = Math.pow(10, 1 + 3 * random.nextDouble());
        double angle = 2 * Math.PI * random.nextDouble();
        double x = from[0] + length * Math.cos(angle);
        double y = from[1] + length * Math.sin(angle);
        double[] to = crs.unproject(x, y);

        double ground = crs.groundM(from[0], from[1], x, y);
        double geodesic = Geodesic.WGS84.Inverse(lat, lon, to[1], to[0]).s12;

        worst = Math.max(worst, Math.abs(ground / geodesic - 1));
      }
    }
    System.out.println("worst length against GeographicLib: " + worst);
    assertTrue(worst < 1e-6, "bar is 1e-4, found " + worst);
  }

  @Test
  void feetAndNorthingFirstAreCarriedOverToMetresEastingFirst() {
    ProjectedCrs crs = ProjectedCrs.fromWkt(LAMBERT_FEET);

    // False easting 2,624,666.6667 US survey feet is 800,000 m; on the central meridian x is that.
    assertEquals(800_000, crs.project(-94.25, 46)[0], 0.001);
    assertTrue(crs.wkt().contains("UNIT[\"m\", 1.0]"), crs.wkt());
    assertEquals(0, crs.epsg());
    assertArrayEquals(
        crs.project(-93.1, 45.7), ProjectedCrs.fromWkt(crs.wkt()).project(-93.1, 45.7), 1e-6);
  }

  @Test
  void aFileInFeetComesBackToTheSameDegrees() {
    SourceCrs file = SourceCrs.parse(LAMBERT_FEET);
    double feet = 0.3048006096012192;
    double[] metres = ProjectedCrs.fromWkt(LAMBERT_FEET).project(-93.1, 45.7);

    double[] degrees = file.toLonLat(metres[0] / feet, metres[1] / feet);

    assertArrayEquals(new double[] {-93.1, 45.7}, degrees, 1e-9);
  }

  @Test
  void codesAreReadInTheirUsualSpellings() {
    for (String code : new String[] {"EPSG:26915", "26915", "urn:ogc:def:crs:EPSG::26915"}) {
      double[] degrees = SourceCrs.parse(code).toLonLat(500_000, 4_983_000);
      assertEquals(-93, degrees[0], 1e-9, code);
    }
    for (String code : new String[] {"EPSG:4326", "CRS84", "urn:ogc:def:crs:OGC:1.3:CRS84"}) {
      assertArrayEquals(new double[] {-93, 45}, SourceCrs.parse(code).toLonLat(-93, 45), code);
    }
    assertEquals(26915, ProjectedCrs.parse("EPSG:26915").epsg());
    assertEquals(32615, ProjectedCrs.utmFor(-93, 45).epsg());
  }

  @Test
  void badSystemsAreRefusedInPlainWords() {
    for (String bad : new String[] {"", "somewhere", "EPSG:123456", "PROJCS[\"x\"", "EPSG:4326"}) {
      var problem = assertThrows(IllegalArgumentException.class, () -> ProjectedCrs.parse(bad));
      assertTrue(problem.getMessage().length() > 20, problem.getMessage());
    }
    var off =
        assertThrows(
            IllegalArgumentException.class,
            () -> SourceCrs.parse("CRS84").toLonLat(500_000, 4_983_000));
    assertEquals("found 500000.0, 4983000.0, expected a place in WGS 84", off.getMessage());
    assertThrows(IllegalArgumentException.class, () -> ProjectedCrs.utmFor(10, 89));
  }
}
