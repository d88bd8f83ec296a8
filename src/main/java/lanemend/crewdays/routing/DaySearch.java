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
import java.util.stream.IntStream;

/**
 * Finds good days for a {@link DayProblem}: savings first, then ruin and recreate with string
 * removals and blinks under simulated annealing, and at the end the exact order of every small day.
 * Threads search on their own between meetings, where the worse goes on from the better one's
 * solution; by iterations the result is the same each time.
 */
public final class DaySearch {
  /** Meetings of the threads, which are also the calls of the listener. */
  private static final int ROUNDS = 50;

  /** Stops kept in each stop's list of neighbours. */
  private static final int NEIGHBOURS = 400;

  /** First temperature as a share of the first solution's cost per leg. */
  private static final double HOT = 1.0;

  /** Last temperature as a share of the first solution's cost per leg. */
  private static final double COLD = 0.01;

  /** A listener hears at least this often. */
  private static final long LISTEN_MILLIS = 200;

  private DaySearch() {}

  /** Searches within the budget; a listener that answers false ends it early. */
  public static SearchResult solve(DayProblem p, SearchBudget budget, SearchProgress progress) {
    long begin = System.nanoTime();
    Solution start = new Solution(p);
    if (p.stops() == 0 || p.slots().length == 0) {
      return result(start, 0);
    }
    int[][] near = neighbours(p);
    new Savings(p, near).apply(start);
    // Joined days may find no date; their stops still may, one by one.
    new Recreate(p, new SplittableRandom(budget.seed())).apply(start);
    start.clean();
    AtomicBoolean stop = new AtomicBoolean();
    Searcher[] searchers = new Searcher[budget.threads()];
    for (int i = 0; i < searchers.length; i++) {
      searchers[i] = new Searcher(p, near, start, budget.seed() * 1_000_003L + i, stop);
    }
    double perLeg = start.days / Math.max(1, p.stops() - start.absentCount + start.activeCount);
    if (perLeg > 0) {
      Cooling cooling = new Cooling(begin, perLeg * HOT, perLeg * COLD);
      anneal(searchers, budget, progress, cooling, stop);
    }
    Solution best = searchers[0].best;
    long iterations = 0;
    for (Searcher searcher : searchers) {
      iterations += searcher.iterations;
      if (searcher.best.total() < best.total()) {
        best = searcher.best;
      }
    }
    new ExactOrder(p).apply(best);
    new EarlierDates(p).apply(best);
    best.retotal();
    return result(best, iterations);
  }

  private record Cooling(long begin, double hot, double cold) {
    double at(double share) {
      return hot * Math.pow(cold / hot, share);
    }
  }

  private static void anneal(
      Searcher[] searchers,
      SearchBudget budget,
      SearchProgress progress,
      Cooling cooling,
      AtomicBoolean stop) {
    ExecutorService pool = Executors.newFixedThreadPool(searchers.length);
    try {
      for (int round = 0; round < ROUNDS && !stop.get(); round++) {
        List<Future<?>> running = new ArrayList<>();
        for (Searcher searcher : searchers) {
          int r = round;
          running.add(pool.submit(() -> run(searcher, r, budget, cooling)));
        }
        double best = bestCost(searchers);
        for (Future<?> one : running) {
          while (!ended(one)) {
            stop.compareAndSet(false, !progress.at((double) round / ROUNDS, best));
          }
        }
        meet(searchers);
        stop.compareAndSet(false, !progress.at((round + 1.0) / ROUNDS, bestCost(searchers)));
      }
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

  /** Waits a little; false while the work still runs. */
  private static boolean ended(Future<?> work) throws InterruptedException, ExecutionException {
    try {
      work.get(LISTEN_MILLIS, TimeUnit.MILLISECONDS);
      return true;
    } catch (TimeoutException e) {
      return false;
    }
  }

  private static void run(Searcher searcher, int round, SearchBudget budget, Cooling cooling) {
    double from = cooling.at((double) round / ROUNDS);
    double to = cooling.at((round + 1.0) / ROUNDS);
    if (budget.iterations() > 0) {
      long done = budget.iterations() * round / ROUNDS;
      long next = budget.iterations() * (round + 1) / ROUNDS;
      if (next > done) {
        searcher.run(next - done, from, to);
      }
    } else {
      long whole = (long) (budget.seconds() * 1e9);
      long start = cooling.begin() + whole * round / ROUNDS;
      long end = cooling.begin() + whole * (round + 1) / ROUNDS;
      searcher.runUntil(start, end, from, to);
    }
  }

  /** Lets every thread go on from the best current solution. */
  private static void meet(Searcher[] searchers) {
    Searcher leader = searchers[0];
    for (Searcher searcher : searchers) {
      if (searcher.current.total() < leader.current.total()) {
        leader = searcher;
      }
    }
    for (Searcher searcher : searchers) {
      if (searcher != leader) {
        searcher.adopt(leader.current);
      }
    }
  }

  private static double bestCost(Searcher[] searchers) {
    double best = Double.POSITIVE_INFINITY;
    for (Searcher searcher : searchers) {
      best = Math.min(best, searcher.best.total());
    }
    return best;
  }

  /** Each stop's nearest stops by driving time, itself first. */
  private static int[][] neighbours(DayProblem p) {
    int n = p.stops();
    int[][] near = new int[n][];
    for (int c = 0; c < n; c++) {
      int from = c;
      near[c] =
          IntStream.range(0, n)
              .boxed()
              .sorted(
                  Comparator.comparingDouble(o -> o == from ? -1 : p.legs()[p.leg(from, o) + 1]))
              .limit(NEIGHBOURS)
              .mapToInt(o -> o)
              .toArray();
    }
    return near;
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
