package lanemend.crewdays.routing;

import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * Puts neighbouring days of one solution into another. Each goes to the day of the same crew that
 * shares most stops with it; stops that lose their place are left out, for recreate to place.
 */
final class Crossing {
  /** Days taken over at most. */
  private static final int MOST_DAYS = 60;

  /** Share of the other's days taken over at most. */
  private static final double MOST_SHARE = 2.0 / 3;

  private final DayProblem p;
  private final int[][] near;
  private final SplittableRandom random;
  private final DayPrice price;
  private final int[] shared;
  private final boolean[] seen;
  private final boolean[] filled;

  Crossing(DayProblem p, int[][] near, SplittableRandom random) {
    this.p = p;
    this.near = near;
    this.random = random;
    price = new DayPrice(p);
    shared = new int[p.slots().length];
    seen = new boolean[p.slots().length];
    filled = new boolean[p.slots().length];
  }

  /** Changes {@code child} into a mix of itself and some days of {@code other}. */
  void apply(Solution child, Solution other) {
    Arrays.fill(seen, false);
    Arrays.fill(filled, false);
    int most = (int) Math.max(1, Math.min(other.activeCount * MOST_SHARE, MOST_DAYS));
    int wanted = 1 + random.nextInt(most);
    int[] around = near[random.nextInt(p.stops())];
    for (int i = 0; i < around.length && wanted > 0; i++) {
      int from = other.slotOf[around[i]];
      if (from >= 0 && !seen[from]) {
        seen[from] = true;
        bring(child, other, from);
        wanted--;
      }
    }
    int kept = 0;
    for (int i = 0; i < child.absentCount; i++) {
      if (child.slotOf[child.absent[i]] < 0) {
        child.absent[kept++] = child.absent[i];
      }
    }
    child.absentCount = kept;
  }

  private void bring(Solution child, Solution other, int from) {
    int n = other.size[from];
    int[] stops = other.seq[from];
    int kind = other.kind[from];
    int to = target(child, stops, n, from);
    for (int i = 0; i < n; i++) {
      if (child.slotOf[stops[i]] >= 0) {
        takeOut(child, stops[i]);
      }
    }
    if (to < 0) {
      return;
    }
    empty(child, to);
    if (Arrays.stream(p.slots()[to].kinds()).anyMatch(k -> k == kind)
        && child.admitsAll(to, kind, stops, n)
        && price.price(kind, p.date(to), stops, n, -1, -1)
        && Double.isFinite(price.cost)) {
      filled[to] = true;
      child.setKind(to, kind);
      for (int i = 0; i < n; i++) {
        child.skipped -= p.skipCost()[stops[i]];
        child.insert(to, i, stops[i]);
      }
    }
  }

  /** The day of the same group that shares most stops; the same day when none does; -1 if taken. */
  private int target(Solution child, int[] stops, int n, int from) {
    int to = filled[from] ? -1 : from;
    int most = 0;
    for (int i = 0; i < n; i++) {
      int slot = child.slotOf[stops[i]];
      if (slot >= 0 && !filled[slot] && p.slots()[slot].group() == p.slots()[from].group()) {
        shared[slot]++;
        if (shared[slot] > most) {
          most = shared[slot];
          to = slot;
        }
      }
    }
    for (int i = 0; i < n; i++) {
      if (child.slotOf[stops[i]] >= 0) {
        shared[child.slotOf[stops[i]]] = 0;
      }
    }
    return to;
  }

  private void takeOut(Solution child, int stop) {
    int slot = child.slotOf[stop];
    int at = 0;
    while (child.seq[slot][at] != stop) {
      at++;
    }
    child.leaveOut(slot, at);
    if (!child.refresh(slot)) {
      // A shorter day may wait longer, as in Ruin.
      empty(child, slot);
    }
  }

  private static void empty(Solution child, int slot) {
    while (child.size[slot] > 0) {
      child.leaveOut(slot, child.size[slot] - 1);
    }
    child.refresh(slot);
  }

  /**
   * How many stops of {@code b} are followed by another than they have beside them in {@code a}.
   */
  static int apart(Solution a, Solution b) {
    int[] before = new int[a.p.stops()];
    int[] after = new int[a.p.stops()];
    Arrays.fill(before, -2);
    Arrays.fill(after, -2);
    for (int i = 0; i < a.activeCount; i++) {
      int slot = a.active[i];
      for (int j = 0; j < a.size[slot]; j++) {
        before[a.seq[slot][j]] = j > 0 ? a.seq[slot][j - 1] : -1;
        after[a.seq[slot][j]] = next(a, slot, j);
      }
    }
    int apart = 0;
    for (int i = 0; i < b.activeCount; i++) {
      int slot = b.active[i];
      for (int j = 0; j < b.size[slot]; j++) {
        int stop = b.seq[slot][j];
        int next = next(b, slot, j);
        apart += next == after[stop] || next == before[stop] ? 0 : 1;
      }
    }
    return apart;
  }

  private static int next(Solution s, int slot, int at) {
    return at + 1 < s.size[slot] ? s.seq[slot][at + 1] : -1;
  }
}
