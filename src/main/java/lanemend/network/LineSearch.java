package lanemend.network;

/**
 * Finds the nearest place of one packed line without looking at all of it: boxes over eight
 * segments, over eight boxes, and so on, in the order of the line, which is an order of nearness.
 * Immutable once made; safe for several threads.
 */
final class LineSearch {
  /** Segments in a box, and boxes in a larger one. */
  private static final int FAN = 8;

  private static final int FAN_BITS = 3;

  private final CenterlinePart line;

  /** Boxes of each level, four numbers each: least x, least y, most x, most y. */
  private final double[][] levels;

  LineSearch(CenterlinePart line) {
    this.line = line;
    int count = line.size() - 1;
    int depth = 0;
    for (int n = count; n > FAN; n = boxes(n)) {
      depth++;
    }
    levels = new double[depth][];
    for (int level = 0; level < depth; level++) {
      levels[level] = level == 0 ? overSegments() : over(levels[level - 1]);
    }
  }

  private static int boxes(int parts) {
    return (parts + FAN - 1) >> FAN_BITS;
  }

  private double[] overSegments() {
    int segments = line.size() - 1;
    double[] made = new double[4 * boxes(segments)];
    for (int b = 0; b < made.length / 4; b++) {
      empty(made, b);
      for (int i = b * FAN; i <= Math.min(segments, (b + 1) * FAN); i++) {
        include(made, b, line.x(i), line.y(i), line.x(i), line.y(i));
      }
    }
    return made;
  }

  private static double[] over(double[] below) {
    int parts = below.length / 4;
    double[] made = new double[4 * boxes(parts)];
    for (int b = 0; b < made.length / 4; b++) {
      empty(made, b);
      for (int i = b * FAN; i < Math.min(parts, (b + 1) * FAN); i++) {
        include(made, b, below[4 * i], below[4 * i + 1], below[4 * i + 2], below[4 * i + 3]);
      }
    }
    return made;
  }

  private static void empty(double[] boxes, int b) {
    boxes[4 * b] = Double.POSITIVE_INFINITY;
    boxes[4 * b + 1] = Double.POSITIVE_INFINITY;
    boxes[4 * b + 2] = Double.NEGATIVE_INFINITY;
    boxes[4 * b + 3] = Double.NEGATIVE_INFINITY;
  }

  private static void include(
      double[] boxes, int b, double minX, double minY, double maxX, double maxY) {
    boxes[4 * b] = Math.min(boxes[4 * b], minX);
    boxes[4 * b + 1] = Math.min(boxes[4 * b + 1], minY);
    boxes[4 * b + 2] = Math.max(boxes[4 * b + 2], maxX);
    boxes[4 * b + 3] = Math.max(boxes[4 * b + 3], maxY);
  }

  CenterlinePart line() {
    return line;
  }

  /** The nearest place found so far to a point; one search after another may go on with it. */
  static final class Probe {
    private final double x;
    private final double y;
    private double squared = Double.POSITIVE_INFINITY;
    private LineSearch search;
    private int segment;
    private double share;

    Probe(double x, double y) {
      this.x = x;
      this.y = y;
    }

    /** Null while nothing was searched. */
    CenterlinePart line() {
      return search == null ? null : search.line;
    }

    int segment() {
      return segment;
    }

    /** Share of the segment, 0 to 1. */
    double share() {
      return share;
    }

    /** Projected metres. */
    double distance() {
      return Math.sqrt(squared);
    }
  }

  /** Makes the probe's place the nearest of this line, if it is nearer than what it has. */
  void nearest(Probe probe) {
    visit(levels.length - 1, 0, probe);
  }

  private void visit(int level, int from, Probe probe) {
    if (level < 0) {
      segments(from, probe);
      return;
    }
    double[] boxes = levels[level];
    int to = Math.min(from + FAN, boxes.length / 4);
    // The nearest child first, so that most of the others need no look.
    int first = from;
    double least = Double.POSITIVE_INFINITY;
    for (int b = from; b < to; b++) {
      double squared = squaredToBox(boxes, b, probe);
      if (squared < least) {
        least = squared;
        first = b;
      }
    }
    if (least >= probe.squared) {
      return;
    }
    visit(level - 1, first * FAN, probe);
    for (int b = from; b < to; b++) {
      if (b != first && squaredToBox(boxes, b, probe) < probe.squared) {
        visit(level - 1, b * FAN, probe);
      }
    }
  }

  private static double squaredToBox(double[] boxes, int b, Probe p) {
    double dx = Math.max(Math.max(boxes[4 * b] - p.x, p.x - boxes[4 * b + 2]), 0);
    double dy = Math.max(Math.max(boxes[4 * b + 1] - p.y, p.y - boxes[4 * b + 3]), 0);
    return dx * dx + dy * dy;
  }

  private void segments(int from, Probe probe) {
    int to = Math.min(from + FAN, line.size() - 1);
    for (int i = from; i < to; i++) {
      double ax = line.x(i);
      double ay = line.y(i);
      double dx = line.x(i + 1) - ax;
      double dy = line.y(i + 1) - ay;
      double t = ((probe.x - ax) * dx + (probe.y - ay) * dy) / (dx * dx + dy * dy);
      t = t >= 0 ? Math.min(1, t) : 0;
      double px = ax + t * dx - probe.x;
      double py = ay + t * dy - probe.y;
      double squared = px * px + py * py;
      if (squared < probe.squared) {
        probe.squared = squared;
        probe.search = this;
        probe.segment = i;
        probe.share = t;
      }
    }
  }
}
