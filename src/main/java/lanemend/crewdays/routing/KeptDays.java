package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Days as they stand, to be changed one stop at a time. Each answer is exact: a stop's place is
 * looked for at every position, on every kind of day, and where the order at hand leaves no room,
 * in every order of a small day. Not for several threads.
 */
public final class KeptDays {
  private static final double EPS = 1e-7;

  /** Days of more stops are not put into another order. */
  private static final int MOST_TO_REORDER = 8;

  /**
   * How a slot may be run.
   *
   * @param seq stops in order
   * @param cost of the day, 0 when it is empty
   * @param reordered true when stops that were there before stand in another order
   */
  public record Way(int kind, int[] seq, double cost, boolean reordered) {}

  final DayProblem p;
  final int[][] seq;
  final int[] kind;
  private final int[][] slotsOf;
  private final DayPrice price;
  private final int machines;
  private final int sources;

  /**
   * Takes days over; the arrays are copied.
   *
   * @param seq stops of each slot in order
   * @param kind kind of each slot
   */
  public KeptDays(DayProblem p, int[][] seq, int[] kind) {
    this.p = p;
    this.seq = Arrays.stream(seq).map(int[]::clone).toArray(int[][]::new);
    this.kind = kind.clone();
    price = new DayPrice(p);
    machines = p.shared().machineLimit().length == 0 ? 0 : p.shared().machineLimit()[0].length;
    sources = p.shared().sourceLimit().length == 0 ? 0 : p.shared().sourceLimit()[0].length;
    List<List<Integer>> byDate = new ArrayList<>();
    for (int d = 0; d < p.dates(); d++) {
      byDate.add(new ArrayList<>());
    }
    for (int s = 0; s < p.slots().length; s++) {
      byDate.get(p.date(s)).add(s);
    }
    slotsOf = byDate.stream().map(l -> l.stream().mapToInt(s -> s).toArray()).toArray(int[][]::new);
  }

  public int[] stops(int slot) {
    return seq[slot].clone();
  }

  public int kind(int slot) {
    return kind[slot];
  }

  /** Slots as they stand, to take over elsewhere. */
  public int[][] allStops() {
    return Arrays.stream(seq).map(int[]::clone).toArray(int[][]::new);
  }

  public int[] allKinds() {
    return kind.clone();
  }

  /** Cost of a slot as it stands; 0 when it is empty, infinite when it breaks a limit. */
  public double cost(int slot) {
    if (seq[slot].length == 0) {
      return 0;
    }
    int date = p.date(slot);
    boolean fits = price.price(kind[slot], date, seq[slot], seq[slot].length, -1, -1);
    return fits ? price.cost : Double.POSITIVE_INFINITY;
  }

  /** Cost of all slots as they stand. */
  public double cost() {
    double sum = 0;
    for (int s = 0; s < seq.length; s++) {
      sum += cost(s);
    }
    return sum;
  }

  /** Runs a slot another way. */
  public void put(int slot, Way way) {
    seq[slot] = way.seq().clone();
    kind[slot] = way.kind();
  }

  /** A slot's stops without one of them. */
  public static int[] without(int[] stops, int stop) {
    return Arrays.stream(stops).filter(c -> c != stop).toArray();
  }

  /** The slot's stops with one of them in the place of another. */
  public static int[] replaced(int[] stops, int old, int now) {
    return Arrays.stream(stops).map(c -> c == old ? now : c).toArray();
  }

  /**
   * The cheapest way to run exactly these stops in the slot: in this order if any kind of day can,
   * else in the best order of a small day; null when no way fits.
   */
  public Way run(int slot, int[] stops) {
    if (stops.length == 0) {
      return new Way(kind[slot], stops, 0, false);
    }
    Way best = inOrder(slot, stops);
    return best == null ? reordered(slot, stops, stops) : best;
  }

  private Way inOrder(int slot, int[] stops) {
    Way best = null;
    int date = p.date(slot);
    for (int k : p.slots()[slot].kinds()) {
      if (admits(slot, k, stops)
          && price.price(k, date, stops, stops.length, -1, -1)
          && price.cost < costOf(best)) {
        best = new Way(k, stops, price.cost, false);
      }
    }
    return best;
  }

  private static double costOf(Way way) {
    return way == null ? Double.POSITIVE_INFINITY : way.cost();
  }

  /**
   * The cheapest way to run these stops and one more: with the others in this order if that can be,
   * else in the best order of a small day; null when no way fits.
   */
  public Way insert(int slot, int[] stops, int stop) {
    int n = stops.length;
    int[] all = Arrays.copyOf(stops, n + 1);
    all[n] = stop;
    int date = p.date(slot);
    double best = Double.POSITIVE_INFINITY;
    int bestKind = -1;
    int bestAt = -1;
    for (int k : p.slots()[slot].kinds()) {
      if (!admits(slot, k, all)) {
        continue;
      }
      double room = p.kinds()[k].limitMinutes() - minutes(k, stops) - p.service()[k][stop] + EPS;
      for (int at = 0; at <= n; at++) {
        if (detour(k, stops, at, stop) <= room
            && price.price(k, date, stops, n, at, stop)
            && price.cost < best) {
          best = price.cost;
          bestKind = k;
          bestAt = at;
        }
      }
    }
    if (bestKind < 0) {
      return reordered(slot, all, stops);
    }
    int[] placed = new int[n + 1];
    System.arraycopy(stops, 0, placed, 0, bestAt);
    placed[bestAt] = stop;
    System.arraycopy(stops, bestAt, placed, bestAt + 1, n - bestAt);
    return new Way(bestKind, placed, best, false);
  }

  /** Driving and work of a day, waits apart. */
  private double minutes(int k, int[] stops) {
    if (stops.length == 0) {
      return 0;
    }
    int from = p.depotPlace(k);
    double sum = 0;
    for (int stop : stops) {
      sum += p.legs()[p.leg(from, stop) + 1] + p.service()[k][stop];
      from = stop;
    }
    return sum + p.legs()[p.leg(from, p.depotPlace(k)) + 1];
  }

  private double detour(int k, int[] stops, int at, int stop) {
    int from = at == 0 ? p.depotPlace(k) : stops[at - 1];
    int to = at == stops.length ? p.depotPlace(k) : stops[at];
    double there = p.legs()[p.leg(from, stop) + 1] + p.legs()[p.leg(stop, to) + 1];
    return stops.length == 0 ? there : there - p.legs()[p.leg(from, to) + 1];
  }

  /** The best order of a small day by trying all; null when none fits. */
  private Way reordered(int slot, int[] stops, int[] before) {
    if (stops.length < 2 || stops.length > MOST_TO_REORDER) {
      return null;
    }
    Orders orders = new Orders(p, price);
    Way best = null;
    for (int k : p.slots()[slot].kinds()) {
      if (admits(slot, k, stops)) {
        int[] order = orders.best(k, p.date(slot), stops, costOf(best));
        if (order != null) {
          best = new Way(k, order, orders.cost(), !keepsOrder(before, order));
        }
      }
    }
    return best;
  }

  /** True when the stops of {@code before} stand in {@code now} in the same order. */
  static boolean keepsOrder(int[] before, int[] now) {
    int i = 0;
    for (int stop : now) {
      if (i < before.length && before[i] == stop) {
        i++;
      }
    }
    return i == before.length;
  }

  /** True when the slot may hold these stops, run as this kind, apart from time and order. */
  public boolean admits(int slot, int k, int[] stops) {
    int date = p.date(slot);
    double load = 0;
    for (int stop : stops) {
      if (p.service()[k][stop] == Double.POSITIVE_INFINITY
          || p.late()[date][stop] == Double.POSITIVE_INFINITY) {
        return false;
      }
      load += p.demand()[stop];
    }
    int source = p.kinds()[k].source();
    boolean gives =
        sources == 0
            || source < 0
            || load == 0
            || (drawnByOthers(slot, source) + load <= p.shared().sourceLimit()[date][source] + EPS
                && load <= stockLeft(slot, source) + EPS);
    return load <= p.kinds()[k].capacity() + EPS
        && gives
        && lacking(slot, k) <= 0
        && missingMachines(slot, stops) == 0;
  }

  /**
   * Units of the date's pool that are wanting when the slot is run as this kind; 0 or less: none.
   */
  public int lacking(int slot, int k) {
    int[] pool = p.shared().pool();
    if (pool.length == 0) {
      return 0;
    }
    int date = p.date(slot);
    int used = p.shared().units()[k];
    for (int other : slotsOf[date]) {
      used += other != slot && seq[other].length > 0 ? p.shared().units()[kind[other]] : 0;
    }
    return used - pool[date];
  }

  /** What the other slots of all dates leave of a source's stock; infinite where it has no end. */
  public double stockLeft(int slot, int source) {
    if (p.shared().stock().length == 0 || p.shared().stock()[source] == Double.POSITIVE_INFINITY) {
      return Double.POSITIVE_INFINITY;
    }
    double left = p.shared().stock()[source];
    for (int[] date : slotsOf) {
      for (int other : date) {
        left -= other == slot ? 0 : drawn(other, source);
      }
    }
    return left;
  }

  private double drawn(int slot, int source) {
    double drawn = 0;
    if (seq[slot].length > 0 && p.kinds()[kind[slot]].source() == source) {
      for (int stop : seq[slot]) {
        drawn += p.demand()[stop];
      }
    }
    return drawn;
  }

  /** Machines these stops need that other slots of the date have already, as bits. */
  public int missingMachines(int slot, int[] stops) {
    int needed = bits(stops);
    int date = p.date(slot);
    int missing = 0;
    for (int m = 0; m < machines; m++) {
      if ((needed >> m & 1) != 0) {
        int used = 0;
        for (int other : slotsOf[date]) {
          used += other != slot && (bits(seq[other]) >> m & 1) != 0 ? 1 : 0;
        }
        missing |= used >= p.shared().machineLimit()[date][m] ? 1 << m : 0;
      }
    }
    return missing;
  }

  /** What the other slots of the date draw from a source. */
  public double drawnByOthers(int slot, int source) {
    double drawn = 0;
    for (int other : slotsOf[p.date(slot)]) {
      drawn += other == slot ? 0 : drawn(other, source);
    }
    return drawn;
  }

  private int bits(int[] stops) {
    int bits = 0;
    for (int stop : stops) {
      bits |= machines == 0 ? 0 : p.shared().machineBits()[stop];
    }
    return bits;
  }

  int bitsOf(int stop) {
    return machines == 0 ? 0 : p.shared().machineBits()[stop];
  }

  /** True when slots of all dates draw on one stock. */
  boolean hasStock() {
    for (double stock : p.shared().stock()) {
      if (stock < Double.POSITIVE_INFINITY) {
        return true;
      }
    }
    return false;
  }

  int[] slotsOfDate(int slot) {
    return slotsOf[p.date(slot)];
  }
}
