package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicBoolean;

/**
 * Finds good days for a {@link DayProblem}: savings first, then ruin and recreate with string
 * removals and blinks under simulated annealing, and at the end the exact order of every small day.
 * Each thread anneals anew as often as the budget gives every run enough iterations; then pairs of
 * the best solutions that any thread found are crossed and annealed a little. By iterations the
 * result is the same each time.
 */
public final class DaySearch {
  /** Iterations for each stop that a run from the start should have, before there is another. */
  private static final double RUN_LENGTH = 3_000;

  /** Runs from the start at most, on each thread. */
  private static final int MOST_RUNS = 8;

  /** Share of the budget after the runs from the start. */
  private static final double CROSS_SHARE = 0.4;

  /** Iterations for each stop after a crossing. */
  private static final double CROSS_LENGTH = 300;

  /** With fewer crossings than this the best is reheated, so many times, instead. */
  private static final int FEWEST_CROSSINGS = 4;

  /** Solutions kept for crossing. */
  private static final int ELITE = 12;

  /** Solutions that differ in fewer neighbours than this count as one. */
  private static final int SAME = 3;

  /** Share of a budget of seconds in which the speed is measured. */
  private static final double MEASURE_SHARE = 0.02;

  /** Stops kept in each stop's list of neighbours. */
  private static final int NEIGHBOURS = 400;

  /** First temperature as a share of the first solution's cost per leg, in a run long enough. */
  private static final double HOT = 1.0;

  /** The same in the shortest runs: too hot a start could not be made good any more. */
  private static final double LEAST_HOT = 0.03;

  /** First temperature of a later run as a share of that of the first. */
  private static final double WARM = 0.2;

  /** Last temperature as a share of the first solution's cost per leg. */
  private static final double COLD = 0.01;

  private static final double EPS = 1e-9;

  /** A listener hears at least this often. */
  private static final long LISTEN_MILLIS = 200;

  private final DayProblem p;
  private final SearchBudget budget;
  private final SearchProgress progress;
  private final long begin = System.nanoTime();
  private final List<SearchResult.Day> given;
  private final AtomicBoolean stop = new AtomicBoolean();
  private final List<Solution> elite = new ArrayList<>();
  private Searcher[] searchers = new Searcher[0];

  private DaySearch(
      DayProblem p, List<SearchResult.Day> given, SearchBudget budget, SearchProgress progress) {
    this.p = p;
    this.given = given;
    this.budget = budget;
    this.progress = progress;
  }

  /** Searches within the budget; a listener that answers false ends it early. */
  public static SearchResult solve(DayProblem p, SearchBudget budget, SearchProgress progress) {
    return new DaySearch(p, List.of(), budget, progress).run();
  }

  /**
   * Searches from days at hand, with little heat: what is good about them mostly stays.
   *
   * @param days to begin with; those that break a limit are taken apart and their stops placed anew
   */
  public static SearchResult from(
      DayProblem p, List<SearchResult.Day> days, SearchBudget budget, SearchProgress progress) {
    return new DaySearch(p, days, budget, progress).run();
  }

  private SearchResult run() {
    Solution start = new Solution(p);
    if (p.stops() == 0 || p.slots().length == 0) {
      return result(start, 0);
    }
    int[][] near = Nearest.of(p, NEIGHBOURS);
    if (given.isEmpty()) {
      new Savings(p, near).apply(start);
    } else {
      new GivenDays(p, given).apply(start);
    }
    // Joined days may find no date; their stops still may, one by one.
    new Recreate(p, near, new SplittableRandom(budget.seed())).apply(start, 0);
    start.clean();
    elite.add(start);
    searchers = new Searcher[budget.threads()];
    for (int i = 0; i < searchers.length; i++) {
      searchers[i] = new Searcher(p, near, start, budget.seed() * 1_000_003L + i, stop);
    }
    double perLeg = start.days / Math.max(1, p.stops() - start.absentCount + start.activeCount);
    if (perLeg > 0) {
      anneal(start, perLeg);
    }
    Solution best = elite.get(0);
    new ExactOrder(p).apply(best);
    new EarlierDates(p).apply(best);
    best.retotal();
    long iterations = 0;
    for (Searcher searcher : searchers) {
      iterations += searcher.iterations;
    }
    return result(best, iterations);
  }

  private void anneal(Solution start, double perLeg) {
    ExecutorService pool = Executors.newFixedThreadPool(searchers.length);
    try {
      double used = 0;
      double length = budget.iterations();
      if (budget.seconds() > 0) {
        leg(pool, 0, MEASURE_SHARE, perLeg * LEAST_HOT, perLeg * COLD);
        used = MEASURE_SHARE;
        length = searchers[0].iterations / MEASURE_SHARE;
      }
      double perStop = length / p.stops();
      double hot = Math.min(HOT, Math.max(LEAST_HOT, Math.sqrt(perStop / RUN_LENGTH)));
      double fresh = given.isEmpty() ? 1 - CROSS_SHARE - used : 0;
      int runs = (int) Math.max(1, Math.min(MOST_RUNS, fresh * perStop / RUN_LENGTH));
      for (int i = given.isEmpty() ? 0 : runs; i < runs && !stop.get(); i++) {
        for (Searcher searcher : searchers) {
          searcher.startFrom(i == 0 && used > 0 ? elite.get(0) : start);
        }
        double to = used + fresh * (i + 1) / runs;
        leg(pool, used + fresh * i / runs, to, perLeg * hot, perLeg * COLD);
      }
      cross(pool, used + fresh, perLeg * hot * WARM, perLeg * COLD, perStop);
    } catch (InterruptedException e) {
      // The best so far still stands.
      stop.set(true);
      Thread.currentThread().interrupt();
    } catch (ExecutionException e) {
      throw new IllegalStateException("the search failed", e.getCause());
    } finally {
      pool.shutdownNow();
    }
  }

  /** Crosses pairs of the best as often as the rest of the budget, from a share on, allows. */
  private void cross(ExecutorService pool, double begun, double hot, double cold, double perStop)
      throws InterruptedException, ExecutionException {
    int crossings = (int) ((1 - begun) * perStop / CROSS_LENGTH);
    SplittableRandom random = new SplittableRandom(budget.seed());
    int legs = Math.max(FEWEST_CROSSINGS, crossings);
    for (int i = 0; i < legs && !stop.get(); i++) {
      for (int t = 0; t < searchers.length; t++) {
        if (crossings < FEWEST_CROSSINGS || elite.size() < 2) {
          searchers[t].startFrom(elite.get(t % elite.size()));
        } else {
          int one = drawn(random);
          int other = drawn(random);
          searchers[t].cross(
              elite.get(one), elite.get(one == other ? (one + 1) % elite.size() : other));
        }
      }
      double from = begun + (1 - begun) * i / legs;
      leg(pool, from, from + (1 - begun) / legs, Math.max(hot, 2 * cold), cold);
    }
  }

  /** Of two at random the better; the best stand first. */
  private int drawn(SplittableRandom random) {
    return Math.min(random.nextInt(elite.size()), random.nextInt(elite.size()));
  }

  /** Keeps a solution unless one as good is nearly the same; it drives out those it betters. */
  private void keep(Solution found) {
    for (int i = elite.size() - 1; i >= 0; i--) {
      if (Crossing.apart(elite.get(i), found) < SAME) {
        if (found.total() >= elite.get(i).total() - EPS) {
          return;
        }
        elite.remove(i);
      }
    }
    elite.add(found);
  }

  /** One annealing run on every thread, over a share of the budget. */
  private void leg(ExecutorService pool, double from, double to, double hot, double cold)
      throws InterruptedException, ExecutionException {
    List<Future<?>> running = new ArrayList<>();
    for (Searcher searcher : searchers) {
      running.add(pool.submit(() -> cool(searcher, from, to, hot, cold)));
    }
    for (Future<?> one : running) {
      while (!ended(one)) {
        hear(from);
      }
    }
    for (Searcher searcher : searchers) {
      Solution found = new Solution(p);
      found.takeAll(searcher.best);
      keep(found);
    }
    // The sort is stable: among equals the earlier found stays first.
    elite.sort(Comparator.comparingDouble(Solution::total));
    while (elite.size() > ELITE) {
      elite.remove(elite.size() - 1);
    }
    hear(to);
  }

  private void cool(Searcher searcher, double from, double to, double hot, double cold) {
    if (budget.iterations() > 0) {
      long count = Math.round(budget.iterations() * to) - Math.round(budget.iterations() * from);
      if (count > 0) {
        searcher.run(count, hot, cold);
      }
    } else {
      double whole = budget.seconds() * 1e9;
      searcher.runUntil(begin + (long) (whole * from), begin + (long) (whole * to), hot, cold);
    }
  }

  private void hear(double share) {
    double best = elite.get(0).total();
    for (Searcher searcher : searchers) {
      best = Math.min(best, searcher.bestCost);
    }
    double timed = (System.nanoTime() - begin) / 1e9 / Math.max(1e-9, budget.seconds());
    double done = budget.seconds() > 0 ? Math.min(1, timed) : share;
    stop.compareAndSet(false, !progress.at(done, best));
  }

  /** Waits a little; false while the work still runs. */
  private static boolean ended(Future<?> work) throws InterruptedException, ExecutionException {
    try {
      work.get(LISTEN_MILLIS, TimeUnit.MILLISECONDS);
      return true;
    } catch (TimeoutException e) {
      return false;
    }
  }

  private static SearchResult result(Solution s, long iterations) {
    List<SearchResult.Day> days = new ArrayList<>();
    for (int slot = 0; slot < s.size.length; slot++) {
      if (s.size[slot] > 0) {
        List<Integer> stops = new ArrayList<>();
        for (int i = 0; i < s.size[slot]; i++) {
          stops.add(s.seq[slot][i]);
        }
        days.add(new SearchResult.Day(slot, s.kind[slot], stops, s.cost[slot]));
      }
    }
    List<Integer> skipped = new ArrayList<>();
    for (int i = 0; i < s.absentCount; i++) {
      skipped.add(s.absent[i]);
    }
    skipped.sort(Comparator.naturalOrder());
    return new SearchResult(days, skipped, s.days, iterations);
  }
}
