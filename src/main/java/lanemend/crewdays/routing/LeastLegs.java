package lanemend.crewdays.routing;

import java.util.stream.IntStream;

/**
 * Minutes into and out of each stop, rounded down to 1/64, for what can be told from little: the
 * table of legs is too large for any cache, and legs into one stop lie each in another part of it.
 * Here both ways between a stop and a place lie side by side, and all of one stop's together.
 */
final class LeastLegs {
  private static final double STEPS = 64;

  /** A detour is told at most this much too short. */
  static final double LOST = 2 / STEPS;

  /** Also stands for all that is longer, and for where there is no way. */
  private static final int MOST = 0xffff;

  /** Stops taken at once: their rows fit a cache. */
  private static final int BLOCK = 16;

  private final int places;

  /** Where each place stands in a stop's row. */
  private final int[] column;

  /** By stop and column: the way out of the stop in the upper half, the way into it below. */
  private final int[] ways;

  LeastLegs(DayProblem p) {
    places = p.places();
    column = columns(p);
    ways = new int[p.stops() * places];
    IntStream.range(0, (p.stops() + BLOCK - 1) / BLOCK)
        .parallel()
        .forEach(b -> take(p, b * BLOCK, Math.min(p.stops(), (b + 1) * BLOCK)));
  }

  /**
   * From each place on to the nearest that has no column yet: the stops of a day, and of the days
   * around a stop, then fill few lines of a cache.
   */
  private static int[] columns(DayProblem p) {
    int[] column = new int[p.places()];
    int[] left = IntStream.range(0, column.length).toArray();
    int at = 0;
    for (int count = left.length; count > 0; count--) {
      int nearest = 0;
      double minutes = Double.POSITIVE_INFINITY;
      for (int i = 0; i < count; i++) {
        double to = p.legs()[p.leg(at, left[i]) + 1];
        if (to < minutes) {
          minutes = to;
          nearest = i;
        }
      }
      at = left[nearest];
      left[nearest] = left[count - 1];
      column[at] = left.length - count;
    }
    return column;
  }

  private void take(DayProblem p, int low, int high) {
    for (int place = 0; place < places; place++) {
      for (int stop = low; stop < high; stop++) {
        ways[stop * places + column[place]] = steps(p, place, stop);
      }
    }
    for (int stop = low; stop < high; stop++) {
      for (int place = 0; place < places; place++) {
        ways[stop * places + column[place]] |= steps(p, stop, place) << Short.SIZE;
      }
    }
  }

  private static int steps(DayProblem p, int from, int to) {
    return (int) Math.min(MOST, p.legs()[p.leg(from, to) + 1] * STEPS);
  }

  /**
   * No detour over the stop from any place in this day is shorter.
   *
   * @param each gets the same of each place
   */
  double detour(int stop, int[] seq, int size, int depot, double[] driven, double[] each) {
    int row = stop * places;
    int yard = ways[row + column[depot]];
    int from = yard;
    double least = Double.POSITIVE_INFINITY;
    for (int at = 0; at <= size; at++) {
      int to = at < size ? ways[row + column[seq[at]]] : yard;
      int steps = (from & MOST) + (to >>> Short.SIZE);
      each[at] = steps / STEPS - driven[at];
      least = Math.min(least, each[at]);
      from = to;
    }
    return least;
  }
}
