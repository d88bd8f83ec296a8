package lanemend.inventory;

import java.util.Arrays;
import java.util.List;

/**
 * The sorted places of a run of road at which an event starts or ends, or a spot lies, with the
 * events of each. Primitive arrays and a counting sort: a million events are a matter of a second.
 */
final class Breaks {

  /** Events by break, those of one break in the order given. */
  static final class Bucket {
    private final int[] first;
    private final int[] events;

    private Bucket(int breaks, int[] breakOf, int[] event, int size) {
      first = new int[breaks + 1];
      for (int i = 0; i < size; i++) {
        first[breakOf[i] + 1]++;
      }
      for (int b = 0; b < breaks; b++) {
        first[b + 1] += first[b];
      }
      int[] next = first.clone();
      events = new int[size];
      for (int i = 0; i < size; i++) {
        events[next[breakOf[i]]++] = event[i];
      }
    }

    /** Index of a break's first event, for {@link #event}; that of the next break ends it. */
    int from(int atBreak) {
      return first[atBreak];
    }

    int event(int i) {
      return events[i];
    }
  }

  private final double[] along;
  private final Bucket starts;
  private final Bucket ends;
  private final Bucket spots;

  /**
   * @param onRun indices, by growing start, of the events that lie on the run, which runs from
   *     {@code from} to {@code to}
   */
  Breaks(double from, double to, List<LinearEvent> events, int[] onRun) {
    int n = onRun.length;
    double[] all = new double[2 * n + 2];
    double[] startOf = new double[n];
    double[] endOf = new double[n];
    for (int i = 0; i < n; i++) {
      LinearEvent event = events.get(onRun[i]);
      startOf[i] = Math.max(from, event.fromAlongM());
      endOf[i] = Math.min(to, event.toAlongM());
      all[i] = startOf[i];
      all[n + i] = endOf[i];
    }
    all[all.length - 2] = from;
    all[all.length - 1] = to;
    along = sortedDistinct(all);
    int[] stretches = new int[n];
    int[] startsAt = new int[n];
    int[] endsAt = new int[n];
    int[] points = new int[n];
    int[] spotAt = new int[n];
    int stretchCount = 0;
    int pointCount = 0;
    int at = 0;
    for (int i = 0; i < n; i++) {
      // Events come by growing start, so their breaks do.
      while (along[at] < startOf[i]) {
        at++;
      }
      if (events.get(onRun[i]).isSpot()) {
        points[pointCount] = onRun[i];
        spotAt[pointCount++] = at;
      } else {
        stretches[stretchCount] = onRun[i];
        startsAt[stretchCount] = at;
        endsAt[stretchCount++] = indexOf(endOf[i]);
      }
    }
    starts = new Bucket(along.length, startsAt, stretches, stretchCount);
    ends = new Bucket(along.length, endsAt, stretches, stretchCount);
    spots = new Bucket(along.length, spotAt, points, pointCount);
  }

  private static double[] sortedDistinct(double[] all) {
    Arrays.sort(all);
    int kept = 1;
    for (int i = 1; i < all.length; i++) {
      if (all[i] != all[kept - 1]) {
        all[kept++] = all[i];
      }
    }
    return Arrays.copyOf(all, kept);
  }

  private int indexOf(double at) {
    return Arrays.binarySearch(along, at);
  }

  int count() {
    return along.length;
  }

  double at(int atBreak) {
    return along[atBreak];
  }

  Bucket starts() {
    return starts;
  }

  Bucket ends() {
    return ends;
  }

  Bucket spots() {
    return spots;
  }
}
