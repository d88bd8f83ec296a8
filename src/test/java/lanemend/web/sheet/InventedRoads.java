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
import lanemend.network.Edition;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.MilepostMap;
import lanemend.network.Network;
import lanemend.network.RoadClass;
import lanemend.network.Route;

/** A few invented roads, about 12 by 8 miles, in a made-up plane. */
final class InventedRoads {
  private static final double MILE = Conversion.M_PER_MILE;

  private InventedRoads() {}

  static Network network() {
    Map<String, Route> routes = new LinkedHashMap<>();
    add(routes, "SR 14", RoadClass.ARTERIAL, 0, 12, x -> 3 + 0.7 * Math.sin(x / 1.9), true);
    add(routes, "SR 61", RoadClass.ARTERIAL, 0, 12, x -> 6.6 - 0.28 * x, true);
    add(routes, "CR 7", RoadClass.COLLECTOR, 2, 11, x -> 1.1 + 0.06 * x * x / 3, true);
    add(routes, "CR 22", RoadClass.COLLECTOR, 0.5, 8, x -> 5.2 + 0.4 * Math.cos(x), true);
    add(routes, "Quarry Rd", RoadClass.LOCAL, 3, 7, x -> 0.2 + 0.4 * x, false);
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
    List<CalibrationPost> list = new ArrayList<>();
    for (int i = 0; posts && i * MILE <= along[n - 1]; i++) {
      list.add(CalibrationPost.at(i * MILE, 10 + i));
    }
    Edition edition = new Edition(1, LocalDate.of(2020, 1, 1), null);
    MilepostMap map = new EvenMileposts(list, posts ? 10 : 0, posts);
    routes.put(name, new Route(name, name, "", roadClass, List.of(part), map, edition));
  }

  /** Shapes by walking the vertices, as slow and plain as can be. */
  static List<double[][]> shape(Network network, String routeId, double from, double to) {
    CenterlinePart part = network.route(routeId).orElseThrow().parts().get(0);
    List<double[]> points = new ArrayList<>();
    points.add(at(part, from));
    for (int i = 0; i < part.size(); i++) {
      if (part.along(i) > from && part.along(i) < to) {
        points.add(new double[] {part.x(i), part.y(i)});
      }
    }
    points.add(at(part, to));
    return List.<double[][]>of(points.toArray(double[][]::new));
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

  /** Posts exactly a mile apart. */
  private record EvenMileposts(List<CalibrationPost> posts, double first, boolean calibrated)
      implements MilepostMap {
    @Override
    public Milepost at(double alongM) {
      return Milepost.of(first + alongM / MILE);
    }

    @Override
    public MilepostLookup find(Milepost milepost) {
      return new MilepostLookup.Found((milepost.miles() - first) * MILE);
    }
  }
}
