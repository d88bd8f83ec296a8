package lanemend.network;

/**
 * An unbroken piece of a route's centreline, packed for search: projected x and y and, for each
 * vertex, 'along' (ground metres from the start of the route), strictly growing. Immutable.
 */
public final class CenterlinePart {
  private final double[] x;
  private final double[] y;
  private final double[] along;

  /**
   * Copies the arrays.
   *
   * @throws IllegalArgumentException if they differ in length, have fewer than two vertices, hold a
   *     non-finite number, or along does not grow strictly
   */
  public CenterlinePart(double[] x, double[] y, double[] along) {
    if (x.length < 2 || x.length != y.length || x.length != along.length) {
      throw new IllegalArgumentException("a centreline part needs two or more whole vertices");
    }
    for (int i = 0; i < x.length; i++) {
      if (!Double.isFinite(x[i]) || !Double.isFinite(y[i]) || !Double.isFinite(along[i])) {
        throw new IllegalArgumentException("vertex " + i + " is not a finite number");
      }
      if (i > 0 && !(along[i] > along[i - 1])) {
        throw new IllegalArgumentException("along does not grow at vertex " + i);
      }
    }
    this.x = x.clone();
    this.y = y.clone();
    this.along = along.clone();
  }

  public int size() {
    return x.length;
  }

  public double x(int i) {
    return x[i];
  }

  public double y(int i) {
    return y[i];
  }

  public double along(int i) {
    return along[i];
  }

  public double fromAlong() {
    return along[0];
  }

  public double toAlong() {
    return along[along.length - 1];
  }
}
