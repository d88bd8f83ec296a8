package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Projects source lines, drops repeated vertices and brings line ends that nearly touch onto one
 * node. Works through the lines in an order that depends on their geometry alone, so that a
 * shuffled file gives the same roads.
 */
final class LineCleaner {
  /** Line ends at most this far apart are one place: digitizing and rounding, not a gap. */
  static final double SNAP_M = 0.5;

  /** Vertices closer than this repeat each other. */
  private static final double REPEAT_M = 0.001;

  private final ProjectedCrs crs;
  private final List<AssemblyNote> notes;
  private final List<double[]> nodes = new ArrayList<>();

  LineCleaner(ProjectedCrs crs, List<AssemblyNote> notes) {
    this.crs = crs;
    this.notes = notes;
  }

  /** Where a node stands, {x, y}. */
  double[] node(int i) {
    return nodes.get(i);
  }

  List<CleanLine> clean(List<SourceLine> lines) {
    List<SourceLine> sorted = new ArrayList<>(lines);
    sorted.sort(
        Comparator.comparing(LineCleaner::key, Arrays::compare)
            .thenComparing(line -> line.longitude().length > 0 ? line.longitude()[0] : 0)
            .thenComparing(SourceLine::origin));
    List<SourceLine> kept = new ArrayList<>();
    List<double[][]> shapes = new ArrayList<>();
    for (SourceLine line : sorted) {
      double[][] shape = shape(line);
      if (shape != null) {
        kept.add(line);
        shapes.add(shape);
      }
    }
    int[] ends = snapEnds(shapes);
    List<CleanLine> clean = new ArrayList<>();
    for (int i = 0; i < kept.size(); i++) {
      CleanLine line = onNodes(kept.get(i), shapes.get(i), ends[2 * i], ends[2 * i + 1]);
      if (line != null) {
        clean.add(line);
      }
    }
    return clean;
  }

  /** The line's coordinates in whichever order of vertices sorts first. */
  private static double[] key(SourceLine line) {
    int n = Math.min(line.longitude().length, line.latitude().length);
    double[] forward = new double[2 * n];
    double[] backward = new double[2 * n];
    for (int i = 0; i < n; i++) {
      forward[2 * i] = line.longitude()[i];
      forward[2 * i + 1] = line.latitude()[i];
      backward[2 * (n - 1 - i)] = line.longitude()[i];
      backward[2 * (n - 1 - i) + 1] = line.latitude()[i];
    }
    return Arrays.compare(forward, backward) <= 0 ? forward : backward;
  }

  static boolean sameDrawing(SourceLine a, SourceLine b) {
    return Arrays.equals(key(a), key(b))
        && a.oneWay() == b.oneWay()
        && (!a.oneWay() || Arrays.equals(a.longitude(), b.longitude()));
  }

  private void refuse(SourceLine line, String why) {
    notes.add(new AssemblyNote("", line.origin(), "line left out: " + why));
  }

  /** Projected vertices {x[], y[]} without repeats, or null after a note. */
  private double[][] shape(SourceLine line) {
    int n = line.longitude().length;
    if (n != line.latitude().length) {
      refuse(line, "found %d longitudes and %d latitudes".formatted(n, line.latitude().length));
      return null;
    }
    double[] x = new double[n];
    double[] y = new double[n];
    int size = 0;
    for (int i = 0; i < n; i++) {
      double lon = line.longitude()[i];
      double lat = line.latitude()[i];
      if (!(Math.abs(lon) <= 180 && Math.abs(lat) <= 90)) {
        refuse(line, "vertex %d is at longitude %s, latitude %s".formatted(i + 1, lon, lat));
        return null;
      }
      double[] at;
      try {
        at = crs.project(lon, lat);
      } catch (IllegalArgumentException e) {
        refuse(line, "vertex %d: %s".formatted(i + 1, e.getMessage()));
        return null;
      }
      if (size == 0 || Math.hypot(at[0] - x[size - 1], at[1] - y[size - 1]) > REPEAT_M) {
        x[size] = at[0];
        y[size] = at[1];
        size++;
      }
    }
    if (size < 2) {
      refuse(line, "its %d vertices are one place".formatted(n));
      return null;
    }
    return new double[][] {Arrays.copyOf(x, size), Arrays.copyOf(y, size)};
  }

  /** Node of each line's first and last vertex: ends within {@link #SNAP_M} share one. */
  private int[] snapEnds(List<double[][]> shapes) {
    int n = 2 * shapes.size();
    double[][] at = new double[n][];
    for (int i = 0; i < shapes.size(); i++) {
      double[] x = shapes.get(i)[0];
      double[] y = shapes.get(i)[1];
      at[2 * i] = new double[] {x[0], y[0]};
      at[2 * i + 1] = new double[] {x[x.length - 1], y[y.length - 1]};
    }
    Integer[] order = new Integer[n];
    Arrays.setAll(order, i -> i);
    Arrays.sort(order, Comparator.comparing((Integer i) -> at[i], Arrays::compare));
    int[] node = new int[n];
    Map<Long, List<Integer>> cells = new HashMap<>();
    for (int i : order) {
      node[i] = nodeNear(at[i], cells);
    }
    return node;
  }

  /** The nearest node within reach, else a new one; found nodes never move. */
  private int nodeNear(double[] p, Map<Long, List<Integer>> cells) {
    long cx = (long) Math.floor(p[0] / SNAP_M);
    long cy = (long) Math.floor(p[1] / SNAP_M);
    int best = -1;
    double bestDistance = SNAP_M;
    for (long gx = cx - 1; gx <= cx + 1; gx++) {
      for (long gy = cy - 1; gy <= cy + 1; gy++) {
        for (int node : cells.getOrDefault(cell(gx, gy), List.of())) {
          double d = Math.hypot(nodes.get(node)[0] - p[0], nodes.get(node)[1] - p[1]);
          if (d < bestDistance || (d == bestDistance && best < 0)) {
            best = node;
            bestDistance = d;
          }
        }
      }
    }
    if (best < 0) {
      best = nodes.size();
      nodes.add(p);
      cells.computeIfAbsent(cell(cx, cy), c -> new ArrayList<>()).add(best);
    }
    return best;
  }

  private static long cell(long gx, long gy) {
    return gx * 1_000_000_007L + gy;
  }

  private CleanLine onNodes(SourceLine line, double[][] shape, int startNode, int endNode) {
    double[] x = shape[0];
    double[] y = shape[1];
    int last = x.length - 1;
    x[0] = nodes.get(startNode)[0];
    y[0] = nodes.get(startNode)[1];
    x[last] = nodes.get(endNode)[0];
    y[last] = nodes.get(endNode)[1];
    int from = 0;
    while (from < last - 1 && Math.hypot(x[from + 1] - x[0], y[from + 1] - y[0]) <= REPEAT_M) {
      from++;
    }
    int to = last;
    while (to > from + 1 && Math.hypot(x[to - 1] - x[last], y[to - 1] - y[last]) <= REPEAT_M) {
      to--;
    }
    double[] px = Arrays.copyOfRange(x, from, to + 1);
    double[] py = Arrays.copyOfRange(y, from, to + 1);
    px[0] = x[0];
    py[0] = y[0];
    px[px.length - 1] = x[last];
    py[py.length - 1] = y[last];
    double[] along = new double[px.length];
    for (int i = 1; i < px.length; i++) {
      along[i] = along[i - 1] + crs.groundM(px[i - 1], py[i - 1], px[i], py[i]);
    }
    double length = along[along.length - 1];
    if (startNode == endNode && length < 2 * SNAP_M) {
      refuse(
          line,
          "it is %.2f m long, below the %.1f m within which ends are joined"
              .formatted(length, SNAP_M));
      return null;
    }
    return new CleanLine(line, new CenterlinePart(px, py, along), startNode, endNode);
  }
}
