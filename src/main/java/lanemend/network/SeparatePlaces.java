package lanemend.network;

import java.util.ArrayList;
import java.util.List;

/**
 * Tells the separate places of one route near a point apart. A bend has many segments within reach
 * but one nearest place; a loop, a hairpin or a crossing of the route with itself has several.
 */
final class SeparatePlaces {
  /** Between two separate places the route must first get this much farther away. */
  private static final double HILL_M = 3;

  private SeparatePlaces() {}

  /**
   * The feet that are separate places, nearest first.
   *
   * @param feet every segment of one route within reach, in the order of the route: by line number
   *     in the index, then by segment
   */
  static List<SegmentIndex.Foot> of(
      List<SegmentIndex.Foot> feet, SegmentIndex index, double x, double y) {
    if (feet.size() == 1) {
      return feet;
    }
    int n = feet.size();
    double[] hillBefore = new double[n];
    int[] order = new int[n];
    for (int i = 1; i < n; i++) {
      hillBefore[i] = between(feet.get(i - 1), feet.get(i), index, x, y);
      // Insertion: a point has few feet on a route, and equals keep their order.
      int k = i;
      while (k > 0 && feet.get(order[k - 1]).distance() > feet.get(i).distance()) {
        order[k] = order[k - 1];
        k--;
      }
      order[k] = i;
    }
    List<SegmentIndex.Foot> places = new ArrayList<>(2);
    int[] chosen = new int[n];
    int count = 0;
    for (int i : order) {
      double needed = feet.get(i).distance() + HILL_M;
      boolean separate = true;
      for (int c = 0; c < count && separate; c++) {
        separate = hill(hillBefore, chosen[c], i) > needed;
      }
      if (separate) {
        chosen[count++] = i;
        places.add(feet.get(i));
      }
    }
    return places;
  }

  private static double hill(double[] hillBefore, int a, int b) {
    double highest = 0;
    for (int i = Math.min(a, b) + 1; i <= Math.max(a, b); i++) {
      highest = Math.max(highest, hillBefore[i]);
    }
    return highest;
  }

  /** How far away the route gets between two feet that follow each other in the list. */
  private static double between(
      SegmentIndex.Foot a, SegmentIndex.Foot b, SegmentIndex index, double x, double y) {
    CenterlinePart line = index.line(b.line());
    if (a.line() == b.line() && b.segment() == a.segment() + 1) {
      int vertex = b.segment();
      double away = Math.hypot(line.x(vertex) - x, line.y(vertex) - y);
      return Math.max(away, Math.max(a.distance(), b.distance()));
    }
    return Double.POSITIVE_INFINITY;
  }
}
