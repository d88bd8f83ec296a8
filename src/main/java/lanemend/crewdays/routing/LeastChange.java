package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Brings one more stop into days that are already planned and changes as little as can be. What is
 * least is compared in this order: fewest frozen days changed, fewest stops taken out of the plan,
 * fewest days changed besides the one that takes the new stop, fewest stops moved to another day,
 * fewest days put into another order, least cost.
 *
 * <p>It tries 0 of each, then 1, and so on, and at each level every way: the new stop goes into
 * every day; where it finds no room, each of the stops in its way (of that day, or of another day
 * of the date that holds a machine or the plant's tonnes it needs) in turn gives way and is placed
 * in the same manner. A level that gives nothing is proven empty, unless the time ran out; the
 * proof takes it that a day does not get longer when a stop leaves it, which holds but for mix that
 * one stop's truck carried on for the next.
 */
public final class LeastChange {
  private static final int MOST_TOUCHED = 3;
  private static final int MOVES_BEYOND = 2;

  /**
   * A way to do the new stop.
   *
   * @param stop the new stop, or another shape of it
   * @param instead the stop whose place it takes, or -1
   */
  public record Entry(int stop, int instead) {}

  /**
   * What was found.
   *
   * @param days after the change
   * @param slot the day that takes the new stop
   * @param entry how it does
   * @param changed slots changed besides that day, by number
   * @param moved stops that are on another day than before
   * @param off stops taken out of the plan
   * @param frozen frozen days changed, the one that takes the new stop among them
   * @param addedCost of all days, after less before
   * @param proven that nothing less would do
   */
  public record Found(
      KeptDays days,
      int slot,
      Entry entry,
      List<Integer> changed,
      List<Integer> moved,
      List<Integer> off,
      int frozen,
      int reordered,
      double addedCost,
      boolean proven) {}

  private final DayProblem p;
  private final KeptDays days;
  private final SlotRoom room;
  private final boolean[] frozen;
  private final boolean[] mayLeave;
  private final long begin = System.nanoTime();
  private final double nanos;
  private long end;
  private final int[][] before;

  private final int[] slotOf;
  private final boolean[] fits;
  private final boolean[] reordered;
  private final boolean[] touched;
  private final boolean[] isMoved;
  private final int[] touchCount;

  private final double[] costBefore;
  private final List<Integer> moved = new ArrayList<>();
  private final List<Integer> off = new ArrayList<>();
  private final List<Integer> touchedSlots = new ArrayList<>();
  private int frozenLeft;
  private int touchLeft;
  private int offLeft;

  /** Ways were left untried for want of moves. */
  private boolean cut;

  /** Ways were left untried for want of days to change. */
  private boolean daysCut;

  /** Some stop gave way, so that taking one out of the plan may help. */
  private boolean gaveWay;

  private boolean timeUp;
  private int entrySlot;
  private Entry entry;
  private Found best;

  /**
   * Prepares a search.
   *
   * @param days as they stand; left as they are
   * @param frozen slots that should not change
   * @param mayLeave stops that may be taken out of the plan where nothing else helps
   * @param seconds after which the best found so far must do
   */
  public LeastChange(KeptDays days, boolean[] frozen, boolean[] mayLeave, double seconds) {
    this.days = new KeptDays(days.p, days.seq, days.kind);
    this.p = days.p;
    this.frozen = frozen.clone();
    this.mayLeave = mayLeave.clone();
    nanos = seconds * 1e9;
    before = days.allStops();
    slotOf = new int[p.stops()];
    Arrays.fill(slotOf, -1);
    fits = new boolean[before.length];
    for (int s = 0; s < before.length; s++) {
      for (int stop : before[s]) {
        slotOf[stop] = s;
      }
      fits[s] = true;
    }
    reordered = new boolean[before.length];
    touched = new boolean[before.length];
    isMoved = new boolean[p.stops()];
    touchCount = new int[before.length];
    room = new SlotRoom(this.days);
    costBefore = new double[before.length];
    for (int s = 0; s < before.length; s++) {
      costBefore[s] = this.days.cost(s);
    }
  }

  /** The least change that does one of these; null when none was found. */
  public Found find(List<Entry> ways) {
    boolean proven = true;
    int frozenDays = 0;
    for (boolean f : frozen) {
      frozenDays += f ? 1 : 0;
    }
    for (int f = 0; f <= Math.min(frozenDays, MOST_TOUCHED + 1); f++) {
      for (int o = 0; o <= MOVES_BEYOND; o++) {
        // Half of the time left for each: where no proof is to be had, something is to be found.
        long now = System.nanoTime();
        end = now + (long) (Math.max(0, begin + nanos - now) / 2);
        timeUp = false;
        boolean allTried = false;
        for (int t = 0; t <= MOST_TOUCHED && !timeUp && !allTried; t++) {
          boolean all = level(ways, f, o, t);
          proven &= all;
          if (best != null) {
            return withProof(proven);
          }
          allTried = all && !daysCut;
        }
        proven &= allTried;
        if (allTried && !gaveWay) {
          break;
        }
      }
    }
    return null;
  }

  private Found withProof(boolean proven) {
    return new Found(
        best.days(),
        best.slot(),
        best.entry(),
        best.changed(),
        best.moved(),
        best.off(),
        best.frozen(),
        best.reordered(),
        best.addedCost(),
        proven);
  }

  /** Tries more and more moves within a number of days; true when no way was left untried. */
  private boolean level(List<Entry> ways, int f, int o, int t) {
    for (int moves = t + o == 0 ? 0 : 1; moves <= t + o + MOVES_BEYOND; moves++) {
      cut = false;
      daysCut = false;
      gaveWay = false;
      frozenLeft = f;
      touchLeft = t;
      offLeft = o;
      for (Entry way : ways) {
        enter(way, moves);
      }
      if (best != null || timeUp) {
        // With less nothing was found; time that ran out since costs at most a cheaper equal.
        return best != null;
      }
      if (!cut) {
        return true;
      }
    }
    return false;
  }

  private void enter(Entry way, int moves) {
    entry = way;
    int from = way.instead() < 0 ? 0 : slotOf[way.instead()];
    int to = way.instead() < 0 ? before.length : from + 1;
    for (int s = Math.max(0, from); s < to; s++) {
      if (!room.canEverTake(s, way.stop()) || (frozen[s] && frozenLeft == 0)) {
        continue;
      }
      entrySlot = s;
      frozenLeft -= frozen[s] ? 1 : 0;
      touched[s] = true;
      int[] stops = days.seq[s];
      if (way.instead() >= 0) {
        days.seq[s] = KeptDays.without(stops, way.instead());
      }
      place(way.stop(), s, moves, -1, new ArrayList<>());
      days.seq[s] = stops;
      touched[s] = false;
      frozenLeft += frozen[s] ? 1 : 0;
    }
  }

  /** Puts a stop into a slot, whose stops give way one after another where they must. */
  private void place(int stop, int slot, int moves, int lastOut, List<Integer> homeless) {
    if (outOfTime()) {
      return;
    }
    KeptDays.Way way = fit(stop, slot);
    if (way != null) {
      int[] stops = days.seq[slot];
      int kind = days.kind[slot];
      boolean was = reordered[slot];
      boolean did = fits[slot];
      days.put(slot, way);
      reordered[slot] = !KeptDays.keepsOrder(stayed(slot), way.seq());
      fits[slot] = true;
      settle(homeless, moves);
      days.seq[slot] = stops;
      days.kind[slot] = kind;
      reordered[slot] = was;
      fits[slot] = did;
      return;
    }
    for (int out : inTheWay(stop, slot)) {
      if (out > lastOut && moves == 0) {
        cut = true;
      } else if (out > lastOut) {
        giveWay(out, stop, slot, moves, homeless);
      }
    }
  }

  private KeptDays.Way fit(int stop, int slot) {
    if (stop == entry.stop() && entry.instead() >= 0) {
      int[] put = KeptDays.replaced(before[slot], entry.instead(), stop);
      for (int other : before[slot]) {
        if (isMoved[other]) {
          put = KeptDays.without(put, other);
        }
      }
      return days.run(slot, put);
    }
    return room.insert(slot, stop);
  }

  /** Stops of a slot that were there before and still are, in the order of before. */
  private int[] stayed(int slot) {
    return Arrays.stream(before[slot])
        .filter(c -> Arrays.stream(days.seq[slot]).anyMatch(x -> x == c))
        .toArray();
  }

  /** Stops any of which must go before this one has room, by number. */
  private int[] inTheWay(int stop, int slot) {
    return room.holders(stop, slot).stream()
        .mapToInt(c -> c)
        .filter(c -> slotOf[c] >= 0 && !isMoved[c] && c != entry.stop())
        .sorted()
        .toArray();
  }

  private void giveWay(int out, int stop, int slot, int moves, List<Integer> homeless) {
    int from = slotOf[out];
    if (!touch(from)) {
      return;
    }
    gaveWay = true;
    int[] stops = days.seq[from];
    int kind = days.kind[from];
    boolean did = fits[from];
    boolean was = reordered[from];
    isMoved[out] = true;
    moved.add(out);
    if (from == slot) {
      days.seq[from] = KeptDays.without(stops, out);
    } else {
      KeptDays.Way rest = days.run(from, KeptDays.without(stops, out));
      fits[from] = rest != null;
      days.seq[from] = KeptDays.without(stops, out);
      if (rest != null) {
        days.put(from, rest);
        reordered[from] |= rest.reordered();
      }
    }
    List<Integer> more = new ArrayList<>(homeless);
    more.add(out);
    place(stop, slot, moves - 1, out, more);
    moved.remove(moved.size() - 1);
    isMoved[out] = false;
    days.seq[from] = stops;
    days.kind[from] = kind;
    fits[from] = did;
    reordered[from] = was;
    untouch(from);
  }

  /** Marks a slot as changed if that is still allowed. */
  private boolean touch(int slot) {
    if (!touched[slot]) {
      daysCut |= touchLeft == 0;
      if (touchLeft == 0 || (frozen[slot] && frozenLeft == 0)) {
        return false;
      }
      touched[slot] = true;
      touchedSlots.add(slot);
      touchLeft--;
      frozenLeft -= frozen[slot] ? 1 : 0;
      touchCount[slot] = 1;
    } else {
      touchCount[slot]++;
    }
    return true;
  }

  private void untouch(int slot) {
    if (--touchCount[slot] == 0 && slot != entrySlot) {
      touched[slot] = false;
      touchedSlots.remove(Integer.valueOf(slot));
      touchLeft++;
      frozenLeft += frozen[slot] ? 1 : 0;
    }
  }

  /** Finds a day for the next stop that gave way. */
  private void settle(List<Integer> homeless, int moves) {
    if (homeless.isEmpty()) {
      leaf();
      return;
    }
    int stop = homeless.get(0);
    List<Integer> rest = homeless.subList(1, homeless.size());
    for (int s = 0; s < before.length && !timeUp; s++) {
      if (s != slotOf[stop] && room.canEverTake(s, stop) && touch(s)) {
        place(stop, s, moves, -1, rest);
        untouch(s);
      }
    }
    if (offLeft > 0 && mayLeave[stop]) {
      offLeft--;
      off.add(stop);
      settle(rest, moves);
      off.remove(off.size() - 1);
      offLeft++;
    }
  }

  private void leaf() {
    int orders = reordered[entrySlot] ? 1 : 0;
    int ice = frozen[entrySlot] ? 1 : 0;
    List<Integer> changed = new ArrayList<>(touchedSlots);
    for (int s : changed) {
      if (!fits[s]) {
        return;
      }
      orders += reordered[s] ? 1 : 0;
      ice += frozen[s] ? 1 : 0;
    }
    if (!fits[entrySlot]) {
      return;
    }
    double added = costNow(changed);
    boolean better =
        best == null
            || orders < best.reordered()
            || (orders == best.reordered() && added < best.addedCost() - 1e-9);
    if (better) {
      List<Integer> elsewhere = new ArrayList<>(moved);
      elsewhere.removeAll(off);
      changed.sort(null);
      best =
          new Found(
              new KeptDays(p, days.seq, days.kind),
              entrySlot,
              entry,
              changed,
              elsewhere,
              List.copyOf(off),
              ice,
              orders,
              added,
              false);
    }
  }

  private double costNow(List<Integer> changed) {
    double sum = days.cost(entrySlot) - costBefore[entrySlot];
    for (int s : changed) {
      sum += days.cost(s) - costBefore[s];
    }
    for (int stop : off) {
      sum += p.skipCost()[stop];
    }
    return sum;
  }

  private boolean outOfTime() {
    if (!timeUp && System.nanoTime() > end) {
      timeUp = true;
    }
    return timeUp;
  }
}
