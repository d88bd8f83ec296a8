package lanemend.store;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import lanemend.network.CenterlinePart;

/** Points and stretches of a road's line by along, to draw events where they lie. */
record RoadLine(List<CenterlinePart> parts) {
  /** The shortest stretch worth drawing, in metres: a spot would have no line at all. */
  static final double SHORTEST_M = 2;

  RoadLine {
    parts = List.copyOf(parts);
  }

  double fromAlong() {
    return parts.get(0).fromAlong();
  }

  double toAlong() {
    return parts.get(parts.size() - 1).toAlong();
  }

  /** {x, y} at this along; on the straight between two parts inside a gap, the end beyond it. */
  double[] at(double alongM) {
    CenterlinePart before = null;
    for (CenterlinePart p : parts) {
      if (alongM <= p.toAlong()) {
        if (alongM >= p.fromAlong() || before == null) {
          return within(p, alongM);
        }
        int last = before.size() - 1;
        double share =
            (alongM - before.toAlong()) / Math.max(1e-9, p.fromAlong() - before.toAlong());
        return between(before.x(last), before.y(last), p.x(0), p.y(0), share);
      }
      before = p;
    }
    return within(parts.get(parts.size() - 1), toAlong());
  }

  /** The line between two alongs, widened to {@link #SHORTEST_M}; gaps split it. */
  List<CenterlinePart> cut(double fromAlongM, double toAlongM) {
    double missing = Math.max(0, SHORTEST_M - (toAlongM - fromAlongM)) / 2;
    double from = fromAlongM - missing;
    double to = toAlongM + missing;
    List<CenterlinePart> cut = new ArrayList<>();
    for (CenterlinePart p : parts) {
      double a = Math.max(from, p.fromAlong());
      double b = Math.min(to, p.toAlong());
      if (b - a > 1e-6) {
        cut.add(a == p.fromAlong() && b == p.toAlong() ? p : stretch(p, a, b));
      }
    }
    return Collections.unmodifiableList(cut);
  }

  private static CenterlinePart stretch(CenterlinePart p, double a, double b) {
    int first = firstAfter(p, a);
    int end = first;
    while (end < p.size() && p.along(end) < b) {
      end++;
    }
    int n = end - first + 2;
    double[] x = new double[n];
    double[] y = new double[n];
    double[] along = new double[n];
    put(p, a, 0, x, y, along);
    for (int i = first; i < end; i++) {
      x[i - first + 1] = p.x(i);
      y[i - first + 1] = p.y(i);
      along[i - first + 1] = p.along(i);
    }
    put(p, b, n - 1, x, y, along);
    return new CenterlinePart(x, y, along);
  }

  private static void put(
      CenterlinePart p, double alongM, int i, double[] x, double[] y, double[] along) {
    double[] xy = within(p, alongM);
    x[i] = xy[0];
    y[i] = xy[1];
    along[i] = alongM;
  }

  private static double[] within(CenterlinePart p, double alongM) {
    int i = Math.min(Math.max(firstAfter(p, alongM), 1), p.size() - 1);
    double share = (alongM - p.along(i - 1)) / (p.along(i) - p.along(i - 1));
    return between(p.x(i - 1), p.y(i - 1), p.x(i), p.y(i), Math.min(1, Math.max(0, share)));
  }

  /** Index of the first vertex beyond this along. */
  private static int firstAfter(CenterlinePart p, double alongM) {
    int low = 0;
    int high = p.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (p.along(middle) > alongM) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  private static double[] between(double x0, double y0, double x1, double y1, double share) {
    return new double[] {x0 + share * (x1 - x0), y0 + share * (y1 - y0)};
  }
}
