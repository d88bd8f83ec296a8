package lanemend.web.sheet;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import lanemend.measure.Conversion;
import lanemend.network.CalibrationPost;
import lanemend.network.CenterlinePart;
import lanemend.network.Connector;
import lanemend.network.Edition;
import lanemend.network.MilepostMap;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.network.TravelRules;

/** A few invented roads, about 12 by 8 miles, in a made-up plane. */
final class InventedRoads {
  private static final double MILE = Conversion.M_PER_MILE;

  static final TravelRules EVERYWHERE_55_MPH =
      new TravelRules() {
        @Override
        public double speedKmh(Route route, double alongM) {
          return 55 * Conversion.KMH_PER_MPH;
        }

        @Override
        public double speedKmh(Connector connector) {
          return 55 * Conversion.KMH_PER_MPH;
        }

        @Override
        public boolean oneWay(Route route, double alongM) {
          return false;
        }

        @Override
        public boolean oneWay(Connector connector) {
          return false;
        }

        @Override
        public int level(Route route, double alongM) {
          return 0;
        }

        @Override
        public int level(Connector connector) {
          return 0;
        }

        @Override
        public double[] breaks(Route route) {
          return new double[0];
        }
      };

  private InventedRoads() {}

  static Network network() {
    Map<String, Route> routes = new LinkedHashMap<>();
    add(routes, "SR 14", RoadClass.ARTERIAL, 0, 12, x -> 3 + 0.7 * Math.sin(x / 1.9), true);
    add(routes, "SR 61", RoadClass.ARTERIAL, 0, 12, x -> 6.6 - 0.28 * x, true);
    add(routes, "CR 7", RoadClass.COLLECTOR, 2, 11, x -> 1.1 + 0.06 * x * x / 3, true);
    add(routes, "CR 22", RoadClass.COLLECTOR, 0.5, 8, x -> 5.2 + 0.4 * Math.cos(x), true);
    add(routes, "Quarry Rd", RoadClass.LOCAL, 3, 7, x -> 0.2 + 0.4 * x, false);
    // Crosses SR 14 at the first stop.
    add(routes, "Kiln Rd", RoadClass.LOCAL, 3.21, 3.23, x -> 2 + 150 * (x - 3.21), false);
    return new Network("LOCAL_CS[\"invented\"]", routes, List.of());
  }

  /** A road drawn as y over x, both in miles; mileposts start at 10 and posts stand each mile. */
  private static void add(
      Map<String, Route> routes,
      String name,
      RoadClass roadClass,
      double fromX,
      double toX,
      DoubleUnaryOperator y,
      boolean posts) {
    int n = 400;
    double[] xs = new double[n];
    double[] ys = new double[n];
    double[] along = new double[n];
    for (int i = 0; i < n; i++) {
      double x = fromX + (toX - fromX) * i / (n - 1);
      xs[i] = x * MILE;
      ys[i] = y.applyAsDouble(x) * MILE;
      along[i] = i == 0 ? 0 : along[i - 1] + Math.hypot(xs[i] - xs[i - 1], ys[i] - ys[i - 1]);
    }
    CenterlinePart part = new CenterlinePart(xs, ys, along);
    double length = along[n - 1];
    MilepostMap map =
        posts
            ? PiecewiseMileposts.of(posts(name, length), length)
            : PiecewiseMileposts.uncalibrated(length);
    Edition edition = new Edition(1, LocalDate.of(2020, 1, 1), null);
    routes.put(name, new Route(name, name, "", roadClass, List.of(part), map, edition));
  }

  /** A post each mile; SR 61 was shortened by 0.04 mile, so 17.65 to 17.69 occur twice. */
  private static List<CalibrationPost> posts(String name, double lengthM) {
    List<CalibrationPost> posts = new ArrayList<>();
    for (int i = 0; i * MILE <= lengthM; i++) {
      if (name.equals("SR 61") && i == 8) {
        posts.add(new CalibrationPost(7.69 * MILE, 17.69, 17.65));
      }
      posts.add(CalibrationPost.at(i * MILE, name.equals("SR 61") && i >= 8 ? 9.96 + i : 10 + i));
    }
    return posts;
  }

  static double[] at(CenterlinePart part, double along) {
    int i = 1;
    while (i < part.size() - 1 && part.along(i) < along) {
      i++;
    }
    double t = (along - part.along(i - 1)) / (part.along(i) - part.along(i - 1));
    return new double[] {
      part.x(i - 1) + t * (part.x(i) - part.x(i - 1)),
      part.y(i - 1) + t * (part.y(i) - part.y(i - 1))
    };
  }
}
