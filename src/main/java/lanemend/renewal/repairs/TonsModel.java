package lanemend.renewal.repairs;

import java.util.ArrayList;
import java.util.List;
import lanemend.renewal.exposure.CellHistories;

/**
 * Mix per repair: lognormal by family. Families with fewer than {@link #ENOUGH} recorded tonnages
 * take the law of all families together, and say so.
 */
public final class TonsModel {
  /** Fewest tonnages a family's own law is fitted from (common practice, no source). */
  public static final int ENOUGH = 10;

  private final List<Law> laws;

  /**
   * ln tonnes is normal.
   *
   * @param logMean mean of ln tonnes
   * @param logSd standard deviation of ln tonnes (divisor n - 1)
   * @param repairs tonnages it was fitted from; 0 when none was ever recorded
   * @param borrowed true when they are those of all families
   */
  public record Law(double logMean, double logSd, int repairs, boolean borrowed) {
    public double mean() {
      return repairs == 0 ? 0 : Math.exp(logMean + logSd * logSd / 2);
    }

    public double variance() {
      return mean() * mean() * Math.expm1(logSd * logSd);
    }

    /** Standard error of the mean of ln tonnes. */
    public double logMeanError() {
      return repairs == 0 ? 0 : logSd / Math.sqrt(repairs);
    }
  }

  private TonsModel(List<Law> laws) {
    this.laws = List.copyOf(laws);
  }

  /** Fits every family of the histories from repairs with recorded, positive tonnes. */
  public static TonsModel fit(CellHistories histories) {
    int families = histories.families().size();
    double[] sum = new double[families + 1];
    double[] squares = new double[families + 1];
    int[] n = new int[families + 1];
    for (int i = 0; i < histories.size(); i++) {
      for (int r = histories.firstRepair(i); r < histories.firstRepair(i + 1); r++) {
        double tonnes = histories.repairTonnes(r);
        if (tonnes > 0) {
          double log = Math.log(tonnes);
          for (int f : new int[] {histories.family(i), families}) {
            sum[f] += log;
            squares[f] += log * log;
            n[f]++;
          }
        }
      }
    }
    Law all = law(sum[families], squares[families], n[families], true);
    List<Law> laws = new ArrayList<>();
    for (int f = 0; f < families; f++) {
      laws.add(n[f] < ENOUGH ? all : law(sum[f], squares[f], n[f], false));
    }
    return new TonsModel(laws);
  }

  private static Law law(double sum, double squares, int n, boolean borrowed) {
    if (n == 0) {
      return new Law(0, 0, 0, borrowed);
    }
    double mean = sum / n;
    double variance = n == 1 ? 0 : Math.max(0, (squares - n * mean * mean) / (n - 1));
    return new Law(mean, Math.sqrt(variance), n, borrowed);
  }

  public Law of(int family) {
    return laws.get(family);
  }
}
