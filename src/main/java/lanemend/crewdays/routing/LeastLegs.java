package lanemend.crewdays.routing;

import java.util.stream.IntStream;

/**
 * Minutes into and out of each stop, rounded down to 1/64, for what can be told from little: the
 * table of legs is too large for any cache, and legs into one stop lie each in another part of it.
 * Here both rows of a stop are a few kilobytes.
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
  private final short[] into;
  private final short[] outOf;

  LeastLegs(DayProblem p) {
    places = p.places();
    into = new short[p.stops() * places];
    outOf = new short[into.length];
    IntStream.range(0, (places + BLOCK - 1) / BLOCK)
        .parallel()
        .forEach(b -> take(p, b * BLOCK, Math.min(places, (b + 1) * BLOCK)));
  }

  private void take(DayProblem p, int low, int high) {
    double[] legs = p.legs();
    for (int to = 0; to < places; to++) {
      for (int from = low; from < high; from++) {
        short steps = (short) (int) Math.min(MOST, legs[p.leg(from, to) + 1] * STEPS);
        if (to < p.stops()) {
          into[to * places + from] = steps;
        }
        if (from < p.stops()) {
          outOf[from * places + to] = steps;
        }
      }
    }
  }

  /** No detour over the stop from any place in this day is shorter. */
  double detour(int stop, int[] seq, int size, int depot, double[] driven) {
    int row = stop * places;
    int from = depot;
    double least = Double.POSITIVE_INFINITY;
    for (int at = 0; at <= size; at++) {
      int to = at < size ? seq[at] : depot;
      int steps = (into[row + from] & MOST) + (outOf[row + to] & MOST);
      least = Math.min(least, steps / STEPS - driven[at]);
      from = to;
    }
    return least;
  }
}
