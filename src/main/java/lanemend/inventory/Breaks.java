package lanemend.inventory;

import java.util.Arrays;
import java.util.List;
import java.util.function.IntConsumer;

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

    void each(int atBreak, IntConsumer action) {
      for (int i = first[atBreak]; i < first[atBreak + 1]; i++) {
        action.accept(events[i]);
      }
    }
  }

  private final double[] along;
  private final Bucket starts;
  private final Bucket ends;
  private final Bucket spots;

  /**
   * @param onRun indices of the events that lie on the run, which runs from {@code from} to {@code
   *     to}
   */
  Breaks(double from, double to, List<LinearEvent> events, int[] onRun) {
    double[] all = new double[2 * onRun.length + 2];
    for (int i = 0; i < onRun.length; i++) {
      all[2 * i] = Math.max(from, events.get(onRun[i]).fromAlongM());
      all[2 * i + 1] = Math.min(to, events.get(onRun[i]).toAlongM());
    }
    all[all.length - 2] = from;
    all[all.length - 1] = to;
    along = sortedDistinct(all);
    int[] stretches = Arrays.stream(onRun).filter(e -> !events.get(e).isSpot()).toArray();
    int[] points = Arrays.stream(onRun).filter(e -> events.get(e).isSpot()).toArray();
    int[] startsAt = new int[stretches.length];
    int[] endsAt = new int[stretches.length];
    for (int i = 0; i < stretches.length; i++) {
      startsAt[i] = indexOf(Math.max(from, events.get(stretches[i]).fromAlongM()));
      endsAt[i] = indexOf(Math.min(to, events.get(stretches[i]).toAlongM()));
    }
    int[] spotAt = new int[points.length];
    for (int i = 0; i < points.length; i++) {
      spotAt[i] = indexOf(events.get(points[i]).fromAlongM());
    }
    starts = new Bucket(along.length, startsAt, stretches, stretches.length);
    ends = new Bucket(along.length, endsAt, stretches, stretches.length);
    spots = new Bucket(along.length, spotAt, points, points.length);
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
