package lanemend.network;

import java.util.Arrays;
import org.locationtech.jts.shape.fractal.HilbertCode;

/**
 * An R-tree in plain arrays over boxes sorted along a Hilbert curve (Kamel and Faloutsos 1994): no
 * object for a box, so a search walks through memory in order. Immutable once made.
 */
final class PackedBoxes {
  /** Boxes in a larger one. */
  static final int FAN = 16;

  private static final int HILBERT_LEVEL = 16;
  private static final int MOST_CODE = (1 << HILBERT_LEVEL) - 1;

  /** What stands at each place of the lowest level. */
  private final int[] items;

  /** Boxes of each level, four numbers each: least x, least y, most x, most y. */
  private final double[][] levels;

  /**
   * Sorts and packs.
   *
   * @param boxes four numbers for each item: least x, least y, most x, most y
   */
  PackedBoxes(double[] boxes) {
    int count = boxes.length / 4;
    double[] whole = whole(boxes);
    double width = Math.max(whole[2] - whole[0], Double.MIN_NORMAL);
    double height = Math.max(whole[3] - whole[1], Double.MIN_NORMAL);
    long[] order = new long[count];
    for (int i = 0; i < count; i++) {
      double across = ((boxes[4 * i] + boxes[4 * i + 2]) / 2 - whole[0]) / width;
      double up = ((boxes[4 * i + 1] + boxes[4 * i + 3]) / 2 - whole[1]) / height;
      int code =
          HilbertCode.encode(HILBERT_LEVEL, (int) (across * MOST_CODE), (int) (up * MOST_CODE));
      order[i] = Integer.toUnsignedLong(code) << 32 | i;
    }
    sort(order);
    items = new int[count];
    double[] sorted = new double[4 * count];
    for (int i = 0; i < count; i++) {
      items[i] = (int) order[i];
      System.arraycopy(boxes, 4 * items[i], sorted, 4 * i, 4);
    }
    int depth = 1;
    for (int n = count; n > FAN; n = (n + FAN - 1) / FAN) {
      depth++;
    }
    levels = new double[depth][];
    levels[0] = sorted;
    for (int level = 1; level < depth; level++) {
      levels[level] = over(levels[level - 1]);
    }
  }

  /** The codes use all 32 bits, so they are compared without sign. */
  private static void sort(long[] order) {
    for (int i = 0; i < order.length; i++) {
      order[i] ^= Long.MIN_VALUE;
    }
    Arrays.sort(order);
  }

  private static double[] whole(double[] boxes) {
    double[] whole = {
      Double.POSITIVE_INFINITY,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      Double.NEGATIVE_INFINITY
    };
    for (int i = 0; i < boxes.length; i += 4) {
      include(whole, 0, boxes, i);
    }
    return whole;
  }

  private static double[] over(double[] below) {
    int parts = below.length / 4;
    double[] made = new double[4 * ((parts + FAN - 1) / FAN)];
    for (int b = 0; b < made.length; b += 4) {
      int first = b / 4 * FAN;
      System.arraycopy(below, 4 * first, made, b, 4);
      for (int i = first + 1; i < Math.min(parts, first + FAN); i++) {
        include(made, b, below, 4 * i);
      }
    }
    return made;
  }

  private static void include(double[] made, int b, double[] boxes, int i) {
    made[b] = Math.min(made[b], boxes[i]);
    made[b + 1] = Math.min(made[b + 1], boxes[i + 1]);
    made[b + 2] = Math.max(made[b + 2], boxes[i + 2]);
    made[b + 3] = Math.max(made[b + 3], boxes[i + 3]);
  }

  /** Takes an item a search came to. */
  @FunctionalInterface
  interface ItemVisitor {
    void item(int item);
  }

  /** Takes an item a nearest search came to; returns how near, squared, is still of interest. */
  @FunctionalInterface
  interface NearVisitor {
    double item(int item);
  }

  /** Visits every item whose box meets this one. */
  void meeting(double minX, double minY, double maxX, double maxY, ItemVisitor visitor) {
    if (items.length > 0) {
      meeting(levels.length - 1, 0, minX, minY, maxX, maxY, visitor);
    }
  }

  private void meeting(
      int level,
      int from,
      double minX,
      double minY,
      double maxX,
      double maxY,
      ItemVisitor visitor) {
    double[] boxes = levels[level];
    int to = Math.min(from + FAN, boxes.length / 4);
    for (int i = from; i < to; i++) {
      int b = 4 * i;
      if (boxes[b] <= maxX
          && boxes[b + 2] >= minX
          && boxes[b + 1] <= maxY
          && boxes[b + 3] >= minY) {
        if (level == 0) {
          visitor.item(items[i]);
        } else {
          meeting(level - 1, i * FAN, minX, minY, maxX, maxY, visitor);
        }
      }
    }
  }

  /**
   * Visits items from near to far, as far as the visitor's last answer.
   *
   * @param squared how far, squared, is of interest at first
   */
  void nearest(double x, double y, double squared, NearVisitor visitor) {
    if (items.length > 0) {
      nearest(levels.length - 1, 0, x, y, squared, visitor);
    }
  }

  private double nearest(
      int level, int from, double x, double y, double interest, NearVisitor visitor) {
    double[] boxes = levels[level];
    int to = Math.min(from + FAN, boxes.length / 4);
    double squared = interest;
    int first = -1;
    double least = Double.POSITIVE_INFINITY;
    for (int i = from; i < to; i++) {
      double away = squaredTo(boxes, 4 * i, x, y);
      if (away < least) {
        least = away;
        first = i;
      }
    }
    if (first < 0 || least > squared) {
      return squared;
    }
    squared = enter(level, first, x, y, squared, visitor);
    for (int i = from; i < to; i++) {
      if (i != first && squaredTo(boxes, 4 * i, x, y) <= squared) {
        squared = enter(level, i, x, y, squared, visitor);
      }
    }
    return squared;
  }

  private double enter(int level, int i, double x, double y, double squared, NearVisitor visitor) {
    return level == 0
        ? Math.min(squared, visitor.item(items[i]))
        : nearest(level - 1, i * FAN, x, y, squared, visitor);
  }

  private static double squaredTo(double[] boxes, int b, double x, double y) {
    double dx = Math.max(Math.max(boxes[b] - x, x - boxes[b + 2]), 0);
    double dy = Math.max(Math.max(boxes[b + 1] - y, y - boxes[b + 3]), 0);
    return dx * dx + dy * dy;
  }
}
