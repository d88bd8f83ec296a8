package lanemend.crewdays.routing;

import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicBoolean;

/** One thread's simulated annealing over ruined and recreated days. */
final class Searcher {
  /** Iterations between looks at the clock and at whether to stop. */
  private static final int CLOCK_STEP = 64;

  /** Share of moves that exchange two dates, where there are dates. */
  private static final double DATE_SWAP_RATE = 0.05;

  private final SplittableRandom random;
  private final Ruin ruin;
  private final Recreate recreate;
  private final DateSwap dateSwap;
  private final Crossing crossing;
  private final double swapRate;
  private final AtomicBoolean stop;
  private final Solution work;
  private final Solution current;

  /** Slots in which {@link #best} may differ from {@link #current}. */
  private final int[] behind;

  private final boolean[] isBehind;
  private int behindCount;

  /** Best since the last {@link #startFrom}. */
  final Solution best;

  /** Cost of {@link #best}, for other threads to read. */
  volatile double bestCost;

  long iterations;

  Searcher(DayProblem p, int[][] near, Solution start, long seed, AtomicBoolean stop) {
    this.stop = stop;
    random = new SplittableRandom(seed);
    ruin = new Ruin(p, near, random);
    recreate = new Recreate(p, near, random);
    dateSwap = new DateSwap(p, random);
    crossing = new Crossing(p, near, random);
    swapRate = p.dates() > 1 ? DATE_SWAP_RATE : 0;
    work = new Solution(p);
    current = new Solution(p);
    best = new Solution(p);
    behind = new int[p.slots().length];
    isBehind = new boolean[behind.length];
    startFrom(start);
  }

  /** Begins again from a solution. */
  void startFrom(Solution other) {
    current.takeAll(other);
    work.takeAll(other);
    best.takeAll(other);
    bestCost = best.total();
    work.clean();
    current.clean();
    forgetBehind();
  }

  /** Begins again from a solution into which some days of another are put. */
  void cross(Solution one, Solution other) {
    startFrom(one);
    crossing.apply(work, other);
    recreate.apply(work, 0);
    current.takeAll(work);
    best.takeAll(work);
    bestCost = best.total();
    work.clean();
  }

  private void forgetBehind() {
    for (int i = 0; i < behindCount; i++) {
      isBehind[behind[i]] = false;
    }
    behindCount = 0;
  }

  /** Runs a number of iterations while the temperature falls from one value to another. */
  void run(long count, double from, double to) {
    double cool = Math.pow(to / from, 1.0 / count);
    double temperature = from;
    for (long i = 0; i < count && !(i % CLOCK_STEP == 0 && stop.get()); i++) {
      step(temperature);
      temperature *= cool;
    }
    settle();
  }

  /** Runs until a time ({@link System#nanoTime}) while the temperature falls. */
  void runUntil(long start, long end, double from, double to) {
    long now = System.nanoTime();
    while (now < end && !stop.get()) {
      double share = (double) Math.max(0, now - start) / (end - start);
      double temperature = from * Math.pow(to / from, share);
      for (int i = 0; i < CLOCK_STEP; i++) {
        step(temperature);
      }
      now = System.nanoTime();
    }
    settle();
  }

  private void settle() {
    current.retotal();
    work.retotal();
    best.retotal();
  }

  private void step(double temperature) {
    iterations++;
    if (swapRate > 0 && random.nextDouble() < swapRate) {
      if (!dateSwap.apply(work)) {
        undo();
        return;
      }
    } else {
      int outBefore = work.absentCount;
      ruin.apply(work);
      recreate.apply(work, outBefore);
    }
    double bar = current.total() - temperature * Math.log(1 - random.nextDouble());
    if (work.total() < bar) {
      current.take(work, work.dirty, work.dirtyCount);
      for (int i = 0; i < work.dirtyCount; i++) {
        int slot = work.dirty[i];
        if (!isBehind[slot]) {
          isBehind[slot] = true;
          behind[behindCount++] = slot;
        }
      }
      work.clean();
      if (current.total() < best.total() - 1e-9) {
        best.take(current, behind, behindCount);
        forgetBehind();
        bestCost = best.total();
      }
    } else {
      undo();
    }
  }

  private void undo() {
    work.take(current, work.dirty, work.dirtyCount);
    work.clean();
  }
}
