package lanemend.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import net.sf.geographiclib.Geodesic;
import org.junit.jupiter.api.Test;

/** The bars of locating: there and back on 100,000 places, and miles that are miles. */
class RoundTripTest {
  private static final int ROADS = 40;

  /**
   * Winding roads that cross each other and themselves, with posts off true distance, overlaps and
   * gaps in the numbering, and gaps in the line.
   */
  private static Network windingRoads(ProjectedCrs crs, double lon, double lat, long seed) {
    Random random = new Random(seed);
    double[] centre = crs.project(lon, lat);
    List<SourceLine> lines = new ArrayList<>();
    for (int road = 0; road < ROADS; road++) {
      double x = centre[0] + 20_000 * (random.nextDouble() - 0.5);
      double y = centre[1] + 20_000 * (random.nextDouble() - 0.5);
      double heading = 2 * Math.PI * random.nextDouble();
      for (int i = 0; i < 30; i++) {
        int n = 20;
        double[] lons = new double[n];
        double[] lats = new double[n];
        for (int k = 0; k < n; k++) {
          double[] degrees = crs.unproject(x, y);
          lons[k] = degrees[0];
          lats[k] = degrees[1];
          if (k < n - 1) {
            heading += 0.25 * random.nextGaussian();
            x += 30 * Math.cos(heading);
            y += 30 * Math.sin(heading);
          }
        }
        if (i != 14) {
          lines.add(
              new SourceLine(
                  road + ":" + i,
                  List.of("CR " + road),
                  "",
                  RoadClass.LOCAL,
                  lons,
                  lats,
                  false,
                  0,
                  Map.of()));
        }
      }
    }
    Network network = RouteAssembler.assemble(lines, crs).network();
    Map<String, List<PostSighting>> posts = new LinkedHashMap<>();
    for (Route route : network.routes().values()) {
      posts.put(route.id(), postsFor(route, random));
    }
    return Calibrator.calibrate(network, posts).network();
  }

  private static List<PostSighting> postsFor(Route route, Random random) {
    List<PostSighting> posts = new ArrayList<>();
    double miles = 10 + 50 * random.nextDouble();
    boolean falls = random.nextInt(4) == 0;
    double along = 100 * random.nextDouble();
    int number = 0;
    while (along < route.lengthM()) {
      double ahead = miles;
      if (number == 3) {
        ahead = miles + (falls ? 0.6 : -0.6);
      } else if (number == 7) {
        ahead = miles + (falls ? -0.4 : 0.4);
      }
      posts.add(PostSighting.atDistance("p" + number, miles, along).equation(ahead));
      double step = 1_400 + 500 * random.nextDouble();
      along += step;
      miles = ahead + (falls ? -1 : 1) * step / 1_650;
      number++;
    }
    return posts;
  }

  @Test
  void hundredThousandPlacesComeBackToTheirMilepost() {
    Network network = windingRoads(TestRoads.CRS, -93.2, 45.1, 20261125);
    Locator locator = new Locator(network);
    List<Route> routes = new ArrayList<>(network.routes().values());
    Random random = new Random(99);
    double worst = 0;
    int done = 0;
    int overlaps = 0;
    int several = 0;
    while (done < 100_000) {
      Route route = routes.get(random.nextInt(routes.size()));
      double along = random.nextDouble() * route.lengthM();
      Optional<RoadPoint> there = locator.pointAt(route.id(), along, 0);
      if (there.isEmpty()) {
        continue; // a gap of the line: there is no road to stand on
      }
      done++;
      RoadPoint point = there.get();
      SnapHint hint =
          new SnapHint(
              OptionalDouble.of(headingAt(locator, route, along)), Optional.of(route.id()), 1);
      List<Candidate> found = locator.candidates(point.x(), point.y(), 25, hint);
      several += found.size() > 1 ? 1 : 0;
      RoadPoint back = found.get(0).place();
      assertEquals(route.id(), back.routeId());
      overlaps += back.milepost().equationSide() != EquationSide.ONLY ? 1 : 0;
      double again =
          assertInstanceOf(MilepostLookup.Found.class, route.mileposts().find(back.milepost()))
              .alongM();
      worst = Math.max(worst, Math.abs(again - along));
    }
    System.out.printf(
        "round trip of %d places: worst %.3g m; %d in overlaps, %d with several candidates%n",
        done, worst, overlaps, several);
    assertTrue(worst < 0.01, "bar is 0.01 m, found " + worst);
    assertTrue(overlaps > 1_000, "places must lie in overlaps, found " + overlaps);
    assertTrue(several > 1_000, "places must lie at crossings, found " + several);
  }

  private static double headingAt(Locator locator, Route route, double along) {
    double low = Math.max(0, along - 0.5);
    double[][] shape =
        locator.shape(route.id(), low, Math.min(route.lengthM(), along + 0.5)).get(0);
    double[] a = shape[0];
    double[] b = shape[shape.length - 1];
    return Math.toDegrees(Math.atan2(b[0] - a[0], b[1] - a[1]));
  }

  /** Lengths by GeographicLib, which knows nothing of our projection. */
  @Test
  void aMileOfAlongIsAMileOnTheGround() {
    ProjectedCrs utm = ProjectedCrs.utmFor(-93, 45);
    ProjectedCrs lambert = ProjectedCrs.fromWkt(ProjectedCrsTest.LAMBERT_FEET);
    double worst = 0;
    // Middle and both edges of the UTM zone, and far north and south of the Lambert zone.
    worst = Math.max(worst, worstMile(utm, -93, 45));
    worst = Math.max(worst, worstMile(utm, -95.9, 45));
    worst = Math.max(worst, worstMile(utm, -90.1, 31));
    worst = Math.max(worst, worstMile(lambert, -94, 44.2));
    worst = Math.max(worst, worstMile(lambert, -97, 48.8));
    System.out.printf("worst mile against GeographicLib: %.3g%n", worst);
    assertTrue(worst < 1e-4, "bar is 0.01 %, found " + worst);
  }

  private static double worstMile(ProjectedCrs crs, double lon, double lat) {
    Network network = windingRoads(crs, lon, lat, 4);
    Locator locator = new Locator(network);
    double worst = 0;
    for (Route route : network.routes().values()) {
      CenterlinePart part = route.parts().get(0);
      for (double from = part.fromAlong(); from + 1609.344 < part.toAlong(); from += 1609.344) {
        double geodesic = 0;
        for (double[][] shape : locator.shape(route.id(), from, from + 1609.344)) {
          for (int i = 1; i < shape.length; i++) {
            double[] a = crs.unproject(shape[i - 1][0], shape[i - 1][1]);
            double[] b = crs.unproject(shape[i][0], shape[i][1]);
            geodesic += Geodesic.WGS84.Inverse(a[1], a[0], b[1], b[0]).s12;
          }
        }
        worst = Math.max(worst, Math.abs(geodesic / 1609.344 - 1));
      }
    }
    return worst;
  }
}
