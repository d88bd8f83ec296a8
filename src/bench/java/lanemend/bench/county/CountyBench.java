package lanemend.bench.county;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import lanemend.cli.Commands;
import lanemend.county.County;
import lanemend.crewdays.CountyCase;
import lanemend.crewdays.CountyCases;
import lanemend.crewdays.Haul;
import lanemend.patching.traffic.TrafficPlanner;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import lanemend.store.Store;

/** Invented counties through the search and three general-purpose solvers, one after another. */
public final class CountyBench {
  private CountyBench() {}

  /**
   * Runs sizes through solvers.
   *
   * @param sizes open defects, separated by commas
   * @param only solvers by name, separated by commas; empty for all
   */
  public static void run(String sizes, double seconds, String only, PrintStream out)
      throws IOException {
    Map<String, CountySolver> solvers = new LinkedHashMap<>();
    solvers.put("lanemend", new OwnSearch());
    solvers.put("or-tools", new OrTools());
    solvers.put("jsprit", new JspritPeer());
    solvers.put("timefold", new TimefoldPeer());
    if (!only.isEmpty()) {
      solvers.put("exact", new ExactAnswer());
      solvers.keySet().retainAll(List.of(only.split(",", -1)));
    }
    out.println("size,solver,cost,left_out,crew_days,seconds");
    for (String size : sizes.split(",", -1)) {
      CountyCase county = invent(Integer.parseInt(size));
      System.err.printf(
          "%s defects: %d zones, %d crews%n", size, county.zones(), county.crews().length);
      for (Map.Entry<String, CountySolver> solver : solvers.entrySet()) {
        System.gc();
        long start = System.nanoTime();
        List<CountyCase.Day> days = solver.getValue().solve(county, seconds);
        double took = (System.nanoTime() - start) / 1e9;
        Evaluator.Cost cost = Evaluator.of(county, days);
        out.printf(
            Locale.ROOT,
            "%s,%s,%.2f,%d,%d,%.1f%n",
            size,
            solver.getKey(),
            cost.cost(),
            cost.leftOut(),
            cost.crewDays(),
            took);
      }
    }
  }

  private static CountyCase invent(int defects) throws IOException {
    Path folder = Files.createTempDirectory("county");
    try {
      Path files = folder.resolve("county");
      SampleCounty.write(files, SampleSize.withDefects(defects), SampleCounty.STANDARD_SEED);
      Commands.importCounty(files, folder);
      try (Store store = Store.open(folder.resolve("lanemend.gpkg"))) {
        County county = County.read(store);
        return CountyCases.of(
            defects,
            Haul.over(county.haulGraph()),
            county.agency(),
            new TrafficPlanner(county.settings())::plan,
            county.repairs());
      }
    } finally {
      List<Path> files;
      try (Stream<Path> all = Files.walk(folder)) {
        files = all.sorted(Comparator.reverseOrder()).toList();
      }
      for (Path file : files) {
        Files.delete(file);
      }
    }
  }
}
