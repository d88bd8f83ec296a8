package lanemend.network.edit;

import java.util.ArrayList;
import java.util.List;
import lanemend.network.CenterlinePart;

/** Cuts and turns centrelines. */
final class Centerlines {
  /** A cut this near a vertex is at the vertex, metres. */
  private static final double AT_VERTEX_M = 1e-6;

  private Centerlines() {}

  /** What lies between two alongs, each vertex with the along it had. */
  static List<CenterlinePart> cut(List<CenterlinePart> parts, double fromM, double toM) {
    List<CenterlinePart> cut = new ArrayList<>();
    for (CenterlinePart p : parts) {
      double from = Math.max(fromM, p.fromAlong());
      double to = Math.min(toM, p.toAlong());
      if (to - from > AT_VERTEX_M) {
        cut.add(from == p.fromAlong() && to == p.toAlong() ? p : stretch(p, from, to));
      }
    }
    return cut;
  }

  private static CenterlinePart stretch(CenterlinePart p, double from, double to) {
    List<double[]> vertices = new ArrayList<>();
    vertices.add(vertex(p, from));
    for (int i = 0; i < p.size(); i++) {
      if (p.along(i) - from > AT_VERTEX_M && to - p.along(i) > AT_VERTEX_M) {
        vertices.add(new double[] {p.x(i), p.y(i), p.along(i)});
      }
    }
    vertices.add(vertex(p, to));
    return part(vertices);
  }

  private static double[] vertex(CenterlinePart p, double along) {
    double[] xy = at(p, along);
    return new double[] {xy[0], xy[1], along};
  }

  static CenterlinePart part(List<double[]> vertices) {
    return new CenterlinePart(
        vertices.stream().mapToDouble(v -> v[0]).toArray(),
        vertices.stream().mapToDouble(v -> v[1]).toArray(),
        vertices.stream().mapToDouble(v -> v[2]).toArray());
  }

  /** {x, y} at an along of the part. */
  static double[] at(CenterlinePart p, double along) {
    int low = 0;
    int high = p.size() - 2;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (p.along(middle) <= along) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    double share = (along - p.along(low)) / (p.along(low + 1) - p.along(low));
    return new double[] {
      p.x(low) + share * (p.x(low + 1) - p.x(low)), p.y(low) + share * (p.y(low + 1) - p.y(low))
    };
  }

  /** The same line run the other way, its along from 0. */
  static List<CenterlinePart> turned(List<CenterlinePart> parts) {
    double end = parts.get(parts.size() - 1).toAlong();
    List<CenterlinePart> turned = new ArrayList<>();
    for (int k = parts.size() - 1; k >= 0; k--) {
      CenterlinePart p = parts.get(k);
      List<double[]> vertices = new ArrayList<>();
      for (int i = p.size() - 1; i >= 0; i--) {
        vertices.add(new double[] {p.x(i), p.y(i), end - p.along(i)});
      }
      turned.add(part(vertices));
    }
    return turned;
  }

  /** {x, y} of the first vertex. */
  static double[] first(List<CenterlinePart> parts) {
    CenterlinePart p = parts.get(0);
    return new double[] {p.x(0), p.y(0)};
  }

  /** {x, y} of the last vertex. */
  static double[] last(List<CenterlinePart> parts) {
    CenterlinePart p = parts.get(parts.size() - 1);
    return new double[] {p.x(p.size() - 1), p.y(p.size() - 1)};
  }
}
