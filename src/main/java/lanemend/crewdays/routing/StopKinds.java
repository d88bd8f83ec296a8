package lanemend.crewdays.routing;

import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.Objects;
import java.util.stream.IntStream;

/**
 * What a problem says of each stop on each kind of day, laid out stop by stop. An agency of many
 * crews has thousands of kinds that differ in crew but serve a stop alike wherever they can: these
 * share a column, and which of them can is a bit. So all that is known of one stop lies together
 * and is small, where the problem's own rows, one for each kind, would be read from all over the
 * memory.
 */
final class StopKinds {
  private final int columns;
  private final int[] columnOf;
  private final int words;
  private final long[] can;

  /** Minutes and their variance, side by side. */
  private final double[] work;

  private final ZoneSupply[] supply;
  private final int[] leastUnits;

  StopKinds(DayProblem p) {
    int kinds = p.kinds().length;
    columnOf = columns(p);
    columns = Arrays.stream(columnOf).max().orElse(-1) + 1;
    words = (kinds + Long.SIZE - 1) / Long.SIZE;
    can = new long[p.stops() * words];
    work = new double[2 * p.stops() * columns];
    supply = new ZoneSupply[p.supply() == null ? 0 : p.stops() * columns];
    leastUnits = new int[p.stops()];
    Arrays.fill(leastUnits, p.shared().units().length == 0 ? 0 : Integer.MAX_VALUE / 2);
    // A block of stops after the other: a kind's row is read along, and no two threads meet.
    int block = 64;
    IntStream.range(0, (p.stops() + block - 1) / block)
        .parallel()
        .forEach(b -> take(p, b * block, Math.min(p.stops(), (b + 1) * block)));
  }

  private void take(DayProblem p, int low, int high) {
    int[] units = p.shared().units();
    for (int k = 0; k < columnOf.length; k++) {
      for (int c = low; c < high; c++) {
        double minutes = p.service()[k][c];
        if (minutes < Double.POSITIVE_INFINITY) {
          can[c * words + (k >> 6)] |= 1L << k;
          leastUnits[c] = units.length == 0 ? 0 : Math.min(leastUnits[c], units[k]);
          int at = at(c, k);
          work[2 * at] = minutes;
          work[2 * at + 1] = p.chance() == null ? 0 : p.chance().variance()[k][c];
          if (supply.length > 0) {
            supply[at] = p.supply()[k][c];
          }
        }
      }
    }
  }

  /**
   * Column of each kind. Kinds that may serve alike are known by the row they share, and are
   * compared with it all the same.
   */
  private static int[] columns(DayProblem p) {
    double[][] shared = p.chance() == null ? p.stopCost() : p.chance().variance();
    int[] first = new int[shared.length];
    IdentityHashMap<double[], Integer> byRow = new IdentityHashMap<>();
    Arrays.setAll(first, k -> byRow.computeIfAbsent(shared[k], row -> k));
    boolean[] alike = new boolean[first.length];
    IntStream.range(0, first.length)
        .parallel()
        .filter(k -> first[k] == k)
        .forEach(k -> compare(p, first, k, alike));
    int[] column = new int[first.length];
    int count = 0;
    for (int k = 0; k < column.length; k++) {
      column[k] = alike[k] && first[k] != k ? column[first[k]] : count++;
    }
    return column;
  }

  /** Finds which kinds of one group serve every stop they can as those before them do. */
  private static void compare(DayProblem p, int[] first, int group, boolean[] alike) {
    double[] minutes = new double[p.stops()];
    ZoneSupply[] brings = new ZoneSupply[p.stops()];
    Arrays.fill(minutes, Double.POSITIVE_INFINITY);
    for (int k = group; k < first.length; k++) {
      if (first[k] != group) {
        continue;
      }
      double[] own = p.service()[k];
      ZoneSupply[] trucks = p.supply() == null ? brings : p.supply()[k];
      boolean same = true;
      for (int c = 0; c < own.length && same; c++) {
        same =
            Math.max(own[c], minutes[c]) == Double.POSITIVE_INFINITY
                || (own[c] == minutes[c] && Objects.equals(trucks[c], brings[c]));
      }
      for (int c = 0; c < own.length && same; c++) {
        if (own[c] < Double.POSITIVE_INFINITY) {
          minutes[c] = own[c];
          brings[c] = trucks[c];
        }
      }
      alike[k] = same;
    }
  }

  /** True when a day of this kind can do the stop. */
  boolean can(int kind, int stop) {
    return (can[stop * words + (kind >> 6)] >>> kind & 1) != 0;
  }

  /** True when a day of this kind can do them all. */
  boolean canAll(int kind, int[] stops) {
    for (int stop : stops) {
      if (!can(kind, stop)) {
        return false;
      }
    }
    return true;
  }

  /** Least units of the date's pool that a day with the stop takes. */
  int leastUnits(int stop) {
    return leastUnits[stop];
  }

  /** Index of a stop on a kind of day into the tables; they hold something where it can be done. */
  int at(int stop, int kind) {
    return stop * columns + columnOf[kind];
  }

  /** Minutes at the stop, infinite where it cannot be done. */
  double service(int kind, int stop) {
    return can(kind, stop) ? work[2 * at(stop, kind)] : Double.POSITIVE_INFINITY;
  }

  /** Variance of those minutes; 0 where minutes are certain. */
  double variance(int kind, int stop) {
    return work[2 * at(stop, kind) + 1];
  }

  /** How the stop takes its mix, or null. */
  ZoneSupply supply(int kind, int stop) {
    return supply.length == 0 ? null : supply[at(stop, kind)];
  }
}
