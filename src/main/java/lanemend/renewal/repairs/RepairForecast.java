package lanemend.renewal.repairs;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * Repairs, tonnes and cost of a set of cells over 1 to n years. Counts are negative binomial;
 * tonnes and cost are drawn: one rate for the set, counts by year, a tonnage for each repair.
 *
 * @param rates what counts are drawn from
 * @param horizons entry k covers the first k + 1 years
 * @param paths drawn futures, by draw and year
 */
public record RepairForecast(RateForecast rates, List<Horizon> horizons, Paths paths) {

  /** A mean with its interval. */
  public record Range(double mean, double low, double high) {}

  /** The first {@code years} years together. */
  public record Horizon(int years, Range repairs, Range tonnes, Range cost) {}

  /** Cost and repairs drawn by draw and year (money undiscounted). */
  public record Paths(double[][] cost, double[][] repairs, double[][] tonnes) {}

  /** How futures are drawn. */
  public record Draws(int number, long seed, double level) {
    /** 4,000 draws, 90 % intervals. */
    public static final Draws STANDARD = new Draws(4000, 20_260_101L, 0.90);
  }

  public RepairForecast {
    horizons = List.copyOf(horizons);
  }

  /** Forecasts the cells from the end of the records. */
  public static RepairForecast of(
      RepairModel model, int[] cells, int years, RepairCost cost, Draws draws) {
    RateForecast rates = RateForecast.of(model, cells, years);
    Paths paths = draw(model, rates, cost, draws);
    List<Horizon> horizons = new ArrayList<>();
    double tail = (1 - draws.level()) / 2;
    for (int k = 1; k <= years; k++) {
      NegativeBinomial count = rates.count(k);
      horizons.add(
          new Horizon(
              k,
              new Range(count.mean(), count.quantile(tail), count.quantile(1 - tail)),
              range(paths.tonnes(), k, tail),
              range(paths.cost(), k, tail)));
    }
    return new RepairForecast(rates, horizons, paths);
  }

  private static Range range(double[][] byYear, int years, double tail) {
    double[] sums = new double[byYear.length];
    for (int d = 0; d < sums.length; d++) {
      for (int y = 0; y < years; y++) {
        sums[d] += byYear[d][y];
      }
    }
    Arrays.sort(sums);
    double mean = Arrays.stream(sums).sum() / sums.length;
    return new Range(mean, at(sums, tail), at(sums, 1 - tail));
  }

  private static double at(double[] sorted, double chance) {
    int i = (int) Math.ceil(chance * sorted.length) - 1;
    return sorted[Math.max(0, Math.min(sorted.length - 1, i))];
  }

  private static Paths draw(RepairModel model, RateForecast rates, RepairCost cost, Draws draws) {
    SplittableRandom seeds = new SplittableRandom(draws.seed());
    int years = rates.years();
    double[][] money = new double[draws.number()][years];
    double[][] repairs = new double[draws.number()][years];
    double[][] tonnes = new double[draws.number()][years];
    double spread = rates.relativeVariance();
    Sampling sampling = new Sampling(seeds.split());
    for (int d = 0; d < draws.number(); d++) {
      double multiplier = sampling.gammaWithMeanOne(spread);
      for (int f = 0; f < rates.families(); f++) {
        TonsModel.Law law = model.tons().of(f);
        double logMean = law.logMean() + law.logMeanError() * sampling.normal();
        for (int y = 0; y < years; y++) {
          long n = sampling.poisson(multiplier * rates.inYear(y, f));
          double t = law.repairs() == 0 ? 0 : sampling.lognormals(n, logMean, law.logSd());
          repairs[d][y] += n;
          tonnes[d][y] += t;
          money[d][y] += n * cost.perRepair() + t * cost.perTonne();
        }
      }
    }
    return new Paths(money, repairs, tonnes);
  }

  /** The forecast of the first {@code years} years as an engineer reads it. */
  public List<Figure> figures(int years) {
    Horizon h = horizons.get(years - 1);
    String source = "negative binomial forecast of the fitted repair model; docs/renewal.md";
    return List.of(
        figure("repairs expected", h.repairs(), Unit.COUNT, "sum over cells of rate", h, source),
        figure("mix expected", h.tonnes(), Unit.TONNE, "repairs times lognormal tonnes", h, source),
        figure(
            "cost of patching",
            h.cost(),
            Unit.MONEY,
            "repairs times cost each plus tonnes times cost each, not discounted",
            h,
            source));
  }

  private static Figure figure(
      String name, Range range, Unit unit, String formula, Horizon h, String source) {
    return new Figure(
        name,
        range.mean(),
        unit,
        formula,
        List.of(
            new Figure.Input("years", h.years(), Unit.YEAR),
            new Figure.Input("low", range.low(), unit),
            new Figure.Input("high", range.high(), unit)),
        source);
  }
}
