package lanemend.crewdays.routing;

import java.util.stream.IntStream;

/**
 * The nearest stops of one stop by driving time. The farthest of those kept stands on top of a
 * heap, so that all the others are passed over at a glance.
 */
final class Nearest {
  private final double[] minutes;
  private final int[] stop;
  private int size;

  private Nearest(int most) {
    minutes = new double[most];
    stop = new int[most];
  }

  /** Each stop's nearest stops, itself first; of equally near ones the lower number first. */
  static int[][] of(DayProblem p, int most) {
    int kept = Math.min(most, p.stops());
    return IntStream.range(0, p.stops())
        .parallel()
        .mapToObj(from -> new Nearest(kept).from(p, from))
        .toArray(int[][]::new);
  }

  private int[] from(DayProblem p, int from) {
    double[] legs = p.legs();
    for (int to = 0; to < p.stops(); to++) {
      offer(to == from ? -1 : legs[p.leg(from, to) + 1], to);
    }
    int[] nearest = new int[size];
    while (size > 0) {
      nearest[size - 1] = stop[0];
      size--;
      sink(0, minutes[size], stop[size]);
    }
    return nearest;
  }

  private void offer(double at, int to) {
    if (size == stop.length) {
      // Stops come by number: of equally near ones the one that is there stays.
      if (at < minutes[0]) {
        sink(0, at, to);
      }
      return;
    }
    int i = size++;
    while (i > 0 && farther(at, to, (i - 1) / 2)) {
      set(i, minutes[(i - 1) / 2], stop[(i - 1) / 2]);
      i = (i - 1) / 2;
    }
    set(i, at, to);
  }

  private void sink(int from, double at, int to) {
    int i = from;
    for (int child = 1; child < size; child = 2 * i + 1) {
      if (child + 1 < size && farther(minutes[child + 1], stop[child + 1], child)) {
        child++;
      }
      if (!farther(minutes[child], stop[child], at, to)) {
        break;
      }
      set(i, minutes[child], stop[child]);
      i = child;
    }
    set(i, at, to);
  }

  private boolean farther(double at, int to, int index) {
    return farther(at, to, minutes[index], stop[index]);
  }

  private static boolean farther(double at, int to, double thanAt, int than) {
    return at > thanAt || (at == thanAt && to > than);
  }

  private void set(int i, double at, int to) {
    minutes[i] = at;
    stop[i] = to;
  }
}
