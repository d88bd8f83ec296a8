package lanemend.renewal.repairs;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * The fitted model of one family, for a whole cell: expected repairs from age u to v are {@code
 * e^(x gamma) a (v^b - u^b)}, times the cell's frailty, gamma with mean 1 and shape kappa.
 *
 * @param years cell-years watched, short cells counted by their share
 * @param referenceAge T, years; the level is {@code ln(a T^b)}
 * @param theta level, ln b, ln kappa (infinite where cells are alike), then covariate effects
 * @param covariance of theta, zero in the rows of what was held fixed
 */
public record FamilyFit(
    String family,
    int cells,
    int repairs,
    double years,
    double referenceAge,
    double[] theta,
    double[][] covariance,
    double logLikelihood,
    int newtonSteps) {

  /** The power b of age: above 1 a surface wears out faster as it ages. */
  public double shape() {
    return Math.exp(theta[Likelihood.LOG_SHAPE]);
  }

  public double shapeError() {
    return shape() * Math.sqrt(covariance[Likelihood.LOG_SHAPE][Likelihood.LOG_SHAPE]);
  }

  /** a: expected repairs of a whole cell in its first year. */
  public double scale() {
    return Math.exp(theta[Likelihood.ETA] - shape() * Math.log(referenceAge));
  }

  /** Standard error of a by the delta method. */
  public double scaleError() {
    double byShape = -shape() * Math.log(referenceAge);
    double variance =
        covariance[0][0] + 2 * byShape * covariance[0][1] + byShape * byShape * covariance[1][1];
    return scale() * Math.sqrt(variance);
  }

  /** kappa, the shape of the frailty; infinite where the cells are alike. */
  public double frailtyShape() {
    return Math.exp(theta[Likelihood.LOG_FRAILTY]);
  }

  /** Variance of the frailty among cells, 1 / kappa. */
  public double frailtyVariance() {
    return 1 / frailtyShape();
  }

  public double frailtyVarianceError() {
    return frailtyVariance()
        * Math.sqrt(covariance[Likelihood.LOG_FRAILTY][Likelihood.LOG_FRAILTY]);
  }

  public double effect(int covariate) {
    return theta[Likelihood.FIRST_COVARIATE + covariate];
  }

  public double effectError(int covariate) {
    int k = Likelihood.FIRST_COVARIATE + covariate;
    return Math.sqrt(covariance[k][k]);
  }

  /** Expected repairs of an average cell of this share and covariates from one age to another. */
  public double expected(double fromAge, double toAge, double share, double[] covariates) {
    double log = theta[Likelihood.ETA];
    for (int k = 0; k < covariates.length; k++) {
      log += effect(k) * covariates[k];
    }
    return Math.exp(log) * share * (power(toAge) - power(fromAge));
  }

  /** Derivative of {@link #expected} by ln b. */
  double expectedByLogShape(double fromAge, double toAge, double share, double[] covariates) {
    double log = theta[Likelihood.ETA];
    for (int k = 0; k < covariates.length; k++) {
      log += effect(k) * covariates[k];
    }
    return Math.exp(log) * share * shape() * (powerLog(toAge) - powerLog(fromAge));
  }

  private double power(double age) {
    return Math.pow(age / referenceAge, shape());
  }

  private double powerLog(double age) {
    return age == 0 ? 0 : power(age) * Math.log(age / referenceAge);
  }

  /** The fit as an engineer reads it, each number with its standard error as an input. */
  public List<Figure> figures() {
    String source =
        "power-law process (MIL-HDBK-189C) with gamma frailty, maximum likelihood; see docs/renewal.md";
    List<Figure.Input> from =
        List.of(
            new Figure.Input("repairs", repairs, Unit.COUNT),
            new Figure.Input("cell-years", years, Unit.YEAR));
    return List.of(
        new Figure(
            "power of age",
            shape(),
            Unit.RATIO,
            "b in a t^b; standard error from the curvature of the likelihood",
            with(from, "standard error", shapeError()),
            source),
        new Figure(
            "repairs of a cell in its first year",
            scale(),
            Unit.RATIO,
            "a in a t^b",
            with(from, "standard error", scaleError()),
            source),
        new Figure(
            "spread among cells",
            frailtyVariance(),
            Unit.RATIO,
            "variance of the cells' multipliers, 1 / kappa; 0 where they differ no more than chance",
            with(from, "standard error", frailtyVarianceError()),
            source));
  }

  private static List<Figure.Input> with(List<Figure.Input> from, String name, double value) {
    List<Figure.Input> all = new java.util.ArrayList<>(from);
    all.add(new Figure.Input(name, value, Unit.RATIO));
    return all;
  }
}
