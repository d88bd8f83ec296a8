package lanemend.crewdays.routing;

import java.util.Arrays;

/**
 * What a day may still earn at most after a stop, on the way back to its depot: every chain of
 * stops that gets home in the minutes left, legs and all, where a stop may come twice, but not as
 * in a, b, a (two-cycle elimination: Houck, Picard, Queyranne and Vemuganti 1980, from memory).
 * Waits are left out.
 *
 * <p>Worked out backwards in steps of some minutes. Legs with their stop and minutes left are
 * rounded down apart, and {@code floor(a - b)} is never above {@code floor(a) - floor(b)}, so that
 * nothing that fits is lost. Steps are filled in blocks no longer than the shortest leg with its
 * stop, so that what a block looks up is finished. More time never earns less; that is how a leg
 * which cannot be among the two best of a whole block is told at its last step.
 */
final class OrderedRest {
  /** Steps in a minute. */
  private static final double GRAIN = 0.25;

  private final DayProblem p;
  private int n;
  private int span;
  private double[] best = new double[0];
  private double[] second = new double[0];

  /** The stop that comes next in the best chain; n for home. */
  private int[] next = new int[0];

  private int[] steps = new int[0];
  private double[] gain = new double[0];

  OrderedRest(DayProblem p) {
    this.p = p;
  }

  /**
   * Works it out for these stops.
   *
   * @param own what each stop earns, drives apart
   * @param minutes of the whole day at most, waits apart
   * @return false when a leg with its stop is shorter than a step, so that nothing is known
   */
  boolean fill(int kind, int[] stops, int size, double[] own, double minutes) {
    n = size;
    span = (int) Math.floor(GRAIN * minutes) + 1;
    grow();
    int block = legs(kind, stops, own);
    if (block < 1) {
      return false;
    }
    for (int from = 0; from < span; from += block) {
      int to = Math.min(span, from + block);
      for (int i = 0; i < n; i++) {
        home(kind, stops[i], i, from, to);
        int first = promising(i, to);
        if (first >= 0) {
          reach(i, first, from, to);
        }
        for (int j = 0; j < n; j++) {
          if (j != i && j != first && most(i, j, to) > second[i * span + from]) {
            reach(i, j, from, to);
          }
        }
      }
    }
    return true;
  }

  private void grow() {
    if (best.length < n * span) {
      best = new double[n * span];
      second = new double[n * span];
      next = new int[n * span];
    }
    if (steps.length < n * n) {
      steps = new int[n * n];
      gain = new double[n * n];
    }
  }

  /** Legs with the stop they lead to; gives the shortest of them in steps. */
  private int legs(int kind, int[] stops, double[] own) {
    DayKind k = p.kinds()[kind];
    int least = span;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        int leg = p.leg(stops[i], stops[j]);
        double drive = p.legs()[leg + 1];
        double all = GRAIN * (drive + p.service()[kind][stops[j]]);
        steps[i * n + j] = all < span ? (int) Math.floor(all) : span;
        gain[i * n + j] = own[j] - k.costPerKm() * p.legs()[leg] - k.costPerMinute() * drive;
        if (i != j) {
          least = Math.min(least, steps[i * n + j]);
        }
      }
    }
    return least;
  }

  private void home(int kind, int stop, int i, int from, int to) {
    DayKind k = p.kinds()[kind];
    int leg = p.leg(stop, p.depotPlace(kind));
    double drive = p.legs()[leg + 1];
    double value = -k.costPerKm() * p.legs()[leg] - k.costPerMinute() * drive;
    int base = i * span;
    Arrays.fill(second, base + from, base + to, Double.NEGATIVE_INFINITY);
    Arrays.fill(next, base + from, base + to, n);
    for (int t = from; t < to; t++) {
      best[base + t] = Math.floor(GRAIN * drive) <= t ? value : Double.NEGATIVE_INFINITY;
    }
  }

  /** The most that going on to a stop earns in less than this many steps: more time, more money. */
  private double most(int i, int j, int to) {
    int t = to - 1 - steps[i * n + j];
    return t < 0 ? Double.NEGATIVE_INFINITY : gain[i * n + j] + best[j * span + t];
  }

  /** The stop that it seems best to go on to; tried first, so that most others need not be. */
  private int promising(int i, int to) {
    int first = -1;
    double most = Double.NEGATIVE_INFINITY;
    for (int j = 0; j < n; j++) {
      double one = j == i ? Double.NEGATIVE_INFINITY : most(i, j, to);
      if (one > most) {
        most = one;
        first = j;
      }
    }
    return first;
  }

  private void reach(int i, int j, int start, int to) {
    int from = Math.max(start, steps[i * n + j]);
    double one = gain[i * n + j];
    int base = i * span;
    int then = j * span - steps[i * n + j];
    for (int t = from; t < to; t++) {
      double value = one + (next[then + t] == i ? second[then + t] : best[then + t]);
      if (value > second[base + t]) {
        if (value > best[base + t]) {
          second[base + t] = best[base + t];
          best[base + t] = value;
          next[base + t] = j;
        } else {
          second[base + t] = value;
        }
      }
    }
  }

  /**
   * At most this is earned after a stop, the way home included.
   *
   * @param i which of the stops
   * @param before which of them came right before it, negative for none
   * @param left minutes, waits apart
   */
  double after(int i, int before, double left) {
    if (left < 0) {
      return Double.NEGATIVE_INFINITY;
    }
    int t = i * span + Math.min(span - 1, (int) (GRAIN * left));
    return next[t] == before ? second[t] : best[t];
  }
}
