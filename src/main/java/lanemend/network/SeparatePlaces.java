package lanemend.network;

import java.util.ArrayList;
import java.util.Comparator;
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
   * @param feet every segment of one route within reach; the order of its parts is that of their
   *     line numbers in the index
   */
  static List<SegmentIndex.Foot> of(
      List<SegmentIndex.Foot> feet, SegmentIndex index, double x, double y) {
    List<SegmentIndex.Foot> inOrder = new ArrayList<>(feet);
    inOrder.sort(
        Comparator.comparingInt(SegmentIndex.Foot::line)
            .thenComparingInt(SegmentIndex.Foot::segment));
    double[] hillBefore = new double[inOrder.size()];
    for (int i = 1; i < hillBefore.length; i++) {
      hillBefore[i] = between(inOrder.get(i - 1), inOrder.get(i), index, x, y);
    }
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < hillBefore.length; i++) {
      order.add(i);
    }
    order.sort(Comparator.comparingDouble(i -> inOrder.get(i).distance()));
    List<Integer> chosen = new ArrayList<>();
    for (int i : order) {
      double needed = inOrder.get(i).distance() + HILL_M;
      if (chosen.stream().allMatch(c -> hill(hillBefore, c, i) > needed)) {
        chosen.add(i);
      }
    }
    return chosen.stream().map(inOrder::get).toList();
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
