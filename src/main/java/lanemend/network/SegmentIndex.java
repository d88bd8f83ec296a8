package lanemend.network;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Envelope;

/**
 * Finds the segments of many packed lines near a point or a box: a Hilbert-packed R-tree over short
 * chunks of line. Immutable once made; safe for several threads.
 */
final class SegmentIndex {
  /** Segments in one chunk: few enough that a chunk's box hugs the line. */
  private static final int CHUNK = 8;

  /** More than the rounding of a squared distance: what is nearly as near is looked at closely. */
  private static final double SLACK = 1 + 1e-9;

  /**
   * The nearest place of one segment to a point.
   *
   * @param t share of the segment, 0 to 1
   * @param distance in projected metres
   */
  record Foot(int line, int segment, double t, double distance, double alongM) {}

  private final List<CenterlinePart> lines;

  /** x and y of every vertex of every line, so that a search stays within one piece of memory. */
  private final double[] xy;

  /** Of each line, its first vertex's place in {@link #xy}. */
  private final int[] startOf;

  /** The line of each chunk. */
  private final int[] lineOf;

  /** The first segment of each chunk, and the one after its last. */
  private final int[] firstOf;

  private final int[] endOf;
  private final PackedBoxes tree;
  private final Envelope extent = new Envelope();

  SegmentIndex(List<CenterlinePart> lines) {
    this.lines = List.copyOf(lines);
    int chunks = 0;
    int vertices = 0;
    for (CenterlinePart line : lines) {
      vertices += line.size();
      chunks += (line.size() - 1 + CHUNK - 1) / CHUNK;
    }
    xy = new double[2 * vertices];
    startOf = new int[lines.size()];
    lineOf = new int[chunks];
    firstOf = new int[chunks];
    endOf = new int[chunks];
    double[] boxes = new double[4 * chunks];
    int c = 0;
    int v = 0;
    for (int i = 0; i < lines.size(); i++) {
      CenterlinePart line = lines.get(i);
      startOf[i] = v;
      for (int k = 0; k < line.size(); k++) {
        xy[v++] = line.x(k);
        xy[v++] = line.y(k);
      }
      for (int from = 0; from < line.size() - 1; from += CHUNK) {
        Envelope box = new Envelope();
        for (int k = from; k <= Math.min(from + CHUNK, line.size() - 1); k++) {
          box.expandToInclude(line.x(k), line.y(k));
        }
        extent.expandToInclude(box);
        boxes[4 * c] = box.getMinX();
        boxes[4 * c + 1] = box.getMinY();
        boxes[4 * c + 2] = box.getMaxX();
        boxes[4 * c + 3] = box.getMaxY();
        lineOf[c] = i;
        endOf[c] = Math.min(from + CHUNK, line.size() - 1);
        firstOf[c++] = from;
      }
    }
    tree = new PackedBoxes(boxes);
  }

  CenterlinePart line(int i) {
    return lines.get(i);
  }

  /** Every segment within a projected radius, in no order. */
  List<Foot> near(double x, double y, double radius) {
    List<Foot> feet = new ArrayList<>();
    tree.meeting(
        x - radius,
        y - radius,
        x + radius,
        y + radius,
        chunk -> {
          int i = lineOf[chunk];
          for (int s = firstOf[chunk]; s < endOf[chunk]; s++) {
            if (squaredTo(i, s, x, y) <= radius * radius * SLACK) {
              Foot foot = foot(i, s, x, y);
              if (foot.distance <= radius) {
                feet.add(foot);
              }
            }
          }
        });
    return feet;
  }

  /** The nearest segment within this radius; null when there is none. */
  Foot nearest(double x, double y, double maxRadius) {
    Nearest best = new Nearest(x, y, maxRadius);
    tree.nearest(x, y, best.interest, best);
    return best.foot;
  }

  private final class Nearest implements PackedBoxes.NearVisitor {
    private final double x;
    private final double y;
    private final double maxRadius;
    private double interest;
    private Foot foot;

    Nearest(double x, double y, double maxRadius) {
      this.x = x;
      this.y = y;
      this.maxRadius = maxRadius;
      this.interest = maxRadius * maxRadius * SLACK;
    }

    @Override
    public double item(int chunk) {
      int i = lineOf[chunk];
      for (int s = firstOf[chunk]; s < endOf[chunk]; s++) {
        if (squaredTo(i, s, x, y) <= interest) {
          Foot here = foot(i, s, x, y);
          if (here.distance <= maxRadius && (foot == null || before(here, foot))) {
            foot = here;
            interest = here.distance * here.distance * SLACK;
          }
        }
      }
      return interest;
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
    if (box.isNull()) {
      return;
    }
    tree.meeting(
        box.getMinX(),
        box.getMinY(),
        box.getMaxX(),
        box.getMaxY(),
        chunk -> {
          for (int s = firstOf[chunk]; s < endOf[chunk]; s++) {
            visitor.segment(lineOf[chunk], s);
          }
        });
  }

  private double squaredTo(int i, int s, double x, double y) {
    int v = startOf[i] + 2 * s;
    double ax = xy[v];
    double ay = xy[v + 1];
    double dx = xy[v + 2] - ax;
    double dy = xy[v + 3] - ay;
    double t = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
    t = t >= 0 ? Math.min(1, t) : 0;
    double px = ax + t * dx - x;
    double py = ay + t * dy - y;
    return px * px + py * py;
  }

  private Foot foot(int i, int s, double x, double y) {
    CenterlinePart line = lines.get(i);
    double ax = line.x(s);
    double ay = line.y(s);
    double dx = line.x(s + 1) - ax;
    double dy = line.y(s + 1) - ay;
    double t = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
    t = t >= 0 ? Math.min(1, t) : 0;
    double px = ax + t * dx - x;
    double py = ay + t * dy - y;
    double distance = Math.sqrt(px * px + py * py);
    double from = line.along(s);
    return new Foot(i, s, t, distance, from + t * (line.along(s + 1) - from));
  }
}
