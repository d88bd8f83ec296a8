package lanemend.crewdays.learning;

/**
 * Cholesky root of a covariance. By hand because a thousand small ones are needed for one answer,
 * for which the library's costs more in objects than in arithmetic.
 */
final class Root {
  private final double[][] lower;

  /**
   * @param covariance symmetric, positive definite; its lower half is overwritten
   */
  Root(double[][] covariance) {
    lower = covariance;
    for (int i = 0; i < lower.length; i++) {
      double[] row = lower[i];
      for (int j = 0; j <= i; j++) {
        double[] above = lower[j];
        double sum = row[j];
        for (int k = 0; k < j; k++) {
          sum -= row[k] * above[k];
        }
        row[j] = i == j ? Math.sqrt(sum) : sum / above[j];
      }
    }
  }

  /** Half the logarithm of the covariance's determinant. */
  double logDeterminant() {
    double sum = 0;
    for (int i = 0; i < lower.length; i++) {
      sum += Math.log(lower[i][i]);
    }
    return sum;
  }

  /** The vector whose products with itself and others are those of the inverse covariance. */
  double[] whiten(double[] of) {
    double[] white = of.clone();
    for (int i = 0; i < white.length; i++) {
      double sum = white[i];
      for (int k = 0; k < i; k++) {
        sum -= lower[i][k] * white[k];
      }
      white[i] = sum / lower[i][i];
    }
    return white;
  }

  static double product(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}
