package lanemend.renewal.repairs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import lanemend.renewal.SimulatedCounty;
import lanemend.renewal.SimulatedCounty.Truth;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import org.junit.jupiter.api.Test;

/** Fits against published data; where each number is from stands beside it. */
class PowerLawFitterTest {

  /** One system per row: its event times, watched from 0 to the end given. */
  private static CellHistories systems(double[] ends, double[][] times) {
    CellHistories.Builder to = new CellHistories.Builder(List.of("one"));
    for (int i = 0; i < ends.length; i++) {
      to.cell(new Cell("R", i, "R1", i, i + 1), 0, 1, ends[i], new double[0]);
      to.spell(0, ends[i]);
      for (double t : times[i]) {
        to.repair(t, Double.NaN, 0);
      }
    }
    return to.build();
  }

  private static FamilyFit fit(CellHistories h, FitOptions options) {
    return PowerLawFitter.fit("one", h, IntStream.range(0, h.size()).toArray(), options);
  }

  private static FamilyFit alike(double[] ends, double[][] times) {
    return fit(systems(ends, times), FitOptions.WITHOUT_FRAILTY);
  }

  @Test
  void nistHandbookOneSystem() {
    // NIST/SEMATECH e-Handbook 8.4.5.2 data; raw maximum likelihood b = 0.5372288660341876 read in
    // a public test file; a = 0.1966582157 computed.
    double[] t = {5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478};
    FamilyFit fit = alike(new double[] {1500}, new double[][] {t});
    assertEquals(0.5372288660341876, fit.shape(), 1e-9);
    assertEquals(0.1966582157, fit.scale(), 1e-9);
    // The handbook's corrected b, (r - 1) / r of it, is 0.483506 (read).
    assertEquals(0.483506, 0.9 * fit.shape(), 5e-7);
  }

  @Test
  void militaryHandbookOneSystemWithATie() {
    // MIL-HDBK-189 (1981) appendix C, read through a public test file that quotes it.
    double[] t = {
      2.6, 16.5, 16.5, 17.0, 21.4, 29.1, 33.3, 56.5, 63.1, 70.6, 73.0, 77.7, 93.9, 95.5, 98.1,
      101.1, 132.0, 142.2, 147.7, 149.0, 167.2, 190.7, 193.0, 198.7, 251.9, 282.5, 286.1
    };
    FamilyFit fit = alike(new double[] {300}, new double[][] {t});
    assertEquals(0.7163392624, fit.shape(), 1e-9);
    assertEquals(0.4538418614, fit.scale(), 1e-8);
    // Intensity at 300 is a b t^(b-1) = 0.0644705336 (read).
    assertEquals(0.0644705336, fit.scale() * fit.shape() * Math.pow(300, fit.shape() - 1), 1e-9);
  }

  @Test
  void failureEndedSystem() {
    // weibull.com, Crow-AMSAA parameter estimation (times read): 0.6142 and 0.4239 (memory).
    double[] t = {
      2.7, 10.3, 12.5, 30.6, 57.0, 61.3, 80.0, 109.5, 125.0, 128.6, 143.8, 167.9, 229.2, 296.7,
      320.6, 328.2, 366.2, 396.7, 421.1, 438.2, 501.2, 620.0
    };
    FamilyFit fit = alike(new double[] {620}, new double[][] {t});
    assertEquals(0.6142104, fit.shape(), 1e-7);
    assertEquals(0.4239422, fit.scale(), 1e-6);
  }

  @Test
  void systemsWatchedToDifferentEndsArePooledNotAveraged() {
    // Read in a public test: b = 0.3443837165829547, a = 0.9236718623385327.
    FamilyFit fit = alike(new double[] {4, 100}, new double[][] {{.5, 1, 1.5, 2, 3}, {50}});
    assertEquals(0.3443837165829547, fit.shape(), 1e-9);
    assertEquals(0.9236718623385327, fit.scale(), 1e-8);
  }

  @Test
  void threeSystems() {
    // Crow 1974; data and answers 0.615 and 0.461 from memory, which agree with each other.
    double[][] t = {
      {4.3, 4.4, 10.2, 23.5, 23.8, 26.4, 74.0, 77.1, 92.1, 197.2},
      {0.1, 5.6, 18.6, 19.5, 24.2, 26.7, 45.1, 45.8, 75.7, 79.7, 98.6, 120.1, 161.8, 180.6, 190.8},
      {8.4, 32.5, 44.7, 48.4, 50.6, 73.6, 98.7, 112.2, 129.8, 136.0, 195.8}
    };
    FamilyFit fit = alike(new double[] {200, 200, 200}, t);
    assertEquals(0.615, fit.shape(), 5e-4);
    assertEquals(0.461, fit.scale(), 5e-4);
    // Asymptotic standard error of b with one common end is b / sqrt(n).
    assertEquals(fit.shape() / 6, fit.shapeError(), 1e-6);
  }

  /** Valve seats of 41 engines (Nelson and Doganaksoy 1989); the last entry ends the watching. */
  private static final String VALVE_SEATS =
      "761 / 759 / 98,667 / 326,653,653,667 / 665 / 84,667 / 87,663 / 646,653 / 92,653 / 651 /"
          + " 258,328,377,621,650 / 61,539,648 / 254,276,298,640,644 / 76,538,642 / 635,641 /"
          + " 349,404,561,649 / 631 / 596 / 120,479,614 / 323,449,582 / 139,139,589 / 593 / 573,589"
          + " / 165,408,604,606 / 249,594 / 344,497,613 / 265,586,595 / 166,206,348,389 / 601 /"
          + " 410,581,601 / 611 / 608 / 587 / 367,603 / 202,563,570,585 / 587 / 578 / 578 / 586 /"
          + " 585 / 582";

  private static CellHistories valveSeats() {
    List<String> rows = List.of(VALVE_SEATS.split("/", -1));
    double[] ends = new double[rows.size()];
    double[][] times = new double[rows.size()][];
    for (int i = 0; i < ends.length; i++) {
      double[] all =
          java.util.Arrays.stream(rows.get(i).split(",", -1))
              .mapToDouble(Double::parseDouble)
              .toArray();
      ends[i] = all[all.length - 1];
      times[i] = java.util.Arrays.copyOf(all, all.length - 1);
    }
    return systems(ends, times);
  }

  @Test
  void valveSeatsOfFortyOneEngines() {
    // Data from memory (counts 41 and 48 agree); Meeker and Escobar chapter 16, from memory: b
    // about
    // 1.40, eta about 553.6. More places computed by an independent script (SciPy).
    FamilyFit fit = fit(valveSeats(), FitOptions.WITHOUT_FRAILTY);
    assertEquals(48, fit.repairs());
    assertEquals(25_363, fit.years());
    assertEquals(1.3995792670, fit.shape(), 1e-8);
    assertEquals(553.643021, Math.pow(fit.scale(), -1 / fit.shape()), 1e-4);
    assertEquals(-346.490299, fit.logLikelihood(), 1e-6);
    FamilyFit level = fit(valveSeats(), new FitOptions(OptionalDouble.of(1), false));
    assertEquals(-348.952593, level.logLikelihood(), 1e-6);
  }

  /** Ten pumps: failures and thousands of hours (Gaver and O'Muircheartaigh 1987; read). */
  private static CellHistories pumps() {
    int[] y = {5, 1, 5, 14, 3, 19, 1, 1, 4, 22};
    double[] t = {94.3, 15.7, 62.9, 126, 5.24, 31.4, 1.05, 1.05, 2.1, 10.5};
    double[][] times = new double[10][];
    for (int i = 0; i < 10; i++) {
      int n = y[i];
      double end = t[i];
      // With the shape held at 1 it does not matter when within its hours a pump failed.
      times[i] = IntStream.rangeClosed(1, n).mapToDouble(k -> end * k / (n + 1)).toArray();
    }
    return systems(t, times);
  }

  @Test
  void pumpsGiveTheNegativeBinomialOfThePapers() {
    // Maximum likelihood A = 0.8229651, B = 1.2616533, mean 0.6522910 (computed, SciPy).
    FamilyFit fit = fit(pumps(), new FitOptions(OptionalDouble.of(1), true));
    assertEquals(0.8229651, fit.frailtyShape(), 1e-5);
    assertEquals(0.6522910, fit.scale(), 1e-5);
    assertEquals(1.2616533, fit.frailtyShape() / fit.scale(), 3e-5);
  }

  @Test
  void pumpsAreShrunkByTheirHours() {
    // Estimates and weights on the mean, rounded t (computed, SciPy; section 2a of the references).
    RepairModel model = RepairModel.fit(pumps(), new FitOptions(OptionalDouble.of(1), true));
    double[] rates = {
      .06093, .10748, .09075, .11648, .58800, .60692, .78860, .78860, 1.43470, 1.94046
    };
    double[] weights = {.0132, .0744, .0197, .0099, .1941, .0386, .5458, .5458, .3753, .1073};
    for (int i = 0; i < 10; i++) {
      CellOutlook outlook = model.outlook(i);
      assertEquals(rates[i], outlook.multiplier() * model.familyFit(0).scale(), 6e-6);
      assertEquals(weights[i], outlook.familyWeight(), 6e-5);
      // The multiplier is the weighted mean of the family's 1 and the cell's own n / mu.
      double own = outlook.repairs() / outlook.familyExpected();
      assertEquals(
          outlook.multiplier(), outlook.familyWeight() + (1 - outlook.familyWeight()) * own, 1e-12);
    }
  }

  @Test
  void cellsNoMoreUnlikeThanChanceGetNoFrailty() {
    // Given 40 systems with exactly two events each
    double[] ends = new double[40];
    double[][] times = new double[40][];
    for (int i = 0; i < 40; i++) {
      ends[i] = 10;
      times[i] = new double[] {2 + 0.01 * i, 8};
    }
    FamilyFit fit = fit(systems(ends, times), FitOptions.FULL);
    assertTrue(Double.isInfinite(fit.frailtyShape()));
    assertEquals(0, fit.frailtyVariance());
  }

  @Test
  void aKnownTruthIsRecoveredWithinItsStandardErrors() {
    // Given 60 counties of 2,000 cells whose truth is a = 0.02, b = 1.6, frailty variance 0.8.
    // The full-size run (200 counties; RenewalBench recover) is in docs/renewal.md.
    Truth truth = new Truth(0.02, 1.6, 0.8);
    double[] mean = new double[3];
    double[] squares = new double[3];
    int[] covered = new int[3];
    double[] wanted = {Math.log(truth.a()), truth.b(), Math.log(truth.frailtyVariance())};
    int counties = 60;
    for (int s = 0; s < counties; s++) {
      CellHistories h = SimulatedCounty.draw(List.of(truth), 2000, 8, 1000 + s);
      FamilyFit f = fit(h, FitOptions.FULL);
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
    for (int j = 0; j < 3; j++) {
      double sd = Math.sqrt((squares[j] - mean[j] * mean[j]) / counties);
      // then the bias is under two standard errors of the mean
      assertEquals(wanted[j], mean[j], 2 * sd, "parameter " + j);
      // and 90 % intervals cover 90 % give or take 2.5 standard deviations of 60 trials
      assertEquals(0.90, covered[j] / (double) counties, 0.097, "parameter " + j);
    }
  }

  @Test
  void covariatesAreRecovered() {
    // Given 6,000 cells whose rate is e^(0.7 x) times the family's
    Truth truth = new Truth(0.05, 1.3, 0);
    CellHistories plain = SimulatedCounty.draw(List.of(truth), 6000, 8, 5);
    CellHistories.Builder to = new CellHistories.Builder(List.of("one"));
    java.util.SplittableRandom random = new java.util.SplittableRandom(9);
    Sampling sampling = new Sampling(random);
    for (int i = 0; i < plain.size(); i++) {
      double x = random.nextDouble() * 2 - 1;
      int s = plain.firstSpell(i);
      to.cell(plain.cell(i), 0, 0.5, plain.ageNow(i), new double[] {x});
      to.spell(plain.fromAge(s), plain.toAge(s));
      double low = Math.pow(plain.fromAge(s), truth.b());
      double high = Math.pow(plain.toAge(s), truth.b());
      long n = sampling.poisson(Math.exp(0.7 * x) * 0.5 * truth.a() * (high - low));
      for (long k = 0; k < n; k++) {
        double age = Math.pow(low + random.nextDouble() * (high - low), 1 / truth.b());
        to.repair(Math.max(age, 1e-6), 1, 0);
      }
    }
    FamilyFit f = fit(to.build(), FitOptions.FULL);
    assertEquals(0.7, f.effect(0), 2.5 * f.effectError(0));
    assertTrue(f.effectError(0) < 0.05);
    assertEquals(1.3, f.shape(), 2.5 * f.shapeError());
    assertEquals(Math.log(0.05), Math.log(f.scale()), 2.5 * f.scaleError() / f.scale());
  }

  @Test
  void lateRecordsAndFrailtyAgreeWithR() {
    // Given 200 cells watched from ages 0..19 by the fixed rule of docs/renewal-check.R
    CellHistories.Builder to = new CellHistories.Builder(List.of("one"));
    for (int i = 0; i < 200; i++) {
      int start = (7 * i) % 20;
      to.cell(new Cell("R", i, "R1", i, i + 1), 0, 1, start + 8, new double[0]);
      to.spell(start, start + 8);
      int n = i % 3 == 0 ? 0 : ((i * i * 31) % 11) / 2;
      for (int k = 1; k <= n; k++) {
        to.repair(start + 8 * Math.pow((double) k / (n + 1), 0.8), Double.NaN, 0);
      }
    }
    FamilyFit f = fit(to.build(), FitOptions.FULL);
    // then all is as R 4.2.2 (optim) finds it, within 0.1 % (the script's own output)
    assertEquals(220, f.repairs());
    assertEquals(0.03390747, f.scale(), 0.001 * 0.0339);
    assertEquals(0.01781668, f.scaleError(), 0.001 * 0.0178);
    assertEquals(1.42283663, f.shape(), 0.001 * 1.42);
    assertEquals(0.16153431, f.shapeError(), 0.001 * 0.1615);
    assertEquals(1.07379555, f.frailtyVariance(), 0.001 * 1.07);
    assertEquals(0.27095099, f.frailtyVarianceError(), 0.001 * 0.271);
    assertEquals(-631.50346706, f.logLikelihood(), 1e-6);
  }

  @Test
  void nothingToFitFromIsSaid() {
    CellHistories none = systems(new double[] {5}, new double[][] {{}});
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> fit(none, FitOptions.FULL));
    assertTrue(e.getMessage().contains("0 repairs"));
  }
}
