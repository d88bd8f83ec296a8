package lanemend.crewdays.routing;

import java.util.SplittableRandom;

/**
 * Puts stops that are in no day back, each where it costs least, now and then blinking past a place
 * (Christiaens and Vanden Berghe 2020). A stop for which there is no place, or whose cheapest place
 * costs more than leaving it out, stays out.
 */
final class Recreate {
  /** Chance to blink past a place. */
  private static final double BLINK_RATE = 0.01;

  /**
   * Days of this many nearest stops are looked at first, those of the other neighbours only when
   * none will do, and all days only when no day can be opened either.
   */
  private static final int NEAREST = 60;

  /**
   * Stops tried again at most of those that were out before this ruin: a full calendar may leave
   * thousands out, and few days have changed.
   */
  private static final int MOST_OTHERS = 40;

  /** Where so many stops are out the calendar is full, and most are tried in changed days only. */
  private static final int CALENDAR_FULL = 400;

  /** Share of the stops that were out before which are then tried in every day all the same. */
  private static final double TRIED_EVERYWHERE = 0.15;

  /** Days looked at, of those without a near stop: in a full calendar it is mostly in vain. */
  private static final int MOST_DAYS = 100;

  private static final double EPS = 1e-7;

  private final DayProblem p;
  private final StopKinds byStop;
  private final SplittableRandom random;
  private final DayPrice price;

  /** Null where minutes simply add up. */
  private final TimedPlaces timed;

  private final double[] key;
  private final double[] nearestDepot;
  private final double[] urgency;
  private final boolean dated;

  /** Stops that a later date may suit better: held on a date, or planned on one before. */
  private final boolean[] laterMaySuit;

  private final Blinks blinks;
  private final int[][] groups;
  private final int[][] near;

  private final int[] seen;

  /** Stops that were out before and are tried in days that changed. */
  private final boolean[] onlyInChanged;

  private int stamp;
  private int bestSlot;
  private int bestKind;
  private int bestAt;
  private double best;

  Recreate(DayProblem p, int[][] near, SplittableRandom random) {
    this.near = near;
    seen = new int[p.slots().length];
    onlyInChanged = new boolean[p.stops()];
    this.p = p;
    byStop = p.byStop();
    this.random = random;
    price = new DayPrice(p);
    blinks = new Blinks(random, BLINK_RATE);
    timed = p.additive() ? null : new TimedPlaces(p, blinks);
    key = new double[p.stops()];
    nearestDepot = new double[p.stops()];
    urgency = new double[p.stops()];
    dated = p.dates() > 1;
    groups = DateSwap.groups(p);
    laterMaySuit = new boolean[p.stops()];
    for (int d = 1; d < p.dates(); d++) {
      for (int c = 0; c < p.stops(); c++) {
        laterMaySuit[c] |= p.late()[d][c] < p.late()[d - 1][c];
      }
    }
    for (int c = 0; c < p.stops(); c++) {
      nearestDepot[c] = Double.POSITIVE_INFINITY;
      for (int d = 0; d < p.depots(); d++) {
        nearestDepot[c] = Math.min(nearestDepot[c], p.legs()[p.leg(p.stops() + d, c) + 1]);
      }
      urgency[c] = -p.late()[p.dates() - 1][c] - p.skipCost()[c];
    }
  }

  /**
   * Puts back what it can and settles how each changed day is best run.
   *
   * @param outBefore how many of {@code s.absent}, at its start, were out before the last ruin;
   *     some of them are tried too
   */
  void apply(Solution s, int outBefore) {
    int first = Math.max(0, outBefore - MOST_OTHERS);
    if (first > 0) {
      drawLast(s.absent, outBefore);
    }
    for (int i = first; i < outBefore; i++) {
      onlyInChanged[s.absent[i]] =
          outBefore > CALENDAR_FULL && random.nextDouble() >= TRIED_EVERYWHERE;
    }
    sort(s, first);
    int kept = first;
    int n = s.absentCount;
    for (int i = first; i < n; i++) {
      int stop = s.absent[i];
      find(s, stop, onlyInChanged[stop]);
      onlyInChanged[stop] = false;
      if (bestSlot >= 0 && best < p.skipCost()[stop]) {
        s.skipped -= p.skipCost()[stop];
        if (s.size[bestSlot] == 0) {
          s.setKind(bestSlot, bestKind);
        }
        s.insert(bestSlot, bestAt, stop);
      } else {
        s.absent[kept++] = stop;
      }
    }
    s.absentCount = kept;
    for (int i = 0; i < s.dirtyCount; i++) {
      settleKind(s, s.dirty[i]);
    }
  }

  /** Moves a random choice to the end of the first {@code count}. */
  private void drawLast(int[] stops, int count) {
    for (int last = count - 1; last >= count - MOST_OTHERS; last--) {
      int other = random.nextInt(last + 1);
      int kept = stops[other];
      stops[other] = stops[last];
      stops[last] = kept;
    }
  }

  /**
   * Finds the cheapest place of one stop.
   *
   * @param onlyInChanged days that did not change since it was left out need not be looked at
   */
  private void find(Solution s, int stop, boolean onlyInChanged) {
    best = Double.POSITIVE_INFINITY;
    bestSlot = -1;
    stamp++;
    if (onlyInChanged) {
      scanChanged(s, stop);
      return;
    }
    int[] around = near[stop];
    int nearest = Math.min(around.length, NEAREST);
    scanDaysOf(s, around, 1, nearest, stop);
    if (bestSlot < 0) {
      scanDaysOf(s, around, nearest, around.length, stop);
    }
    openNew(s, stop);
    if (bestSlot < 0) {
      scanAll(s, stop);
    }
  }

  /** Looks at the days of some stops. */
  private void scanDaysOf(Solution s, int[] stops, int from, int to, int stop) {
    for (int i = from; i < to; i++) {
      int slot = s.slotOf[stops[i]];
      if (slot >= 0 && seen[slot] != stamp) {
        seen[slot] = stamp;
        if (s.admits(slot, s.kind[slot], stop)) {
          scan(s, slot, stop);
        }
      }
    }
  }

  private void scanChanged(Solution s, int stop) {
    for (int i = 0; i < s.dirtyCount; i++) {
      int slot = s.dirty[i];
      if (s.size[slot] == 0) {
        if (s.mayOpen(slot, stop, byStop.leastUnits(stop))) {
          tryEmpty(s, slot, stop);
        }
      } else if (s.admits(slot, s.kind[slot], stop)) {
        scan(s, slot, stop);
      }
    }
  }

  /** Looks at the other days, from a random one on where there are many. */
  private void scanAll(Solution s, int stop) {
    int count = Math.min(s.activeCount, MOST_DAYS);
    int at = count < s.activeCount ? random.nextInt(s.activeCount) : 0;
    for (int i = 0; i < count; i++) {
      int slot = s.active[at];
      at = at + 1 == s.activeCount ? 0 : at + 1;
      if (seen[slot] != stamp && s.admits(slot, s.kind[slot], stop)) {
        scan(s, slot, stop);
      }
    }
  }

  private void scan(Solution s, int slot, int stop) {
    if (timed != null) {
      double cost = timed.cheapest(s, slot, stop, best);
      if (cost < best) {
        best = cost;
        bestSlot = slot;
        bestAt = timed.at;
      }
      return;
    }
    int k = s.kind[slot];
    DayKind kind = p.kinds()[k];
    int date = p.date(slot);
    double service = byStop.service(k, stop);
    double base = p.stopCost()[k][stop] + p.late()[date][stop] + kind.costPerMinute() * service;
    double perKm = kind.costPerKm();
    double perMinute = kind.costPerMinute();
    double room = kind.limitMinutes() + EPS - s.busy[slot] - service;
    double[] legs = p.legs();
    int places = p.places();
    int[] seq = s.seq[slot];
    int size = s.size[slot];
    int depot = p.depotPlace(k);
    int from = depot;
    int stopRow = 2 * stop * places;
    for (int at = 0; at <= size; at++) {
      int to = at < size ? seq[at] : depot;
      if (!blinks.past()) {
        int fromRow = 2 * from * places;
        int in = fromRow + 2 * stop;
        int out = stopRow + 2 * to;
        int old = fromRow + 2 * to;
        double minutes = legs[in + 1] + legs[out + 1] - legs[old + 1];
        double cost = base + perKm * (legs[in] + legs[out] - legs[old]) + perMinute * minutes;
        if (cost < best && minutes <= room) {
          best = cost;
          bestSlot = slot;
          bestAt = at;
        }
      }
      from = to;
    }
  }

  /** Tries the stop alone in the first free slot of each group that may take it. */
  private void openNew(Solution s, int stop) {
    for (int[] group : groups) {
      if (blinks.past()) {
        continue;
      }
      // Mostly later dates cost no less, and then the first that may take it will do.
      for (int i = 0; i < group.length; i++) {
        if (s.size[group[i]] == 0
            && s.mayOpen(group[i], stop, byStop.leastUnits(stop))
            && tryEmpty(s, group[i], stop)) {
          break;
        }
      }
    }
  }

  /** False when a later date of the group may still do better. */
  private boolean tryEmpty(Solution s, int slot, int stop) {
    DayProblem.Slot it = p.slots()[slot];
    boolean settled = !laterMaySuit[stop];
    for (int k : it.kinds()) {
      if (byStop.can(k, stop) && aloneAtLeast(k, it.date(), stop) < best) {
        boolean fits =
            s.admits(slot, k, stop) && price.price(k, it.date(), s.seq[slot], 0, 0, stop);
        settled &= fits;
        if (fits && price.cost < best) {
          best = price.cost;
          bestSlot = slot;
          bestAt = 0;
          bestKind = k;
        }
      }
    }
    return settled;
  }

  /** Cost of a day with this stop alone, apart from waiting. */
  private double aloneAtLeast(int k, int date, int stop) {
    DayKind kind = p.kinds()[k];
    int depot = p.depotPlace(k);
    int out = p.leg(depot, stop);
    int back = p.leg(stop, depot);
    double[] legs = p.legs();
    return kind.fixedCost()
        + p.stopCost()[k][stop]
        + p.late()[date][stop]
        + kind.costPerKm() * (legs[out] + legs[back])
        + kind.costPerMinute() * (legs[out + 1] + legs[back + 1] + byStop.service(k, stop));
  }

  /** Runs the day in the cheapest way it can be run. */
  void settleKind(Solution s, int slot) {
    int[] kinds = p.slots()[slot].kinds();
    if (kinds.length == 1 || s.size[slot] == 0) {
      return;
    }
    int date = p.date(slot);
    double cheapest = s.cost[slot] - EPS;
    int to = -1;
    for (int k : kinds) {
      if (k != s.kind[slot]
          && s.load[slot] <= p.kinds()[k].capacity() + EPS
          && s.sourceAllows(slot, k)
          && price.mayDo(k, date, s.seq[slot], s.size[slot], cheapest)
          && price.price(k, date, s.seq[slot], s.size[slot], -1, -1)
          && price.cost < cheapest) {
        cheapest = price.cost;
        to = k;
      }
    }
    if (to >= 0) {
      s.setKind(slot, to);
      s.refresh(slot);
    }
  }

  /** Random, most demand, farthest, nearest first; most urgent first where dates matter. */
  private void sort(Solution s, int first) {
    int draw = random.nextInt(dated ? 15 : 11);
    for (int i = first; i < s.absentCount; i++) {
      int c = s.absent[i];
      if (draw < 4) {
        key[c] = random.nextDouble();
      } else if (draw < 8) {
        key[c] = -p.demand()[c];
      } else if (draw < 10) {
        key[c] = -nearestDepot[c];
      } else if (draw < 11) {
        key[c] = nearestDepot[c];
      } else {
        key[c] = urgency[c];
      }
    }
    for (int i = first + 1; i < s.absentCount; i++) {
      int c = s.absent[i];
      int j = i - 1;
      while (j >= first && key[s.absent[j]] > key[c]) {
        s.absent[j + 1] = s.absent[j];
        j--;
      }
      s.absent[j + 1] = c;
    }
  }
}
