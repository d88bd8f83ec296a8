package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Draws chains of pieces as centreline parts, along counted through parts and gaps alike. */
final class RouteDrawing {
  /** Chains that start where the last one ended are one part. */
  private static final double SAME_PLACE_M = 0.01;

  private final ProjectedCrs crs;

  RouteDrawing(ProjectedCrs crs) {
    this.crs = crs;
  }

  List<CenterlinePart> parts(List<Chain> chains) {
    return draw("", chains).parts();
  }

  /**
   * Chains as drawn.
   *
   * @param gapsM straight ground length before each part but the first
   */
  record Drawn(List<CenterlinePart> parts, List<LineRun> runs, List<Double> gapsM) {}

  Drawn draw(String routeId, List<Chain> chains) {
    Pen pen = new Pen(routeId);
    for (Chain chain : chains) {
      pen.start(chain.path().get(0));
      for (Travelled t : chain.path()) {
        pen.pass(t);
      }
    }
    pen.lift();
    return new Drawn(pen.parts, pen.runs, pen.gaps);
  }

  /** Attributes of a line as a run of a route (or a connector) carries them. */
  static Map<String, String> attributes(SourceLine line) {
    Map<String, String> all = new HashMap<>(line.attributes());
    all.put("one_way", line.oneWay() ? "yes" : "no");
    all.put("level", Integer.toString(line.level()));
    return Map.copyOf(all);
  }

  private final class Pen {
    private final String routeId;
    private final List<CenterlinePart> parts = new ArrayList<>();
    private final List<LineRun> runs = new ArrayList<>();
    private final List<Double> gaps = new ArrayList<>();
    private double[] x = new double[64];
    private double[] y = new double[64];
    private double[] along = new double[64];
    private int size;
    private double reached;
    private CleanLine lastLine;

    Pen(String routeId) {
      this.routeId = routeId;
    }

    void start(Travelled first) {
      CenterlinePart g = first.piece().geometry();
      int at = first.reversed() ? g.size() - 1 : 0;
      if (size > 0) {
        double gap = crs.groundM(x[size - 1], y[size - 1], g.x(at), g.y(at));
        if (gap <= SAME_PLACE_M) {
          return;
        }
        lift();
        gaps.add(gap);
        reached += gap;
      }
      put(g.x(at), g.y(at));
    }

    void pass(Travelled t) {
      double from = reached;
      CenterlinePart g = t.piece().geometry();
      int n = g.size();
      for (int i = 1; i < n; i++) {
        int k = t.reversed() ? n - 1 - i : i;
        int before = t.reversed() ? k + 1 : k - 1;
        reached += Math.abs(g.along(k) - g.along(before));
        put(g.x(k), g.y(k));
      }
      addRun(t.piece(), from);
    }

    private void addRun(Piece piece, double from) {
      if (piece.line() == null) {
        lastLine = null;
        return;
      }
      if (piece.line().equals(lastLine)) {
        LineRun open = runs.remove(runs.size() - 1);
        runs.add(new LineRun(routeId, open.fromAlongM(), reached, open.attributes()));
      } else {
        runs.add(new LineRun(routeId, from, reached, attributes(piece.line().source())));
      }
      lastLine = piece.line();
    }

    private void put(double px, double py) {
      if (size > 0 && !(reached > along[size - 1])) {
        return;
      }
      if (size == x.length) {
        x = Arrays.copyOf(x, 2 * size);
        y = Arrays.copyOf(y, 2 * size);
        along = Arrays.copyOf(along, 2 * size);
      }
      x[size] = px;
      y[size] = py;
      along[size++] = reached;
    }

    void lift() {
      if (size >= 2) {
        parts.add(
            new CenterlinePart(
                Arrays.copyOf(x, size), Arrays.copyOf(y, size), Arrays.copyOf(along, size)));
      }
      size = 0;
      lastLine = null;
    }
  }
}
