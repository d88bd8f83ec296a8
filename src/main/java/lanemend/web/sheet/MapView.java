package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.List;
import lanemend.network.CenterlinePart;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;

/** The piece of ground a map shows and how it lies on the paper, north up. */
final class MapView {
  /** Detail finer than this many points of the drawing cannot be seen and is left out. */
  private static final double TOLERANCE_PT = 0.3;

  private static final GeometryFactory LINES = new GeometryFactory();

  private final double minX;
  private final double maxY;
  private final double pointsPerM;
  private final double width;
  private final double height;

  private MapView(double minX, double maxY, double pointsPerM, double width, double height) {
    this.minX = minX;
    this.maxY = maxY;
    this.pointsPerM = pointsPerM;
    this.width = width;
    this.height = height;
  }

  /**
   * Fits places into a drawing of this width, with a border for labels; its height follows the
   * shape of the ground between two limits.
   */
  static MapView around(List<double[]> places, double width, double lowest, double highest) {
    double x0 = places.stream().mapToDouble(p -> p[0]).min().orElse(0);
    double x1 = places.stream().mapToDouble(p -> p[0]).max().orElse(0);
    double y0 = places.stream().mapToDouble(p -> p[1]).min().orElse(0);
    double y1 = places.stream().mapToDouble(p -> p[1]).max().orElse(0);
    double spanX = Math.max((x1 - x0) * 1.24, 1500);
    double spanY = Math.max((y1 - y0) * 1.28, 1000);
    double height = Math.min(highest, Math.max(lowest, width * spanY / spanX));
    double scale = Math.min(width / spanX, height / spanY);
    double left = (x0 + x1) / 2 - width / scale / 2;
    double top = (y0 + y1) / 2 + height / scale / 2;
    return new MapView(left, top, scale, width, height);
  }

  double width() {
    return width;
  }

  double height() {
    return height;
  }

  double pointsPerM() {
    return pointsPerM;
  }

  double[] toPaper(double x, double y) {
    return new double[] {(x - minX) * pointsPerM, (maxY - y) * pointsPerM};
  }

  boolean shows(double[] paper, double border) {
    return paper[0] >= -border
        && paper[1] >= -border
        && paper[0] <= width + border
        && paper[1] <= height + border;
  }

  /** The pieces of a centreline that touch the drawing, on paper and thinned. */
  List<List<double[]>> visible(CenterlinePart part) {
    List<List<double[]>> runs = new ArrayList<>();
    List<double[]> run = new ArrayList<>();
    double[] before = toPaper(part.x(0), part.y(0));
    for (int i = 1; i < part.size(); i++) {
      double[] here = toPaper(part.x(i), part.y(i));
      if (touches(before, here)) {
        if (run.isEmpty()) {
          run.add(before);
        }
        run.add(here);
      } else if (!run.isEmpty()) {
        runs.add(thin(run));
        run = new ArrayList<>();
      }
      before = here;
    }
    if (!run.isEmpty()) {
      runs.add(thin(run));
    }
    return runs;
  }

  /** A projected polyline on paper, thinned. */
  List<double[]> line(List<double[]> xy) {
    return thin(xy.stream().map(p -> toPaper(p[0], p[1])).toList());
  }

  private boolean touches(double[] a, double[] b) {
    return Math.max(a[0], b[0]) >= 0
        && Math.min(a[0], b[0]) <= width
        && Math.max(a[1], b[1]) >= 0
        && Math.min(a[1], b[1]) <= height;
  }

  private static List<double[]> thin(List<double[]> points) {
    if (points.size() < 3) {
      return points;
    }
    Coordinate[] all =
        points.stream().map(p -> new Coordinate(p[0], p[1])).toArray(Coordinate[]::new);
    List<double[]> kept = new ArrayList<>();
    for (Coordinate c :
        DouglasPeuckerSimplifier.simplify(LINES.createLineString(all), TOLERANCE_PT)
            .getCoordinates()) {
      kept.add(new double[] {c.x, c.y});
    }
    return kept;
  }
}
