package lanemend.renewal.repairs;

import java.util.stream.IntStream;
import lanemend.renewal.exposure.CellHistories;

/**
 * Log-likelihood of one family's histories with gradient and Hessian.
 *
 * <p>A cell's expected repairs are {@code mu = e^eta e^(x gamma) share sum((v/T)^beta -
 * (u/T)^beta)} over its spells from age u to v; its frailty is gamma with mean 1 and shape kappa,
 * integrated out. Parameters in order: eta, ln beta, ln kappa, gamma. Ages are scaled by a
 * reference age T (the geometric mean age at repair) so that eta and beta are nearly uncorrelated.
 */
final class Likelihood {
  static final int ETA = 0;
  static final int LOG_SHAPE = 1;
  static final int LOG_FRAILTY = 2;
  static final int FIRST_COVARIATE = 3;

  private static final int CHUNK = 8192;

  private final CellHistories histories;
  private final int[] cells;
  private final double[] share;
  private final int parameters;
  private final double referenceAge;
  private final double[] logFrom;
  private final double[] logTo;
  private final int[] spellOf;
  private final int repairs;
  private final int mostRepairs;
  private final double[] repairsByCovariate;
  private final double sumLogAge;
  private final double constant;
  private final double years;

  /** {@code level} multiplies a cell's rate by what its weak section is known to have. */
  Likelihood(CellHistories histories, int[] cells, CellLevel level) {
    this.histories = histories;
    this.cells = cells;
    share =
        java.util.Arrays.stream(cells).mapToDouble(i -> histories.share(i) * level.of(i)).toArray();
    int covariates = histories.size() == 0 ? 0 : histories.covariates(0).length;
    parameters = FIRST_COVARIATE + covariates;
    repairsByCovariate = new double[covariates];
    int n = 0;
    int most = 0;
    int spells = 0;
    double logs = 0;
    double logShares = 0;
    double watched = 0;
    for (int c = 0; c < cells.length; c++) {
      int i = cells[c];
      int own = histories.repairs(i);
      n += own;
      most = Math.max(most, own);
      spells += histories.firstSpell(i + 1) - histories.firstSpell(i);
      logShares += own * Math.log(share[c]);
      watched += histories.share(i) * histories.yearsWatched(i);
      for (int r = histories.firstRepair(i); r < histories.firstRepair(i + 1); r++) {
        logs += Math.log(histories.repairAge(r));
      }
      for (int k = 0; k < covariates; k++) {
        repairsByCovariate[k] += own * histories.covariates(i)[k];
      }
    }
    repairs = n;
    mostRepairs = most;
    years = watched;
    referenceAge = n == 0 ? 10 : Math.exp(logs / n);
    // By the choice of the reference age the sum of ln(t / T) over the repairs is zero but for
    // rounding.
    sumLogAge = logs - n * Math.log(referenceAge);
    constant = logShares - n * Math.log(referenceAge);
    logFrom = new double[spells];
    logTo = new double[spells];
    spellOf = new int[cells.length + 1];
    packSpells();
  }

  private void packSpells() {
    int at = 0;
    for (int c = 0; c < cells.length; c++) {
      spellOf[c] = at;
      for (int s = histories.firstSpell(cells[c]); s < histories.firstSpell(cells[c] + 1); s++) {
        logFrom[at] = Math.log(histories.fromAge(s) / referenceAge);
        logTo[at++] = Math.log(histories.toAge(s) / referenceAge);
      }
    }
    spellOf[cells.length] = at;
  }

  int parameters() {
    return parameters;
  }

  double referenceAge() {
    return referenceAge;
  }

  int repairs() {
    return repairs;
  }

  double years() {
    return years;
  }

  int cells() {
    return cells.length;
  }

  /** A value with its gradient and Hessian, and the two moments that start the frailty. */
  record At(double value, double[] gradient, double[][] hessian, double excess, double squares) {}

  /** Evaluates at {@code theta}; frailty is left out when {@code kappa} is infinite. */
  At at(double[] theta) {
    double kappa = Math.exp(theta[LOG_FRAILTY]);
    boolean frailty = !Double.isInfinite(kappa);
    double[][] tables = frailty ? tables(kappa) : new double[3][mostRepairs + 1];
    int chunks = (cells.length + CHUNK - 1) / CHUNK;
    double[][] parts =
        IntStream.range(0, chunks)
            .parallel()
            .mapToObj(
                k -> {
                  Sums sums = new Sums(parameters);
                  int end = Math.min(cells.length, (k + 1) * CHUNK);
                  for (int c = k * CHUNK; c < end; c++) {
                    cell(c, theta, kappa, frailty, tables, sums);
                  }
                  return sums.flat;
                })
            .toArray(double[][]::new);
    Sums total = new Sums(parameters);
    for (double[] part : parts) {
      for (int j = 0; j < part.length; j++) {
        total.flat[j] += part[j];
      }
    }
    addRepairs(theta, total);
    return total.at();
  }

  /** ln, first and second derivative of gamma(kappa + n) / gamma(kappa) by n. */
  private double[][] tables(double kappa) {
    double[][] t = new double[3][mostRepairs + 1];
    for (int n = 1; n <= mostRepairs; n++) {
      // By the recurrence of gamma, exact where differences of digammas of a large kappa cancel.
      double k = kappa + n - 1;
      t[0][n] = t[0][n - 1] + Math.log(k);
      t[1][n] = t[1][n - 1] + 1 / k;
      t[2][n] = t[2][n - 1] - 1 / (k * k);
    }
    return t;
  }

  private void cell(
      int c, double[] theta, double kappa, boolean frailty, double[][] tables, Sums sums) {
    double beta = Math.exp(theta[LOG_SHAPE]);
    double h = 0;
    double h1 = 0;
    double h2 = 0;
    for (int s = spellOf[c]; s < spellOf[c + 1]; s++) {
      double to = Math.exp(beta * logTo[s]);
      h += to;
      h1 += to * logTo[s];
      h2 += to * logTo[s] * logTo[s];
      if (logFrom[s] != Double.NEGATIVE_INFINITY) {
        double from = Math.exp(beta * logFrom[s]);
        h -= from;
        h1 -= from * logFrom[s];
        h2 -= from * logFrom[s] * logFrom[s];
      }
    }
    if (spellOf[c] == spellOf[c + 1]) {
      return;
    }
    int i = cells[c];
    double[] x = histories.covariates(i);
    double log = theta[ETA];
    for (int k = 0; k < x.length; k++) {
      log += theta[FIRST_COVARIATE + k] * x[k];
    }
    double level = Math.exp(log) * share[c];
    double mu = level * h;
    double muB = level * beta * h1;
    double muBb = level * (beta * h1 + beta * beta * h2);
    int n = histories.repairs(i);
    double q = frailty ? (kappa + n) / (kappa + mu) : 1;
    double curve = frailty ? q / (kappa + mu) : 0;
    if (frailty) {
      frailty(kappa, mu, muB, n, x, tables, sums);
    } else {
      sums.value(-mu);
    }
    sums.moments((n - mu) * (n - mu) - n, mu * mu);
    sums.add(ETA, -q * mu);
    sums.add(LOG_SHAPE, -q * muB);
    sums.add(ETA, ETA, curve * mu * mu - q * mu);
    sums.add(ETA, LOG_SHAPE, curve * mu * muB - q * muB);
    sums.add(LOG_SHAPE, LOG_SHAPE, curve * muB * muB - q * muBb);
    for (int k = 0; k < x.length; k++) {
      int g = FIRST_COVARIATE + k;
      sums.add(g, -q * mu * x[k]);
      sums.add(ETA, g, (curve * mu * mu - q * mu) * x[k]);
      sums.add(LOG_SHAPE, g, (curve * mu * muB - q * muB) * x[k]);
      for (int m = 0; m <= k; m++) {
        sums.add(FIRST_COVARIATE + m, g, (curve * mu * mu - q * mu) * x[k] * x[m]);
      }
    }
  }

  private static void frailty(
      double kappa, double mu, double muB, int n, double[] x, double[][] tables, Sums sums) {
    double all = kappa + mu;
    // kappa ln(kappa / (kappa + mu)) without cancellation for a large kappa.
    double logRatio = -Math.log1p(mu / kappa);
    sums.value(tables[0][n] + kappa * logRatio - n * Math.log(all));
    double d1 = tables[1][n] + logRatio + 1 - (kappa + n) / all;
    double dq = 1 / all - (kappa + n) / (all * all);
    double d2 = tables[2][n] + 1 / kappa - 1 / all - dq;
    sums.add(LOG_FRAILTY, kappa * d1);
    sums.add(LOG_FRAILTY, LOG_FRAILTY, kappa * d1 + kappa * kappa * d2);
    sums.add(ETA, LOG_FRAILTY, -kappa * dq * mu);
    sums.add(LOG_SHAPE, LOG_FRAILTY, -kappa * dq * muB);
    for (int k = 0; k < x.length; k++) {
      sums.add(LOG_FRAILTY, FIRST_COVARIATE + k, -kappa * dq * mu * x[k]);
    }
  }

  private void addRepairs(double[] theta, Sums total) {
    double beta = Math.exp(theta[LOG_SHAPE]);
    double value = repairs * (theta[ETA] + theta[LOG_SHAPE]) + (beta - 1) * sumLogAge + constant;
    total.add(ETA, repairs);
    total.add(LOG_SHAPE, repairs + beta * sumLogAge);
    total.add(LOG_SHAPE, LOG_SHAPE, beta * sumLogAge);
    for (int k = 0; k < repairsByCovariate.length; k++) {
      value += theta[FIRST_COVARIATE + k] * repairsByCovariate[k];
      total.add(FIRST_COVARIATE + k, repairsByCovariate[k]);
    }
    total.value(value);
  }

  /** Everything summed over cells in one flat array, so that chunks add up in a fixed order. */
  private static final class Sums {
    private final int p;
    private final double[] flat;

    Sums(int p) {
      this.p = p;
      flat = new double[3 + p + p * p];
    }

    void value(double v) {
      flat[0] += v;
    }

    void moments(double excess, double square) {
      flat[1] += excess;
      flat[2] += square;
    }

    void add(int a, double v) {
      flat[3 + a] += v;
    }

    /** Upper triangle only: {@code a <= b}. */
    void add(int a, int b, double v) {
      flat[3 + p + a * p + b] += v;
    }

    At at() {
      double[] gradient = new double[p];
      double[][] hessian = new double[p][p];
      System.arraycopy(flat, 3, gradient, 0, p);
      for (int a = 0; a < p; a++) {
        for (int b = a; b < p; b++) {
          hessian[a][b] = flat[3 + p + a * p + b];
          hessian[b][a] = hessian[a][b];
        }
      }
      return new At(flat[0], gradient, hessian, flat[1], flat[2]);
    }
  }
}
