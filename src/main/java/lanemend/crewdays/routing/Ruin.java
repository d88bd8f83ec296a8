package lanemend.crewdays.routing;

import java.util.SplittableRandom;

/**
 * Takes strings of neighbouring stops out of days near a random stop (Christiaens and Vanden
 * Berghe, Transportation Science 54(2), 2020, doi 10.1287/trsc.2019.0914; formulas from memory and
 * from a published implementation, as docs/method.md says).
 */
final class Ruin {
  /** Stops removed on average. */
  private static final double AVERAGE_REMOVED = 10;

  /** Longest string. */
  private static final double LONGEST_STRING = 10;

  /** Chance that a stretch inside the string is kept. */
  private static final double SPLIT_RATE = 0.5;

  /** Chance that the kept stretch grows by one more stop. */
  private static final double SPLIT_DEPTH = 0.01;

  private final DayProblem p;
  private final int[][] near;
  private final SplittableRandom random;
  private final int[] ruined;
  private int stamp;

  Ruin(DayProblem p, int[][] near, SplittableRandom random) {
    this.p = p;
    this.near = near;
    this.random = random;
    ruined = new int[p.slots().length];
  }

  /** Removes strings; removed stops join {@code s.absent}. */
  void apply(Solution s) {
    stamp++;
    int placed = p.stops() - s.absentCount;
    double average = s.activeCount == 0 ? 1 : (double) placed / s.activeCount;
    double longest = Math.min(LONGEST_STRING, average);
    double most = 4 * AVERAGE_REMOVED / (1 + longest) - 1;
    int strings = (int) (1 + random.nextDouble() * most);
    int[] around = near[random.nextInt(p.stops())];
    int done = 0;
    for (int i = 0; i < around.length && done < strings; i++) {
      int slot = s.slotOf[around[i]];
      if (slot >= 0 && ruined[slot] != stamp) {
        ruined[slot] = stamp;
        int size = s.size[slot];
        int length = (int) (1 + random.nextDouble() * Math.min(size, longest));
        removeString(s, slot, positionOf(s, slot, around[i]), Math.min(length, size));
        done++;
      }
    }
  }

  private static int positionOf(Solution s, int slot, int stop) {
    int[] seq = s.seq[slot];
    int i = 0;
    while (seq[i] != stop) {
      i++;
    }
    return i;
  }

  private void removeString(Solution s, int slot, int at, int length) {
    int size = s.size[slot];
    int kept = 0;
    if (length > 1 && length < size && random.nextDouble() < SPLIT_RATE) {
      kept = 1;
      while (length + kept < size && random.nextDouble() < SPLIT_DEPTH) {
        kept++;
      }
    }
    int whole = length + kept;
    int low = Math.max(0, at - whole + 1);
    int high = Math.min(at, size - whole);
    int start = low + random.nextInt(high - low + 1);
    int keepFrom = kept == 0 ? -1 : start + random.nextInt(whole - kept + 1);
    for (int i = start + whole - 1; i >= start; i--) {
      if (kept == 0 || i < keepFrom || i >= keepFrom + kept) {
        s.leaveOut(slot, i);
      }
    }
    if (!s.refresh(slot)) {
      // A shorter day may wait longer: mix that was carried on must now be fetched.
      while (s.size[slot] > 0) {
        s.leaveOut(slot, s.size[slot] - 1);
      }
      s.refresh(slot);
    }
  }
}
