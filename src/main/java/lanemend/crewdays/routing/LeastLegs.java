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

  /** Stops taken at once: their minutes fill whole lines of a cache. */
  private static final int BLOCK = 64;

  private final int places;

  /** By stop and place: the way out of the stop in the upper half, the way into it below. */
  private final int[] ways;

  LeastLegs(DayProblem p) {
    places = p.places();
    ways = new int[p.stops() * places];
    IntStream.range(0, (p.stops() + BLOCK - 1) / BLOCK)
        .parallel()
        .forEach(b -> take(p, b * BLOCK, Math.min(p.stops(), (b + 1) * BLOCK)));
  }

  /** Takes the rows of some stops, a block of places after the other. */
  private void take(DayProblem p, int low, int high) {
    for (int block = 0; block < places; block += BLOCK) {
      int end = Math.min(places, block + BLOCK);
      for (int place = block; place < end; place++) {
        for (int stop = low; stop < high; stop++) {
          ways[stop * places + place] = steps(p, place, stop);
        }
      }
      for (int stop = low; stop < high; stop++) {
        for (int place = block; place < end; place++) {
          ways[stop * places + place] |= steps(p, stop, place) << Short.SIZE;
        }
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
    int yard = ways[row + depot];
    int from = yard;
    double least = Double.POSITIVE_INFINITY;
    for (int at = 0; at <= size; at++) {
      int to = at < size ? ways[row + seq[at]] : yard;
      int steps = (from & MOST) + (to >>> Short.SIZE);
      each[at] = steps / STEPS - driven[at];
      least = Math.min(least, each[at]);
      from = to;
    }
    return least;
  }
}
