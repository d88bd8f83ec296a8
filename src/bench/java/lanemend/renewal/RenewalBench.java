package lanemend.renewal;

import com.sun.management.OperatingSystemMXBean;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import lanemend.renewal.SimulatedCounty.Planted;
import lanemend.renewal.SimulatedCounty.Truth;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.hindcast.Holdout;
import lanemend.renewal.repairs.FamilyFit;
import lanemend.renewal.repairs.FitOptions;
import lanemend.renewal.repairs.PowerLawFitter;
import lanemend.renewal.repairs.RepairModel;
import lanemend.renewal.sections.Cluster;
import lanemend.renewal.sections.ClusterScan;
import lanemend.renewal.sections.FlaggedModel;
import lanemend.renewal.sections.ScanSettings;
import lanemend.renewal.sections.Strip;

/**
 * Full-size runs behind the reduced tests. What: {@code size} (time by number of cells),
 * {@code recover} (200 counties), {@code nulls} (flags where nothing is planted), {@code planted}
 * (found and false flags), {@code hindcast}. Each prints CSV.
 */
public final class RenewalBench {
  private static final Truth TRUTH = new Truth(0.02, 1.6, 0.8);

  private static PrintStream out = System.out;

  private RenewalBench() {}

  /** Runs the named benchmark. */
  public static void run(String what, PrintStream to) {
    out = to;
    switch (what) {
      case "size" -> size();
      case "recover" -> recover(200);
      case "nulls" -> flags(200, List.of());
      case "planted" -> flags(200, PLANTED);
      case "hindcast" -> hindcast(20);
      default -> throw new IllegalArgumentException("no renewal benchmark " + what);
    }
  }

  private static final List<Planted> PLANTED =
      List.of(new Planted(2, 10, 30, 3), new Planted(7, 40, 50, 3), new Planted(13, 60, 75, 3));

  private static void size() {
    out.println("cells,repairs,fit_s,flag_s,total_s,processor_s,flags");
    for (int routes : new int[] {50, 50, 500, 5000}) {
      CellHistories h = SimulatedCounty.split(TRUTH, routes, 8, 1, List.of(), 3).before();
      long cpu = processorNanos();
      long start = System.nanoTime();
      RepairModel model = RepairModel.fit(h, FitOptions.FULL);
      long fitted = System.nanoTime();
      List<Cluster> clusters = ClusterScan.scan(Strip.of(model), ScanSettings.standard());
      long done = System.nanoTime();
      out.printf(
          Locale.ROOT,
          "%d,%d,%.2f,%.2f,%.2f,%.2f,%d%n",
          h.size(),
          h.allRepairs(),
          (fitted - start) / 1e9,
          (done - fitted) / 1e9,
          (done - start) / 1e9,
          (processorNanos() - cpu) / 1e9,
          clusters.stream().filter(Cluster::flagged).count());
    }
  }

  /** All threads together: on a busy machine the clock says little. */
  private static long processorNanos() {
    return ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getProcessCpuTime();
  }

  private static void recover(int counties) {
    double[] wanted = {Math.log(TRUTH.a()), TRUTH.b(), Math.log(TRUTH.frailtyVariance())};
    String[] names = {"ln a", "b", "ln frailty variance"};
    double[] mean = new double[3];
    double[] squares = new double[3];
    int[] covered = new int[3];
    for (int s = 0; s < counties; s++) {
      CellHistories h = SimulatedCounty.draw(List.of(TRUTH), 2000, 8, 1000 + s);
      FamilyFit f =
          PowerLawFitter.fit("one", h, IntStream.range(0, h.size()).toArray(), FitOptions.FULL);
      double[] got = {Math.log(f.scale()), f.shape(), Math.log(f.frailtyVariance())};
      double[] error = {
        f.scaleError() / f.scale(), f.shapeError(), f.frailtyVarianceError() / f.frailtyVariance()
      };
      for (int j = 0; j < 3; j++) {
        mean[j] += got[j] / counties;
        squares[j] += got[j] * got[j] / counties;
        covered[j] += Math.abs(got[j] - wanted[j]) < 1.644854 * error[j] ? 1 : 0;
      }
    }
    out.println("parameter,truth,mean,bias_in_se,coverage_of_90");
    for (int j = 0; j < 3; j++) {
      double se = Math.sqrt((squares[j] - mean[j] * mean[j]) / counties);
      out.printf(
          Locale.ROOT,
          "%s,%.4f,%.4f,%.2f,%.3f%n",
          names[j],
          wanted[j],
          mean[j],
          (mean[j] - wanted[j]) / se,
          covered[j] / (double) counties);
    }
  }

  private static void flags(int counties, List<Planted> planted) {
    int flagged = 0;
    int countiesWithFlag = 0;
    int falseFlags = 0;
    double shareFalse = 0;
    int found = 0;
    for (int s = 0; s < counties; s++) {
      CellHistories h = SimulatedCounty.split(TRUTH, 20, 8, 1, planted, 5000 + s).before();
      List<Cluster> all =
          FlaggedModel.of(h, FitOptions.FULL, ScanSettings.standard()).clusters().stream()
              .filter(Cluster::flagged)
              .toList();
      long wrong = all.stream().filter(c -> planted.stream().noneMatch(p -> on(c, p))).count();
      flagged += all.size();
      falseFlags += (int) wrong;
      countiesWithFlag += all.isEmpty() ? 0 : 1;
      shareFalse += all.isEmpty() ? 0 : (double) wrong / all.size() / counties;
      found += (int) planted.stream().filter(p -> all.stream().anyMatch(c -> on(c, p))).count();
    }
    out.println("counties,with_a_flag,flags,false_flags,mean_false_share,planted_found");
    out.printf(
        Locale.ROOT,
        "%d,%.3f,%d,%d,%.4f,%.3f%n",
        counties,
        countiesWithFlag / (double) counties,
        flagged,
        falseFlags,
        shareFalse,
        planted.isEmpty() ? 0 : found / (double) (counties * planted.size()));
  }

  private static boolean on(Cluster c, Planted p) {
    return c.routeId().equals("SR " + p.route())
        && c.fromAlongM() < p.toCell() * 160.9344
        && c.toAlongM() > p.fromCell() * 160.9344;
  }

  private static void hindcast(int counties) {
    out.println(
        "years,coverage,covered_whole,model,last_year,mean_rate,worst_first,family,lift10_model,"
            + "lift10_last_year,lift10_worst_first");
    for (int years = 1; years <= 3; years++) {
      double[] sum = new double[10];
      for (int s = 0; s < counties; s++) {
        SimulatedCounty.Split split =
            SimulatedCounty.split(TRUTH, 20, 8, years, PLANTED, 9000 + 10 * s + years);
        Hindcast h =
            Hindcast.of(
                Holdout.of(split.before(), split.after(), 0),
                years,
                FitOptions.FULL,
                ScanSettings.standard());
        double[] row = {
          h.coverage(),
          h.covered(),
          h.scores().get(0).deviance(),
          h.scores().get(1).deviance(),
          h.scores().get(2).deviance(),
          h.scores().get(3).deviance(),
          h.scores().get(4).deviance(),
          h.scores().get(0).lift()[3],
          h.scores().get(1).lift()[3],
          h.scores().get(3).lift()[3]
        };
        for (int j = 0; j < row.length; j++) {
          sum[j] += row[j] / counties;
        }
      }
      out.printf(
          Locale.ROOT,
          "%d,%.3f,%.3f,%.1f,%.1f,%.1f,%.1f,%.1f,%.3f,%.3f,%.3f%n",
          years,
          sum[0],
          sum[1],
          sum[2],
          sum[3],
          sum[4],
          sum[5],
          sum[6],
          sum[7],
          sum[8],
          sum[9]);
    }
  }
}
