package lanemend.network;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Locale;
import lanemend.inventory.RoadAttributes;
import lanemend.store.Store;

/** Simulated patrols on a store's roads: how many fixes are put on the road they were taken on. */
public final class TrackBench {
  private static final double[] ERRORS_M = {3, 5, 8, 12, 20};
  private static final double[] SECONDS = {1, 5, 15};
  private static final double DRIVE_M = 15_000;

  private TrackBench() {}

  /** Prints CSV; the peer of each row is each fix put on its nearest road by itself. */
  public static void run(Path storeFile, int drives, PrintStream out) {
    Network network;
    RoadAttributes attributes;
    try (Store store = Store.open(storeFile)) {
      network = store.read(s -> s.network());
      attributes = new RoadAttributes(store.read(s -> s.attributes().all()));
    }
    HaulGraph graph = HaulGraph.build(network, attributes);
    TrackMatcher matcher = new TrackMatcher(network, graph);
    out.println(
        "error_m,seconds_apart,fixes,right,clearly_wrong,unclear,unclear_wrong,unsaid,nearest_right,"
            + "fixes_per_second");
    for (double seconds : SECONDS) {
      for (double error : ERRORS_M) {
        SimulatedPatrol.Score sum = new SimulatedPatrol.Score(0, 0, 0, 0, 0, 0);
        double nearest = 0;
        double took = 0;
        for (int d = 0; d < drives; d++) {
          SimulatedPatrol patrol =
              new SimulatedPatrol(graph, DRIVE_M, seconds, error, 20, 1_000L * d + (long) error);
          long start = System.nanoTime();
          TrackMatch match = matcher.match(patrol.fixes, TrackSettings.STANDARD);
          took += (System.nanoTime() - start) / 1e9;
          sum = sum.plus(patrol.score(match));
          nearest += patrol.nearestShare() * patrol.fixes.size();
        }
        double n = sum.fixes();
        out.printf(
            Locale.ROOT,
            "%.0f,%.0f,%d,%.4f,%.4f,%.4f,%.4f,%.4f,%.4f,%.0f%n",
            error,
            seconds,
            sum.fixes(),
            sum.right() / n,
            sum.clearlyWrong() / n,
            sum.unclear() / n,
            sum.unclearWrong() / n,
            sum.unsaid() / n,
            nearest / n,
            n / took);
      }
    }
  }
}
