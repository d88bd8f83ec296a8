package lanemend.bench.county;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import lanemend.crewdays.CountyCase;

/** Runs searches of a solver that knows one thread side by side and takes the best answer. */
final class Portfolio {
  /** One search. */
  interface Search {
    List<CountyCase.Day> run();
  }

  private Portfolio() {}

  static List<CountyCase.Day> best(CountyCase c, List<Search> searches) {
    ExecutorService pool = Executors.newFixedThreadPool(searches.size());
    try {
      List<Future<List<CountyCase.Day>>> running = new ArrayList<>();
      for (Search search : searches) {
        running.add(pool.submit(search::run));
      }
      List<CountyCase.Day> best = List.of();
      double least = Double.POSITIVE_INFINITY;
      for (Future<List<CountyCase.Day>> one : running) {
        double cost = Evaluator.of(c, one.get()).cost();
        if (cost < least) {
          least = cost;
          best = one.get();
        }
      }
      return best;
    } catch (InterruptedException | ExecutionException e) {
      throw new IllegalStateException("a peer failed", e);
    } finally {
      pool.shutdownNow();
    }
  }
}
