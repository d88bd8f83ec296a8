package lanemend.network;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.index.hprtree.HPRtree;

/**
 * Finds the segments of many packed lines near a point or a box: a Hilbert-packed R-tree over short
 * chunks of line. Immutable once made; safe for several threads.
 */
final class SegmentIndex {
  /** Segments in one chunk: few enough that a chunk's box hugs the line. */
  private static final int CHUNK = 8;

  private record Chunk(int line, int from, int to) {}

  /**
   * The nearest place of one segment to a point.
   *
   * @param t share of the segment, 0 to 1
   * @param distance in projected metres
   */
  record Foot(int line, int segment, double t, double distance, double alongM) {}

  private final List<CenterlinePart> lines;
  private final HPRtree tree = new HPRtree();
  private final Envelope extent = new Envelope();

  SegmentIndex(List<CenterlinePart> lines) {
    this.lines = List.copyOf(lines);
    for (int i = 0; i < lines.size(); i++) {
      CenterlinePart line = lines.get(i);
      for (int from = 0; from < line.size() - 1; from += CHUNK) {
        int to = Math.min(from + CHUNK, line.size() - 1);
        Envelope box = new Envelope();
        for (int k = from; k <= to; k++) {
          box.expandToInclude(line.x(k), line.y(k));
        }
        extent.expandToInclude(box);
        tree.insert(box, new Chunk(i, from, to));
      }
    }
    tree.build();
  }

  CenterlinePart line(int i) {
    return lines.get(i);
  }

  /** Every segment within a projected radius, in no order. */
  List<Foot> near(double x, double y, double radius) {
    List<Foot> feet = new ArrayList<>();
    if (lines.isEmpty()) {
      return feet;
    }
    tree.query(
        new Envelope(x - radius, x + radius, y - radius, y + radius),
        item -> {
          Chunk chunk = (Chunk) item;
          for (int s = chunk.from; s < chunk.to; s++) {
            Foot foot = foot(chunk.line, s, x, y);
            if (foot.distance <= radius) {
              feet.add(foot);
            }
          }
        });
    return feet;
  }

  /** The nearest segment, searched outwards to at most this radius; null when there is none. */
  Foot nearest(double x, double y, double maxRadius) {
    for (double radius = Math.min(50, maxRadius); ; radius = Math.min(radius * 4, maxRadius)) {
      Foot best = null;
      for (Foot foot : near(x, y, radius)) {
        if (best == null || before(foot, best)) {
          best = foot;
        }
      }
      if (best != null || radius >= maxRadius) {
        return best;
      }
    }
  }

  /** A radius that reaches every line from this point. */
  double reach(double x, double y) {
    if (extent.isNull()) {
      return 0;
    }
    return extent.distance(new Envelope(x, x, y, y))
        + Math.hypot(extent.getWidth(), extent.getHeight())
        + 1;
  }

  private static boolean before(Foot a, Foot b) {
    if (a.distance != b.distance) {
      return a.distance < b.distance;
    }
    return a.line != b.line ? a.line < b.line : a.segment < b.segment;
  }

  /** What a box search finds. */
  interface SegmentVisitor {
    void segment(int line, int segment);
  }

  /** Visits segments whose chunk's box meets this one. */
  void inBox(Envelope box, SegmentVisitor visitor) {
    if (lines.isEmpty()) {
      return;
    }
    tree.query(
        box,
        item -> {
          Chunk chunk = (Chunk) item;
          for (int s = chunk.from; s < chunk.to; s++) {
            visitor.segment(chunk.line, s);
          }
        });
  }

  private Foot foot(int i, int s, double x, double y) {
    CenterlinePart line = lines.get(i);
    double ax = line.x(s);
    double ay = line.y(s);
    double dx = line.x(s + 1) - ax;
    double dy = line.y(s + 1) - ay;
    double t = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
    t = t >= 0 ? Math.min(1, t) : 0;
    double distance = Math.hypot(ax + t * dx - x, ay + t * dy - y);
    double from = line.along(s);
    return new Foot(i, s, t, distance, from + t * (line.along(s + 1) - from));
  }
}
