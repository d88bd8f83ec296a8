package lanemend.network;

import java.util.Arrays;

/**
 * A stretch of one source line between two places where lines of its route meet. What only fills a
 * hole in the route is a piece too: a stretch borrowed from a line that does not carry the name, or
 * (with no line) a straight between two line ends which nearly meet.
 *
 * @param line the source line, or null for a straight
 * @param geometry along is counted from the piece's own start
 * @param oneWay traffic runs only from nodeA to nodeB
 * @param filler not the route's own
 */
record Piece(
    CleanLine line, CenterlinePart geometry, int nodeA, int nodeB, boolean oneWay, boolean filler) {

  double lengthM() {
    return geometry.toAlong();
  }

  /** Part of a line's geometry between two places of it, re-counted from 0. */
  static CenterlinePart cut(CenterlinePart line, double from, double to) {
    double[] x = new double[line.size() + 2];
    double[] y = new double[line.size() + 2];
    double[] along = new double[line.size() + 2];
    int n = 0;
    for (int i = 0; i < line.size(); i++) {
      if (i > 0) {
        double a = line.along(i - 1);
        double b = line.along(i);
        for (double cut : new double[] {from, to}) {
          if (cut > a && cut < b) {
            double t = (cut - a) / (b - a);
            x[n] = line.x(i - 1) + t * (line.x(i) - line.x(i - 1));
            y[n] = line.y(i - 1) + t * (line.y(i) - line.y(i - 1));
            along[n++] = cut - from;
          }
        }
      }
      if (line.along(i) >= from && line.along(i) <= to) {
        x[n] = line.x(i);
        y[n] = line.y(i);
        along[n++] = line.along(i) - from;
      }
    }
    return new CenterlinePart(Arrays.copyOf(x, n), Arrays.copyOf(y, n), Arrays.copyOf(along, n));
  }

  /** The same geometry with its first and last vertex moved (by at most the joining tolerance). */
  static CenterlinePart withEnds(CenterlinePart line, double[] first, double[] last) {
    double[] x = new double[line.size()];
    double[] y = new double[line.size()];
    double[] along = new double[line.size()];
    for (int i = 0; i < x.length; i++) {
      x[i] = line.x(i);
      y[i] = line.y(i);
      along[i] = line.along(i);
    }
    x[0] = first[0];
    y[0] = first[1];
    x[x.length - 1] = last[0];
    y[y.length - 1] = last[1];
    return new CenterlinePart(x, y, along);
  }

  /** Direction of travel, radians counter-clockwise from east, over the metres after a start. */
  static double headingFrom(CenterlinePart line, boolean reversed, double overM) {
    double total = line.toAlong() - line.fromAlong();
    double reach = Math.min(overM, total);
    int first = reversed ? line.size() - 1 : 0;
    double startAlong = line.along(first);
    double[] target = at(line, reversed ? startAlong - reach : startAlong + reach);
    return Math.atan2(target[1] - line.y(first), target[0] - line.x(first));
  }

  /** Point at along, {x, y}. */
  static double[] at(CenterlinePart line, double along) {
    int i = segmentAt(line, along);
    double a = line.along(i);
    double t = (along - a) / (line.along(i + 1) - a);
    return new double[] {
      line.x(i) + t * (line.x(i + 1) - line.x(i)), line.y(i) + t * (line.y(i + 1) - line.y(i))
    };
  }

  /** The segment that holds along; the later one at a vertex. */
  static int segmentAt(CenterlinePart line, double along) {
    int low = 0;
    int high = line.size() - 2;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (line.along(middle) <= along) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }
}
