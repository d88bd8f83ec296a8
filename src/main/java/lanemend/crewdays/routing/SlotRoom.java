package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/** Whether and how one more stop finds room in a slot, and which stops hold what it needs. */
final class SlotRoom {
  private static final KeptDays.Way NO_WAY = new KeptDays.Way(-1, new int[0], 0, false);

  private final DayProblem p;
  private final KeptDays days;

  /** The arrays of the slots as given: a slot that still has its own is unchanged. */
  private final int[][] asGiven;

  /** Ways to put a stop into a slot that is as it was, by slot and stop; null when not tried. */
  private final KeptDays.Way[][] known;

  private final boolean hasStock;
  private final int[] everySlot;

  /**
   * @param days whose changes are seen
   */
  SlotRoom(KeptDays days) {
    this.days = days;
    p = days.p;
    asGiven = days.seq.clone();
    known = new KeptDays.Way[asGiven.length][p.stops()];
    hasStock = days.hasStock();
    everySlot = IntStream.range(0, asGiven.length).toArray();
  }

  /** True when the stop may be done on the date by a kind the slot can run as. */
  boolean canEverTake(int slot, int stop) {
    if (p.late()[p.date(slot)][stop] == Double.POSITIVE_INFINITY) {
      return false;
    }
    for (int k : p.slots()[slot].kinds()) {
      if (p.service()[k][stop] < Double.POSITIVE_INFINITY) {
        return true;
      }
    }
    return false;
  }

  /** The cheapest way to put the stop in, tried once while the date is as given; null for none. */
  KeptDays.Way insert(int slot, int stop) {
    if (hasStock || !asGiven(slot)) {
      return days.insert(slot, days.seq[slot], stop);
    }
    if (known[slot][stop] == null) {
      KeptDays.Way way = days.insert(slot, days.seq[slot], stop);
      known[slot][stop] = way == null ? NO_WAY : way;
    }
    return known[slot][stop].kind() < 0 ? null : known[slot][stop];
  }

  /** True when all slots of the slot's date are as they were. */
  private boolean asGiven(int slot) {
    for (int other : days.slotsOfDate(slot)) {
      if (days.seq[other] != asGiven[other]) {
        return false;
      }
    }
    return true;
  }

  /** Stops that hold time, machines, trucks or mix the stop needs in the slot. */
  List<Integer> holders(int stop, int slot) {
    List<Integer> found = new ArrayList<>();
    for (int c : days.seq[slot]) {
      found.add(c);
    }
    int[] all = Arrays.copyOf(days.seq[slot], days.seq[slot].length + 1);
    all[all.length - 1] = stop;
    int machines = days.missingMachines(slot, all);
    int[] others = hasStock && p.demand()[stop] > 0 ? everySlot : days.slotsOfDate(slot);
    for (int other : others) {
      boolean sameDate = p.date(other) == p.date(slot);
      for (int c : other == slot ? new int[0] : days.seq[other]) {
        // Of the same date: mix of one plant, trucks of one pool. Of all dates: one stockpile.
        boolean draws = p.demand()[stop] > 0 && p.demand()[c] > 0;
        boolean pooled = sameDate && p.shared().pool().length > 0;
        if ((sameDate && (days.bitsOf(c) & machines) != 0) || draws || pooled) {
          found.add(c);
        }
      }
    }
    return found;
  }
}
