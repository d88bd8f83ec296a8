package lanemend.web.desk;

import java.util.function.IntConsumer;

/**
 * Points of the map's plane in the order added, found by rectangle: kept in about as many square
 * cells as there are points.
 */
final class Dots {
  private final double[] x;
  private final double[] y;
  private int size;
  private Cells cells;

  Dots(int room) {
    x = new double[room];
    y = new double[room];
  }

  void add(double px, double py) {
    x[size] = px;
    y[size++] = py;
  }

  int size() {
    return size;
  }

  double x(int i) {
    return x[i];
  }

  double y(int i) {
    return y[i];
  }

  /** Every point with west &lt;= x &lt; east and north &lt;= y &lt; south. */
  void within(double west, double north, double east, double south, IntConsumer found) {
    if (size == 0) {
      return;
    }
    Cells all = cells();
    int top = Math.max(0, all.row(north));
    int bottom = Math.min(all.rows - 1, all.row(south));
    int left = Math.max(0, all.column(west));
    int right = Math.min(all.columns - 1, all.column(east));
    for (int row = top; row <= bottom; row++) {
      for (int column = left; column <= right; column++) {
        int at = row * all.columns + column;
        for (int k = all.start[at]; k < all.start[at + 1]; k++) {
          int i = all.order[k];
          if (x[i] >= west && x[i] < east && y[i] >= north && y[i] < south) {
            found.accept(i);
          }
        }
      }
    }
  }

  private synchronized Cells cells() {
    if (cells == null) {
      cells = new Cells();
    }
    return cells;
  }

  /** Points sorted by cell, by counting. */
  private final class Cells {
    private final double left;
    private final double top;
    private final double side;
    private final int columns;
    private final int rows;
    private final int[] start;
    private final int[] order = new int[size];

    Cells() {
      double l = Double.POSITIVE_INFINITY;
      double t = Double.POSITIVE_INFINITY;
      double r = Double.NEGATIVE_INFINITY;
      double b = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < size; i++) {
        l = Math.min(l, x[i]);
        r = Math.max(r, x[i]);
        t = Math.min(t, y[i]);
        b = Math.max(b, y[i]);
      }
      left = l;
      top = t;
      double widest = Math.max(r - l, b - t);
      side = widest > 0 ? widest / Math.ceil(Math.sqrt(size)) : 1;
      columns = column(r) + 1;
      rows = row(b) + 1;
      start = new int[columns * rows + 1];
      for (int i = 0; i < size; i++) {
        start[at(i) + 1]++;
      }
      for (int c = 1; c < start.length; c++) {
        start[c] += start[c - 1];
      }
      int[] next = start.clone();
      for (int i = 0; i < size; i++) {
        order[next[at(i)]++] = i;
      }
    }

    int column(double at) {
      return (int) Math.floor((at - left) / side);
    }

    int row(double at) {
      return (int) Math.floor((at - top) / side);
    }

    private int at(int i) {
      return row(y[i]) * columns + column(x[i]);
    }
  }
}
