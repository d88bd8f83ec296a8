package lanemend.renewal.repairs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import lanemend.renewal.SimulatedCounty;
import lanemend.renewal.SimulatedCounty.Truth;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.RepairForecast.Draws;
import org.junit.jupiter.api.Test;

class RepairForecastTest {
  private static final Truth TRUTH = new Truth(0.02, 1.6, 0.8);

  private static RepairModel model(long seed) {
    return RepairModel.fit(SimulatedCounty.draw(List.of(TRUTH), 2000, 8, seed), FitOptions.FULL);
  }

  @Test
  void theNegativeBinomialAgreesWithItsOwnTerms() {
    // Given mean 3 and rate variance 4.5 (size 2, chance of success 0.4)
    NegativeBinomial nb = new NegativeBinomial(3, 4.5);
    // then P(0) = 0.4^2 and P(1) = 2 x 0.4^2 x 0.6, by the definition
    assertEquals(0.16, nb.cumulative(0), 1e-12);
    assertEquals(0.16 + 0.192, nb.cumulative(1), 1e-12);
    assertEquals(7.5, nb.variance(), 1e-12);
    // and the median is the first count to reach a half: P(<= 2) = 0.5248
    assertEquals(2, nb.quantile(0.5));
    assertEquals(0.5248, nb.cumulative(2), 1e-12);
  }

  @Test
  void withoutSpreadItIsPoisson() {
    // e^-2 (1 + 2 + 2) = 0.676676
    assertEquals(0.676676, new NegativeBinomial(2, 0).cumulative(2), 1e-6);
    assertEquals(0, new NegativeBinomial(0, 0).quantile(0.95));
  }

  @Test
  void sumsOverCellsMatchDrawsFromEachCellsOwnPosterior() {
    // Given ten cells of a fitted county
    RepairModel model = model(3);
    int[] cells = IntStream.range(100, 110).toArray();
    NegativeBinomial count = RateForecast.of(model, cells, 5).count(5);
    // when each cell's frailty is drawn from its own gamma and its repairs from that
    Sampling sampling = new Sampling(new SplittableRandom(4));
    int draws = 200_000;
    FamilyFit fit = model.familyFit(0);
    CellHistories h = model.histories();
    double mean = 0;
    double squares = 0;
    int low = 0;
    int high = 0;
    long q05 = count.quantile(0.05);
    long q95 = count.quantile(0.95);
    for (int d = 0; d < draws; d++) {
      long n = 0;
      for (int i : cells) {
        CellOutlook o = model.outlook(i);
        double shape = fit.frailtyShape() + o.repairs();
        double z = sampling.gamma(shape) / (fit.frailtyShape() + o.familyExpected());
        n +=
            sampling.poisson(
                z * fit.expected(h.ageNow(i), h.ageNow(i) + 5, h.share(i), h.covariates(i)));
      }
      mean += (double) n / draws;
      squares += (double) n * n / draws;
      low += n < q05 ? 1 : 0;
      high += n > q95 ? 1 : 0;
    }
    // then mean and spread agree (the forecast adds a little for the parameters)
    assertEquals(mean, count.mean(), 0.02 * mean);
    double variance = squares - mean * mean;
    assertTrue(count.variance() > 0.98 * variance && count.variance() < 1.1 * variance);
    // and no more than a twentieth lies beyond either end
    assertTrue(low < 0.05 * draws && high < 0.05 * draws, low + " below, " + high + " above");
    assertTrue(low + high > 0.03 * draws, low + " below, " + high + " above");
  }

  @Test
  void theDeltaMethodAgreesWithRefittingOtherCounties() {
    // Given forecasts of the whole county, where the parameters are all that is unsure, by fits to
    // 60 counties of the same truth for one and the same fresh cell set
    CellHistories target = SimulatedCounty.draw(List.of(TRUTH), 1, 8, 77);
    double[] means = new double[60];
    double said = 0;
    for (int s = 0; s < means.length; s++) {
      FamilyFit fit = model(500 + s).familyFit(0);
      means[s] = fit.expected(target.ageNow(0), target.ageNow(0) + 5, 1, new double[0]);
      double byShape =
          fit.expectedByLogShape(target.ageNow(0), target.ageNow(0) + 5, 1, new double[0]);
      double[][] c = fit.covariance();
      said +=
          (means[s] * means[s] * c[0][0]
                  + 2 * means[s] * byShape * c[0][1]
                  + byShape * byShape * c[1][1])
              / means.length;
    }
    double mean = IntStream.range(0, 60).mapToDouble(s -> means[s]).average().orElseThrow();
    double seen = IntStream.range(0, 60).mapToDouble(s -> Math.pow(means[s] - mean, 2)).sum() / 59;
    // then the spread among them is what each said of itself, within what 60 fits can tell
    assertEquals(1, said / seen, 0.45);
  }

  @Test
  void tonnesAndCostFollowTheRepairs() {
    RepairModel model = model(5);
    RepairForecast forecast =
        RepairForecast.of(
            model,
            IntStream.range(0, 200).toArray(),
            10,
            new RepairCost(150, 80),
            new Draws(4000, 1, 0.9));
    RepairForecast.Horizon ten = forecast.horizons().get(9);
    TonsModel.Law law = model.tons().of(0);
    // lognormal(1, 0.5) has mean e^1.125 = 3.080
    assertEquals(3.080, law.mean(), 0.06);
    assertEquals(
        ten.repairs().mean() * law.mean(), ten.tonnes().mean(), 0.01 * ten.tonnes().mean());
    assertEquals(
        150 * ten.repairs().mean() + 80 * ten.tonnes().mean(),
        ten.cost().mean(),
        0.01 * ten.cost().mean());
    assertTrue(ten.cost().low() < ten.cost().mean() && ten.cost().mean() < ten.cost().high());
    // and a longer horizon never has fewer repairs
    for (int k = 1; k < 10; k++) {
      assertTrue(
          forecast.horizons().get(k).repairs().mean()
              > forecast.horizons().get(k - 1).repairs().mean());
    }
  }

  @Test
  void aSmallFamilyBorrowsTheFitOfAllRoads() {
    CellHistories h = SimulatedCounty.draw(List.of(TRUTH, new Truth(0.0001, 1, 0)), 1000, 8, 6);
    RepairModel model = RepairModel.fit(h, FitOptions.FULL);
    assertEquals(List.of("family 1"), model.borrowing());
    assertEquals("all roads", model.familyFit(1).family());
  }

  @Test
  void samplesHaveTheMomentsOfTheirLaws() {
    Sampling sampling = new Sampling(new SplittableRandom(8));
    for (double mean : new double[] {0.3, 5, 40, 900}) {
      double sum = 0;
      double squares = 0;
      int draws = 40_000;
      for (int d = 0; d < draws; d++) {
        double n = sampling.poisson(mean);
        sum += n;
        squares += n * n;
      }
      double m = sum / draws;
      // four standard errors of mean and variance of a Poisson count
      assertEquals(mean, m, 4 * Math.sqrt(mean / draws));
      assertEquals(mean, squares / draws - m * m, 4 * Math.sqrt((mean + 2 * mean * mean) / draws));
    }
  }
}
