package lanemend.bench;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import lanemend.crewdays.routing.DayKind;
import lanemend.crewdays.routing.DayProblem;
import lanemend.crewdays.routing.DaySearch;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.crewdays.routing.SearchProgress;
import lanemend.crewdays.routing.SearchResult;

/** Published vehicle routing instances through the search that plans crew days. */
final class RoutingBench {
  /** Fixed before any run that was reported. */
  private static final long SEED = 1;

  private RoutingBench() {}

  static void run(Path folder, double seconds, PrintStream out) throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.list(folder)) {
      files = all.filter(f -> f.toString().endsWith(".vrp")).sorted().toList();
    }
    out.println("instance,cost,routes,seconds");
    for (Path file : files) {
      VrpFile instance = VrpFile.read(file);
      DayProblem problem = problem(instance);
      long start = System.nanoTime();
      SearchResult result =
          DaySearch.solve(problem, SearchBudget.seconds(seconds, SEED), SearchProgress.NONE);
      double took = (System.nanoTime() - start) / 1e9;
      prove(instance, result);
      out.printf(
          Locale.ROOT,
          "%s,%.4f,%d,%.1f%n",
          instance.name(),
          length(instance, result),
          result.days().size(),
          took);
    }
  }

  private static DayProblem problem(VrpFile f) {
    int n = f.x().length - 1;
    int places = n + 1;
    double[] legs = new double[2 * places * places];
    for (int a = 0; a < places; a++) {
      for (int b = 0; b < places; b++) {
        double d = distance(f, node(a, n), node(b, n));
        legs[2 * (a * places + b)] = d;
        legs[2 * (a * places + b) + 1] = d;
      }
    }
    double[] demand = Arrays.copyOfRange(f.demand(), 1, n + 1);
    double[] service = new double[n];
    Arrays.fill(service, f.service());
    double[] skip = new double[n];
    Arrays.fill(skip, 1e9);
    DayProblem.Slot[] slots = new DayProblem.Slot[n];
    Arrays.fill(slots, new DayProblem.Slot(0, 0, new int[] {0}));
    return new DayProblem(
        n,
        1,
        legs,
        new DayKind[] {DayKind.plain(0, f.limit(), f.capacity())},
        slots,
        new double[][] {service},
        new double[1][n],
        demand,
        new double[1][n],
        DayProblem.Shared.nothing(n, 1),
        skip,
        null);
  }

  private static int node(int place, int stops) {
    return place == stops ? 0 : place + 1;
  }

  private static double distance(VrpFile f, int a, int b) {
    return Math.hypot(f.x()[a] - f.x()[b], f.y()[a] - f.y()[b]);
  }

  private static double length(VrpFile f, SearchResult result) {
    return result.days().stream().mapToDouble(d -> length(f, d.stops())).sum();
  }

  private static double length(VrpFile f, List<Integer> stops) {
    double sum = 0;
    int from = 0;
    for (int stop : stops) {
      sum += distance(f, from, stop + 1);
      from = stop + 1;
    }
    return sum + distance(f, from, 0);
  }

  /** Counts every limit again from the file. */
  private static void prove(VrpFile f, SearchResult result) {
    boolean[] seen = new boolean[f.x().length];
    int served = 0;
    for (SearchResult.Day day : result.days()) {
      double load = 0;
      for (int stop : day.stops()) {
        load += f.demand()[stop + 1];
        served += seen[stop + 1] ? 0 : 1;
        seen[stop + 1] = true;
      }
      double length = length(f, day.stops()) + f.service() * day.stops().size();
      if (load > f.capacity() || length > f.limit() + 1e-6) {
        throw new IllegalStateException(f.name() + ": a route breaks its limits");
      }
    }
    if (served != f.x().length - 1) {
      throw new IllegalStateException(f.name() + ": " + served + " stops served");
    }
  }
}
