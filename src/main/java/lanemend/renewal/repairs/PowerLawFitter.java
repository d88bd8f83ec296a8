package lanemend.renewal.repairs;

import lanemend.renewal.exposure.CellHistories;
import org.hipparchus.exception.MathIllegalArgumentException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;

/**
 * Maximum likelihood by Newton's method with exact derivatives, damped (Levenberg) where the
 * likelihood is not concave and halved where a step does not climb.
 */
public final class PowerLawFitter {
  private static final int MAX_STEPS = 200;

  /** Largest change of a parameter in one step; all are on a log scale. */
  private static final double MAX_CHANGE = 2;

  /** Beyond this shape a frailty cannot be told from none. */
  private static final double NO_FRAILTY = Math.log(1e6);

  private PowerLawFitter() {}

  /**
   * Fits the given cells as one family.
   *
   * @throws IllegalArgumentException when there is no repair or no year watched to fit from
   */
  public static FamilyFit fit(
      String family, CellHistories histories, int[] cells, FitOptions options) {
    return fit(family, histories, cells, CellLevel.NONE, options);
  }

  /** The same with known levels of weak sections. */
  static FamilyFit fit(
      String family, CellHistories histories, int[] cells, CellLevel level, FitOptions options) {
    Likelihood likelihood = new Likelihood(histories, cells, level);
    if (likelihood.repairs() == 0 || !(likelihood.years() > 0)) {
      throw new IllegalArgumentException(
          "family '%s' has %d repairs in %.1f cell-years: nothing to fit"
              .formatted(family, likelihood.repairs(), likelihood.years()));
    }
    int p = likelihood.parameters();
    boolean[] free = new boolean[p];
    java.util.Arrays.fill(free, true);
    free[Likelihood.LOG_SHAPE] = options.fixedShape().isEmpty();
    free[Likelihood.LOG_FRAILTY] = false;
    double[] theta = new double[p];
    theta[Likelihood.LOG_SHAPE] = Math.log(options.fixedShape().orElse(1));
    theta[Likelihood.LOG_FRAILTY] = Double.POSITIVE_INFINITY;
    startLevel(likelihood, theta);
    Climb climb = new Climb(likelihood, free);
    Likelihood.At at = climb.up(theta);
    // The score of the frailty's variance at zero: not positive means the cells are no more
    // unlike than chance makes them, and the best variance is zero.
    if (options.frailty() && at.excess() > 0) {
      double[] alike = theta.clone();
      Likelihood.At withoutFrailty = at;
      theta[Likelihood.LOG_FRAILTY] = Math.log(at.squares() / at.excess());
      free[Likelihood.LOG_FRAILTY] = true;
      at = climb.up(theta);
      if (theta[Likelihood.LOG_FRAILTY] > NO_FRAILTY || at.value() < withoutFrailty.value()) {
        System.arraycopy(alike, 0, theta, 0, p);
        free[Likelihood.LOG_FRAILTY] = false;
        at = withoutFrailty;
      }
    }
    return new FamilyFit(
        family,
        likelihood.cells(),
        likelihood.repairs(),
        likelihood.years(),
        likelihood.referenceAge(),
        theta,
        covariance(at.hessian(), free),
        at.value(),
        climb.steps);
  }

  /** With the shape as it stands, the level that gives as many repairs as were seen. */
  private static void startLevel(Likelihood likelihood, double[] theta) {
    Likelihood.At at = likelihood.at(theta);
    double expected = likelihood.repairs() - at.gradient()[Likelihood.ETA];
    theta[Likelihood.ETA] += Math.log(likelihood.repairs() / expected);
  }

  private static final class Climb {
    private final Likelihood likelihood;
    private final boolean[] free;
    private int steps;

    Climb(Likelihood likelihood, boolean[] free) {
      this.likelihood = likelihood;
      this.free = free;
    }

    /** Moves {@code theta} to the maximum. */
    Likelihood.At up(double[] theta) {
      Likelihood.At at = likelihood.at(theta);
      for (int step = 0; step < MAX_STEPS; step++) {
        double[] direction = direction(at);
        double gain = dot(at.gradient(), direction);
        if (gain < 1e-10 * (1 + Math.abs(at.value()))) {
          // Too small to see in the value, but a last Newton step still doubles the digits.
          for (int j = 0; j < theta.length; j++) {
            theta[j] += direction[j];
          }
          return likelihood.at(theta);
        }
        Likelihood.At better = step(theta, direction, at);
        if (better == null) {
          return at;
        }
        at = better;
        steps++;
        if (theta[Likelihood.LOG_FRAILTY] > NO_FRAILTY
            && !Double.isInfinite(theta[Likelihood.LOG_FRAILTY])) {
          return at;
        }
      }
      throw new IllegalStateException(
          "the repair model did not settle in " + MAX_STEPS + " Newton steps");
    }

    private Likelihood.At step(double[] theta, double[] direction, Likelihood.At from) {
      double largest = 0;
      for (double d : direction) {
        largest = Math.max(largest, Math.abs(d));
      }
      double scale = Math.min(1, MAX_CHANGE / largest);
      for (int halving = 0; halving < 40; halving++, scale /= 2) {
        double[] next = theta.clone();
        for (int j = 0; j < next.length; j++) {
          next[j] += scale * direction[j];
        }
        Likelihood.At at = likelihood.at(next);
        if (at.value() > from.value()) {
          System.arraycopy(next, 0, theta, 0, next.length);
          return at;
        }
      }
      return null;
    }

    private double[] direction(Likelihood.At at) {
      int[] index = indices(free);
      RealMatrix information = information(at.hessian(), index);
      double[] g = new double[index.length];
      for (int j = 0; j < g.length; j++) {
        g[j] = at.gradient()[index[j]];
      }
      double scale = 1e-12 + information.getNorm1();
      double damping = 0;
      while (true) {
        RealMatrix damped =
            information.add(MatrixUtils.createRealIdentityMatrix(g.length).scalarMultiply(damping));
        try {
          double[] d =
              new CholeskyDecomposition(damped, 1e-9 * scale, 1e-13 * scale)
                  .getSolver()
                  .solve(new ArrayRealVector(g))
                  .toArray();
          double[] full = new double[free.length];
          for (int j = 0; j < d.length; j++) {
            full[index[j]] = d[j];
          }
          return full;
        } catch (MathIllegalArgumentException notPositiveDefinite) {
          damping = damping == 0 ? 1e-4 * scale : 10 * damping;
        }
      }
    }
  }

  private static int[] indices(boolean[] free) {
    return java.util.stream.IntStream.range(0, free.length).filter(j -> free[j]).toArray();
  }

  private static RealMatrix information(double[][] hessian, int[] index) {
    RealMatrix m = new Array2DRowRealMatrix(index.length, index.length);
    for (int a = 0; a < index.length; a++) {
      for (int b = 0; b < index.length; b++) {
        m.setEntry(a, b, -hessian[index[a]][index[b]]);
      }
    }
    return m;
  }

  /** Inverse of the observed information; rows of parameters held fixed are zero. */
  private static double[][] covariance(double[][] hessian, boolean[] free) {
    int[] index = indices(free);
    RealMatrix inverse = MatrixUtils.inverse(information(hessian, index));
    double[][] out = new double[free.length][free.length];
    for (int a = 0; a < index.length; a++) {
      for (int b = 0; b < index.length; b++) {
        out[index[a]][index[b]] = inverse.getEntry(a, b);
      }
    }
    return out;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int j = 0; j < a.length; j++) {
      sum += a[j] * b[j];
    }
    return sum;
  }
}
