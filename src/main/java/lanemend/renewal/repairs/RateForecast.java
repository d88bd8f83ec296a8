package lanemend.renewal.repairs;

import lanemend.renewal.exposure.CellHistories;

/**
 * Expected repairs of a set of cells over coming years and how sure that is: the spread of the
 * cells' frailties after their histories, plus that of the fitted parameters by the delta method.
 */
public final class RateForecast {
  private final int years;
  private final int families;
  private final int unknown;
  private final double[][] meanByFamily;
  private final double[] mean;
  private final double[] variance;

  private RateForecast(int years, int families, int unknown) {
    this.years = years;
    this.families = families;
    this.unknown = unknown;
    meanByFamily = new double[years][families];
    mean = new double[years];
    variance = new double[years];
  }

  /** Forecasts {@code years} years from the end of the records, surfaces left as they are. */
  public static RateForecast of(RepairModel model, int[] cells, int years) {
    CellHistories h = model.histories();
    int unknown = 0;
    for (int i : cells) {
      unknown += Double.isNaN(h.ageNow(i)) ? 1 : 0;
    }
    RateForecast out = new RateForecast(years, h.families().size(), unknown);
    double[] ends = new double[years];
    for (int y = 0; y < years; y++) {
      ends[y] = y + 1;
    }
    Gradients gradients = new Gradients(years, out.families, model.weak().count());
    for (int i : cells) {
      if (!Double.isNaN(h.ageNow(i))) {
        out.add(model, i, ends, gradients);
      }
    }
    out.addParameters(model, gradients);
    return out;
  }

  /**
   * Repairs of the cells over windows of their own, for instance until each was resurfaced.
   *
   * @param windows years from the end of the records, by entry of {@code cells}
   */
  public static NegativeBinomial over(RepairModel model, int[] cells, double[] windows) {
    RateForecast out = new RateForecast(1, model.histories().families().size(), 0);
    Gradients gradients = new Gradients(1, out.families, model.weak().count());
    for (int k = 0; k < cells.length; k++) {
      out.add(model, cells[k], new double[] {windows[k]}, gradients);
    }
    out.addParameters(model, gradients);
    return out.count(1);
  }

  private void addParameters(RepairModel model, Gradients gradients) {
    for (int y = 0; y < years; y++) {
      for (int f = 0; f < families; f++) {
        if (gradients.byFamily[y][f] != null) {
          variance[y] += quadratic(gradients.byFamily[y][f], model.familyFit(f).covariance());
        }
      }
      for (int s = 0; s < gradients.bySection[y].length; s++) {
        double g = gradients.bySection[y][s];
        variance[y] += g * g * model.weak().logVariance(s);
      }
    }
  }

  private void add(RepairModel model, int i, double[] ends, Gradients gradients) {
    CellHistories h = model.histories();
    int f = h.family(i);
    FamilyFit fit = model.familyFit(f);
    double[] x = h.covariates(i);
    double mu = model.familyExpected(i);
    double muB = model.familyExpectedByLogShape(i);
    double kappa = fit.frailtyShape();
    boolean alike = Double.isInfinite(kappa);
    double n = h.repairs(i);
    double q = alike ? 1 : (kappa + n) / (kappa + mu);
    double family = alike ? 1 : kappa / (kappa + mu);
    double now = h.ageNow(i);
    double share = h.share(i) * model.level(i);
    int section = model.weak().section(i);
    double before = 0;
    for (int y = 0; y < years; y++) {
      double m = fit.expected(now, now + ends[y], share, x);
      double mB = fit.expectedByLogShape(now, now + ends[y], share, x);
      mean[y] += m * q;
      meanByFamily[y][f] += m * q - before;
      before = m * q;
      if (gradients.byFamily[y][f] == null) {
        gradients.byFamily[y][f] = new double[fit.theta().length];
      }
      double[] g = gradients.byFamily[y][f];
      if (section >= 0) {
        gradients.bySection[y][section] += m * q * family;
      }
      g[Likelihood.ETA] += m * q * family;
      g[Likelihood.LOG_SHAPE] += mB * q - (alike ? 0 : m * q * muB / (kappa + mu));
      if (!alike) {
        variance[y] += m * m * q / (kappa + mu);
        g[Likelihood.LOG_FRAILTY] += m * kappa * (1 - q) / (kappa + mu);
      }
      for (int k = 0; k < x.length; k++) {
        g[Likelihood.FIRST_COVARIATE + k] += m * q * family * x[k];
      }
    }
  }

  /** Derivatives of the sums by each family's parameters and by ln of each section's level. */
  private static final class Gradients {
    private final double[][][] byFamily;
    private final double[][] bySection;

    Gradients(int years, int families, int sections) {
      byFamily = new double[years][families][];
      bySection = new double[years][sections];
    }
  }

  private static double quadratic(double[] g, double[][] covariance) {
    double sum = 0;
    for (int a = 0; a < g.length; a++) {
      for (int b = 0; b < g.length; b++) {
        sum += g[a] * covariance[a][b] * g[b];
      }
    }
    return sum;
  }

  public int years() {
    return years;
  }

  /** Cells left out because their surfacing is not known. */
  public int unknownCells() {
    return unknown;
  }

  /** Repairs over the first {@code years} years. */
  public NegativeBinomial count(int ofYears) {
    return new NegativeBinomial(mean[ofYears - 1], variance[ofYears - 1]);
  }

  /** Expected repairs of family {@code f} in year {@code y} alone, years counted from 0. */
  public double inYear(int y, int f) {
    return meanByFamily[y][f];
  }

  public int families() {
    return families;
  }

  /** Variance of the set's rate over all years, as a share of its mean squared. */
  public double relativeVariance() {
    NegativeBinomial all = count(years);
    return all.mean() == 0 ? 0 : all.rateVariance() / (all.mean() * all.mean());
  }

  /**
   * Expected repairs by year and family of the same cells had they been surfaced anew at year 0.
   *
   * @param kept share of each cell's difference from its family that a new surface does not cure
   */
  public static double[][] resurfaced(RepairModel model, int[] cells, int years, double kept) {
    CellHistories h = model.histories();
    double[][] out = new double[years][h.families().size()];
    for (int i : cells) {
      int f = h.family(i);
      double multiplier = 1 + kept * (model.level(i) * model.outlook(i).multiplier() - 1);
      for (int y = 0; y < years; y++) {
        out[y][f] +=
            multiplier * model.familyFit(f).expected(y, y + 1, h.share(i), h.covariates(i));
      }
    }
    return out;
  }
}
