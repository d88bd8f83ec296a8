package lanemend.web.desk;

import java.util.Arrays;

/** A polyline in tile units; vertices nearer than half a pixel to the one before are left out. */
final class TileLine {
  private static final int LEAST = Tile.EXTENT / Tile.PIXELS / 2;

  private int[] xy = new int[32];
  private int size;

  boolean isEmpty() {
    return size == 0;
  }

  /**
   * @param keep whether this vertex must be kept, as a line's end must
   */
  void add(int x, int y, boolean keep) {
    boolean near =
        size > 0 && Math.abs(x - xy[size - 2]) < LEAST && Math.abs(y - xy[size - 1]) < LEAST;
    if (near && !keep) {
      return;
    }
    if (size == xy.length) {
      xy = Arrays.copyOf(xy, 2 * size);
    }
    xy[size++] = x;
    xy[size++] = y;
  }

  int[] end() {
    return Arrays.copyOf(xy, size);
  }
}
