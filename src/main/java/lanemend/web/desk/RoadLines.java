package lanemend.web.desk;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lanemend.network.CenterlinePart;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;

/** Centrelines in the map's plane. */
final class RoadLines {

  /**
   * One unbroken line.
   *
   * @param route null for a road without a route name
   * @param along ground metres from the route's start
   */
  record Line(Route route, double[] x, double[] y, double[] along) {

    /** The point at along, or null when it lies on another line. */
    double[] at(double alongM) {
      int n = along.length;
      if (alongM < along[0] - 1e-6 || alongM > along[n - 1] + 1e-6) {
        return null;
      }
      int i = Arrays.binarySearch(along, alongM);
      int before = Math.max(0, Math.min(n - 2, i >= 0 ? i : -i - 2));
      double t = (alongM - along[before]) / (along[before + 1] - along[before]);
      return new double[] {
        x[before] + t * (x[before + 1] - x[before]), y[before] + t * (y[before + 1] - y[before])
      };
    }

    /** The part of this line in a stretch, or null when none is; a spot is made a line of 2 m. */
    Line between(double fromM, double toM) {
      double from = Math.max(along[0], Math.min(fromM, toM - 1));
      double to = Math.min(along[along.length - 1], Math.max(toM, fromM + 1));
      if (!(to > from)) {
        return null;
      }
      List<double[]> points = new ArrayList<>();
      points.add(placed(from));
      for (int i = 0; i < along.length; i++) {
        if (along[i] > from && along[i] < to) {
          points.add(new double[] {x[i], y[i], along[i]});
        }
      }
      points.add(placed(to));
      return new Line(route, column(points, 0), column(points, 1), column(points, 2));
    }

    private double[] placed(double alongM) {
      double[] xy = at(alongM);
      return new double[] {xy[0], xy[1], alongM};
    }

    private static double[] column(List<double[]> points, int i) {
      return points.stream().mapToDouble(p -> p[i]).toArray();
    }
  }

  private final List<Line> lines = new ArrayList<>();
  private final Map<String, List<Line>> byRoute = new HashMap<>();

  RoadLines(Network network, ProjectedCrs crs) {
    for (Route route : network.routes().values()) {
      for (CenterlinePart part : route.parts()) {
        Line line = line(route, part, crs);
        lines.add(line);
        byRoute.computeIfAbsent(route.id(), k -> new ArrayList<>()).add(line);
      }
    }
    network.connectors().forEach(c -> lines.add(line(null, c.line(), crs)));
  }

  private static Line line(Route route, CenterlinePart part, ProjectedCrs crs) {
    int n = part.size();
    double[] x = new double[n];
    double[] y = new double[n];
    double[] along = new double[n];
    for (int i = 0; i < n; i++) {
      double[] lonLat = crs.unproject(part.x(i), part.y(i));
      x[i] = Mercator.x(lonLat[0]);
      y[i] = Mercator.y(lonLat[1]);
      along[i] = part.along(i);
    }
    return new Line(route, x, y, along);
  }

  List<Line> lines() {
    return lines;
  }

  List<Line> of(String routeId) {
    return byRoute.getOrDefault(routeId, List.of());
  }

  /** West, south, east and north in degrees. */
  double[] bounds(List<Line> some) {
    double[] b = {1, 0, 0, 1};
    for (Line line : some) {
      for (int i = 0; i < line.x().length; i++) {
        b[0] = Math.min(b[0], line.x()[i]);
        b[1] = Math.max(b[1], line.y()[i]);
        b[2] = Math.max(b[2], line.x()[i]);
        b[3] = Math.min(b[3], line.y()[i]);
      }
    }
    return new double[] {
      Mercator.lon(b[0]), Mercator.lat(b[1]), Mercator.lon(b[2]), Mercator.lat(b[3])
    };
  }
}
