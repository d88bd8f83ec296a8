package lanemend.renewal.hindcast;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.FitOptions;
import lanemend.renewal.repairs.NegativeBinomial;
import lanemend.renewal.repairs.RateForecast;
import lanemend.renewal.repairs.RepairModel;
import lanemend.renewal.sections.Cluster;
import lanemend.renewal.sections.FlaggedModel;
import lanemend.renewal.sections.ScanSettings;

/**
 * One hindcast: fitted on what was known, held against what came.
 *
 * @param years left out
 * @param repairs that came in them, in cells of known age
 * @param forecast of their total
 * @param stretches groups of cells the coverage is counted over
 * @param covered share of stretches whose count fell inside the 90 % interval, ends included
 * @param coverage the same with whole counts spread over their chance (Czado, Gneiting and Held
 *     2009): 0.90 for a perfect forecast, where {@code covered} is higher because counts are whole
 * @param scores of the model first, then of the simple ways
 * @param flags what became of the clusters flagged on the day
 */
public record Hindcast(
    int years,
    int repairs,
    NegativeBinomial forecast,
    int stretches,
    double covered,
    double coverage,
    List<Score> scores,
    List<FlagCheck> flags) {

  /** Nominal level of the intervals. */
  public static final double LEVEL = 0.90;

  private static final int CELLS_OF_A_STRETCH = 10;

  /**
   * How one way of foretelling did.
   *
   * @param deviance Poisson deviance over cells; less is better
   * @param lift share of the repairs that came on the worst 1, 2, 5, 10, 20 and 50 % of the length
   *     it named
   */
  public record Score(String name, double deviance, double[] lift) {}

  /** Shares of length the lift is read at. */
  public static final List<Double> LIFT_AT = List.of(0.01, 0.02, 0.05, 0.10, 0.20, 0.50);

  /**
   * A cluster flagged on the day and the years after.
   *
   * @param came repairs that came on it
   * @param familyExpected what its families would have had
   */
  public record FlagCheck(Cluster cluster, int came, double familyExpected) {
    /** True where it went on failing faster than its families. */
    public boolean wentOn() {
      return came > familyExpected;
    }
  }

  public Hindcast {
    scores = List.copyOf(scores);
    flags = List.copyOf(flags);
  }

  /** Fits, forecasts and compares; clusters are scanned for with {@code scan}. */
  public static Hindcast of(Holdout holdout, int years, FitOptions options, ScanSettings scan) {
    FlaggedModel flagged = FlaggedModel.of(holdout.known(), options, scan);
    RepairModel model = flagged.model();
    int came = java.util.Arrays.stream(holdout.repairs()).sum();
    double[] counts = coverage(model, holdout);
    return new Hindcast(
        years,
        came,
        RateForecast.over(model, holdout.cells(), holdout.windows()),
        (int) counts[0],
        counts[1] / counts[0],
        counts[2] / counts[0],
        Scores.of(model, holdout),
        flags(flagged, holdout));
  }

  /** Stretches, how many were covered, and their spread coverage. */
  private static double[] coverage(RepairModel model, Holdout h) {
    double[] out = new double[3];
    double low = (1 - LEVEL) / 2;
    int from = 0;
    while (from < h.cells().length) {
      int to = from;
      while (to < h.cells().length && sameStretch(h, from, to)) {
        to++;
      }
      int came = 0;
      for (int k = from; k < to; k++) {
        came += h.repairs()[k];
      }
      NegativeBinomial nb =
          RateForecast.over(
              model,
              java.util.Arrays.copyOfRange(h.cells(), from, to),
              java.util.Arrays.copyOfRange(h.windows(), from, to));
      double below = nb.cumulative(came - 1L);
      double upTo = nb.cumulative(came);
      out[0]++;
      out[1] += came >= nb.quantile(low) && came <= nb.quantile(1 - low) ? 1 : 0;
      double inside = Math.min(upTo, 1 - low) - Math.max(below, low);
      out[2] += upTo > below ? Math.max(0, inside) / (upTo - below) : 0;
      from = to;
    }
    return out;
  }

  private static boolean sameStretch(Holdout h, int from, int to) {
    CellHistories known = h.known();
    int a = h.cells()[from];
    int b = h.cells()[to];
    return known.cell(a).routeId().equals(known.cell(b).routeId())
        && known.cell(a).number() / CELLS_OF_A_STRETCH
            == known.cell(b).number() / CELLS_OF_A_STRETCH;
  }

  private static List<FlagCheck> flags(FlaggedModel flagged, Holdout h) {
    List<FlagCheck> out = new ArrayList<>();
    for (Cluster c : flagged.clusters()) {
      if (c.flagged()) {
        int came = 0;
        double expected = 0;
        for (int k = 0; k < h.cells().length; k++) {
          int i = h.cells()[k];
          double middle = (h.known().cell(i).fromAlongM() + h.known().cell(i).toAlongM()) / 2;
          if (h.known().cell(i).routeId().equals(c.routeId())
              && middle > c.fromAlongM()
              && middle < c.toAlongM()) {
            came += h.repairs()[k];
            expected += Scores.family(flagged.model(), i, h.windows()[k]);
          }
        }
        out.add(new FlagCheck(c, came, expected));
      }
    }
    return out;
  }

  /** What an engineer sees beside every flag. */
  public List<Figure> figures() {
    String source = "hindcast from this agency's own records; docs/renewal.md";
    Figure.Input left = new Figure.Input("years left out", years, Unit.YEAR);
    long wentOn = flags.stream().filter(FlagCheck::wentOn).count();
    List<Figure> out = new ArrayList<>();
    out.add(
        new Figure(
            "coverage of 90 % intervals",
            100 * coverage,
            Unit.PERCENT,
            "stretches whose repairs fell inside",
            List.of(left, new Figure.Input("stretches", stretches, Unit.COUNT)),
            source));
    out.add(
        new Figure(
            "flagged sections that went on failing",
            flags.isEmpty() ? 0 : 100.0 * wentOn / flags.size(),
            Unit.PERCENT,
            "flags with more repairs than their families / flags",
            List.of(left, new Figure.Input("flags", flags.size(), Unit.COUNT)),
            source));
    for (Score s : scores) {
      out.add(
          new Figure(
              "deviance of " + s.name(),
              s.deviance(),
              Unit.RATIO,
              "2 sum (y ln(y / m) - (y - m)) over cells",
              List.of(left, new Figure.Input("repairs", repairs, Unit.COUNT)),
              source));
    }
    return out;
  }
}
