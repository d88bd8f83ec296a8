package lanemend.crewdays.learning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Pooling held against published data, a general statistics program and a case by hand. */
class PoolingTest {
  /** Mean and standard error of each crew at each treatment by R 4.2, docs/learning-check.R. */
  private static final double[] BY_R = {
    0.2422, 0.0548, 0.1973, 0.0566, 0.2127, 0.0645,
    0.1512, 0.0593, 0.3592, 0.0675, 0.2489, 0.0684,
    0.2435, 0.0565, 0.2612, 0.0596, 0.2569, 0.0570,
    0.1793, 0.0677, 0.2150, 0.0547, 0.1830, 0.0678,
    0.1315, 0.0613, 0.1655, 0.0567, 0.1500, 0.0646,
    0.1394, 0.0617, 0.2816, 0.0645, 0.1139, 0.0684,
    0.0335, 0.0565, 0.0950, 0.0649, 0.1429, 0.0644,
    0.0207, 0.0571, 0.1241, 0.0612, -0.0173, 0.0572,
    0.5770, 0.0547, 0.5119, 0.0546, 0.5548, 0.0643,
    0.4765, 0.0674, 0.6496, 0.0549, 0.5087, 0.0622,
    0.4560, 0.0545, 0.4967, 0.0679, 0.5146, 0.0642,
    0.4684, 0.0570, 0.4683, 0.0546, 0.4622, 0.0645,
    -0.0122, 0.0641, 0.0125, 0.0640, 0.0614, 0.0552,
    -0.0369, 0.0593, 0.1349, 0.0593, -0.0054, 0.0652,
    -0.0633, 0.0587, 0.0062, 0.0649, -0.0510, 0.0592,
    -0.0695, 0.0678, -0.0333, 0.0613, -0.0258, 0.0619,
  };

  /**
   * Batting averages of 18 players after 45 at bats and over the rest of the season of 1970: Efron
   * and Morris 1975, "Data analysis using Stein's estimator and its generalizations", as in the
   * data set EfronMorris of R's package pscl.
   */
  private static final double[] EARLY = {
    .400, .378, .356, .333, .311, .311, .289, .267, .244, .244, .222, .222, .222, .222, .222, .200,
    .178, .156
  };

  private static final double[] LATE = {
    .346, .298, .276, .222, .273, .270, .263, .210, .269, .230, .264, .256, .303, .264, .226, .285,
    .316, .200
  };

  private static List<Pooling.Belief> each(List<Pooling.Cell> cells) {
    return new Pooling(cells)
        .of(
            cells.stream()
                .map(c -> List.of(new Pooling.Term(c.treatment(), c.crew(), 1)))
                .toList());
  }

  /**
   * By hand: one crew, ten records of mean 0.2 and spread 0.1. Its mean is known to 0.1 / sqrt(10)
   * = 0.032, next to nothing beside what crews, treatments and agencies may differ by, so it is
   * believed: 0.2, and 90 of 100 between 0.2 - 1.645 x 0.032 and 0.2 + 1.645 x 0.032.
   */
  @Test
  void aCrewWithManyRecordsIsBelieved() {
    Pooling.Belief b = each(List.of(new Pooling.Cell(0, 0, 0.2, 0.01 / 10))).get(0);
    assertEquals(0.2, b.mean(), 0.003);
    assertEquals(0.2 - 1.645 * 0.0316, b.quantile(0.05), 0.003);
    assertEquals(0.2 + 1.645 * 0.0316, b.quantile(0.95), 0.003);
  }

  /**
   * The example of docs/method.md by hand. Sixty crews are known to stray by 0.12 around 0.10; one
   * more has six records of mean 0.30, each of spread 0.25. V = 0.0625 / 6 = 0.0104; its own weight
   * is 0.0144 / (0.0144 + 0.0104) = 0.58, so 0.10 + 0.58 x 0.20 = 0.216, known to the root of 0.58
   * x 0.0104 = 0.078.
   */
  @Test
  void aCrewWithFewRecordsIsPulledTowardsTheOthers() {
    List<Pooling.Cell> cells = new ArrayList<>();
    for (int crew = 1; crew <= 60; crew++) {
      // Normal quantiles, so that mean and spread are what they should be.
      double z = -Math.sqrt(2) * org.hipparchus.special.Erf.erfcInv((crew - 0.5) / 60 * 2);
      cells.add(new Pooling.Cell(0, crew, 0.10 + 0.12 * z, 1e-6));
    }
    cells.add(new Pooling.Cell(0, 0, 0.30, 0.0625 / 6));
    Pooling.Belief b = new Pooling(cells).of(List.of(List.of(new Pooling.Term(0, 0, 1)))).get(0);
    assertEquals(0.216, b.mean(), 0.01);
    assertEquals(1.645 * 0.078, (b.quantile(0.95) - b.quantile(0.05)) / 2, 0.006);
  }

  @Test
  void withoutRecordsThePlanIsBelievedAsItIs() {
    Pooling.Belief b =
        new Pooling(List.of()).of(List.of(List.of(new Pooling.Term(0, 0, 1)))).get(0);
    assertEquals(0, b.mean(), 1e-12);
    assertTrue(b.quantile(0.95) > 0.8, "" + b.quantile(0.95));
  }

  /** A crew that has none of a treatment's records is told by its others and by other crews. */
  @Test
  void whatWasNotRecordedIsToldByWhatWas() {
    List<Pooling.Cell> cells = new ArrayList<>();
    for (int crew = 0; crew < 6; crew++) {
      double own = crew == 0 ? 0.3 : 0;
      cells.add(new Pooling.Cell(0, crew, own, 0.0005));
      if (crew > 0) {
        cells.add(new Pooling.Cell(1, crew, 0.1, 0.0005));
      }
    }
    Pooling.Belief b = new Pooling(cells).of(List.of(List.of(new Pooling.Term(1, 0, 1)))).get(0);
    assertTrue(b.mean() > 0.2 && b.mean() < 0.42, "" + b.mean());
    assertTrue(b.quantile(0.05) < 0.4 && b.quantile(0.95) > 0.4);
  }

  /** Park and Miller's generator, as in docs/learning-check.R. */
  private static final class Rule {
    private long state = 12345;

    double uniform() {
      state = state * 16807 % 2147483647;
      return state / 2147483647.0;
    }

    double normal() {
      double a = uniform();
      double b = uniform();
      return Math.sqrt(-2 * Math.log(a)) * Math.cos(2 * Math.PI * b);
    }
  }

  @Test
  void crewsAndTreatmentsComeOutAsByRestrictedLikelihoodInR() {
    Rule rule = new Rule();
    double[] treatments = new double[4];
    double[] crews = new double[12];
    for (int t = 0; t < 4; t++) {
      treatments[t] = 0.15 * rule.normal();
    }
    for (int c = 0; c < 12; c++) {
      crews[c] = 0.12 * rule.normal();
    }
    List<double[]> cells = new ArrayList<>();
    double squares = 0;
    int records = 0;
    for (int t = 0; t < 4; t++) {
      for (int c = 0; c < 12; c++) {
        double own = 0.05 + treatments[t] + crews[c] + 0.06 * rule.normal();
        int k = 3 + (int) Math.floor(6 * rule.uniform());
        double[] logs = new double[k];
        double sum = 0;
        for (int i = 0; i < k; i++) {
          logs[i] = own + 0.2 * rule.normal();
          sum += logs[i];
        }
        for (double log : logs) {
          squares += (log - sum / k) * (log - sum / k);
        }
        records += k;
        cells.add(new double[] {t, c, sum / k, k});
      }
    }
    double variance = squares / (records - cells.size());
    List<Pooling.Belief> beliefs =
        each(
            cells.stream()
                .map(c -> new Pooling.Cell((int) c[0], (int) c[1], c[2], variance / c[3]))
                .toList());
    for (int i = 0; i < cells.size(); i++) {
      // A third of a standard error at most: R fixes the deviations at one estimate, we sum over
      // them.
      double error = BY_R[2 * i + 1];
      assertEquals(BY_R[2 * i], beliefs.get(i).mean(), error / 3, "cell " + i);
      double half = (beliefs.get(i).quantile(0.95) - beliefs.get(i).quantile(0.05)) / 2;
      assertEquals(1.645 * error, half, 0.2 * 1.645 * error, "interval of cell " + i);
    }
  }

  /** James and Stein's rule has 0.29 of the averages' own squared error here; so must we. */
  @Test
  void theRestOfASeasonIsToldBetterFromAllPlayersTogether() {
    double all = 0;
    for (double early : EARLY) {
      all += early / EARLY.length;
    }
    double variance = all * (1 - all) / 45;
    List<Pooling.Cell> cells = new ArrayList<>();
    double around = 0;
    for (int i = 0; i < EARLY.length; i++) {
      cells.add(new Pooling.Cell(0, i, EARLY[i], variance));
      around += (EARLY[i] - all) * (EARLY[i] - all);
    }
    List<Pooling.Belief> beliefs = each(cells);
    double shrink = 1 - (EARLY.length - 3) * variance / around;
    double alone = 0;
    double stein = 0;
    double ours = 0;
    for (int i = 0; i < EARLY.length; i++) {
      alone += Math.pow(EARLY[i] - LATE[i], 2);
      stein += Math.pow(all + shrink * (EARLY[i] - all) - LATE[i], 2);
      ours += Math.pow(beliefs.get(i).mean() - LATE[i], 2);
    }
    // Efron and Morris 1977 (from memory): 0.077 against 0.022.
    assertEquals(0.077, alone, 0.002);
    assertEquals(0.022, stein, 0.001);
    assertEquals(stein, ours, 0.1 * stein);
    // Summed over deviations the best start is shrunk a little less: 0.31 where the rule has 0.29.
    assertEquals(0.400 * shrink + all * (1 - shrink), beliefs.get(0).mean(), 0.02);
  }
}
