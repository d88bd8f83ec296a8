package lanemend.renewal.overlay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lanemend.renewal.SimulatedCounty;
import lanemend.renewal.SimulatedCounty.Truth;
import lanemend.renewal.repairs.FitOptions;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.repairs.RepairForecast.Draws;
import lanemend.renewal.repairs.RepairModel;
import lanemend.renewal.repairs.TonsModel;
import org.junit.jupiter.api.Test;

class LifeCycleTest {
  private static final Draws DRAWS = new Draws(2000, 4, 0.9);

  private static PatchingOutlook outlook(double[] old, double[] fresh, double variance) {
    double[][] a = Arrays.stream(old).mapToObj(v -> new double[] {v}).toArray(double[][]::new);
    double[][] b = Arrays.stream(fresh).mapToObj(v -> new double[] {v}).toArray(double[][]::new);
    return new PatchingOutlook(
        a, b, b, variance, new TonsModel.Law[] {new TonsModel.Law(0, 0, 0, true)});
  }

  private static Economics economics(double overlay, int life, double rate, int years) {
    return new Economics(overlay, life, new RepairCost(1, 0), rate, years, 0);
  }

  @Test
  void twoYearsByHand() {
    // 60 a year of patching against an overlay of 100 that lasts 10 years, 10 % a year:
    // never 60 / 1.1^0.5 + 60 / 1.1^1.5 = 109.2148; now 100 - 80 / 1.21 = 33.8843;
    // in a year 57.2078 + 100 / 1.1 - 90 / 1.21 = 73.7366
    PatchingOutlook o = outlook(new double[] {60, 60}, new double[] {0, 0}, 0);
    LifeCycle c = LifeCycle.of(o, economics(100, 10, 0.10, 2), DRAWS);
    assertEquals(33.8843, c.presentCost()[0], 1e-3);
    assertEquals(73.7366, c.presentCost()[1], 1e-3);
    assertEquals(109.2148, c.presentCost()[2], 1e-3);
    assertEquals(0, c.bestYear());
    assertEquals(75.3305, c.saving(), 2e-3);
    // by the end of year 1: patching 57.2 against 100 - 90 / 1.1 = 18.2, in every future
    assertEquals(1, c.crossoverYear());
  }

  @Test
  void growingPatchingIsOverlaidLaterThanNow() {
    // Given patching that doubles yearly from 1, an overlay of 100 that lasts 20 years, 5 %
    double[] old = IntStream.range(0, 10).mapToDouble(y -> Math.pow(2, y)).toArray();
    LifeCycle c =
        LifeCycle.of(outlook(old, new double[10], 0), economics(100, 20, 0.05, 10), DRAWS);
    // Deferring a year costs its patching and saves the year's worn life and interest: about 5 of
    // life (straight line, 100/20) and 5 of interest early on, so it pays while patching is below
    // that; 2^3 = 8 in year 4 does not, 4 in year 3 does.
    assertTrue(c.bestYear() == 3 || c.bestYear() == 4, "year " + c.bestYear());
    double[] byHand = LifeCycle.presentCosts(old, new double[10], economics(100, 20, 0.05, 10));
    for (int k = 0; k <= 10; k++) {
      assertTrue(byHand[k] >= c.presentCost()[c.bestYear()] - 1e-9);
    }
    // the chances of the choices are a distribution
    assertEquals(1, Arrays.stream(c.bestChance()).sum(), 1e-9);
  }

  @Test
  void cheapPatchingIsNeverOverlaid() {
    LifeCycle c =
        LifeCycle.of(
            outlook(new double[] {1, 1, 1, 1}, new double[4], 0),
            economics(100, 10, 0.04, 4),
            DRAWS);
    assertEquals(LifeCycle.NEVER, c.bestYear());
    assertEquals(0, c.saving());
    assertEquals(LifeCycle.NEVER, c.crossoverYear());
  }

  @Test
  void aWornOutOverlayIsLaidAgainWithinThePeriod() {
    // Overlay 100 lasting 2 years, 0 %, 4 years, no patching on it: 200, nothing left at the end
    double[] costs = LifeCycle.presentCosts(new double[4], new double[4], economics(100, 2, 0, 4));
    assertEquals(200, costs[0], 1e-9);
    // laid at the start of year 2: 100 + again at year 4, half of it left
    assertEquals(100 + 100 - 50, costs[1], 1e-9);
  }

  @Test
  void anUnsureRateSpreadsTheChoice() {
    // Given patching near break-even with a rate known only within 60 %
    double[] old = IntStream.range(0, 20).mapToDouble(y -> 12).toArray();
    Economics e = economics(100, 15, 0.04, 20);
    LifeCycle sure = LifeCycle.of(outlook(old, new double[20], 0), e, DRAWS);
    LifeCycle unsure = LifeCycle.of(outlook(old, new double[20], 0.36), e, DRAWS);
    // then the interval is wider and never gains a share
    assertTrue(
        unsure.savingHigh() - unsure.savingLow() > 2 * (sure.savingHigh() - sure.savingLow()));
    assertTrue(unsure.bestChance()[20] > sure.bestChance()[20]);
    // and crossover chances only grow with the years
    for (int y = 1; y < 20; y++) {
      assertTrue(unsure.crossoverChance()[y] >= unsure.crossoverChance()[y - 1]);
    }
  }

  @Test
  void barsAreOrderedAndMoveTheRightWay() {
    double[] old = IntStream.range(0, 20).mapToDouble(y -> 12 + y).toArray();
    PatchingOutlook o = outlook(old, new double[20], 0.09);
    Economics e = economics(100, 15, 0.04, 20);
    List<Sensitivity.Bar> bars = Sensitivity.bars(o, e, Sensitivity.Swing.STANDARD);
    for (int i = 1; i < bars.size(); i++) {
      assertTrue(bars.get(i).width() <= bars.get(i - 1).width());
    }
    for (Sensitivity.Bar bar : bars) {
      if (bar.input().startsWith("overlay price")) {
        assertTrue(bar.atLow() > bar.atHigh());
      }
      if (bar.input().startsWith("patching price") || bar.input().startsWith("overlay life")) {
        assertTrue(bar.atLow() < bar.atHigh());
      }
    }
    // the middle of all bars is the expected saving itself
    double[] costs = LifeCycle.presentCosts(old, new double[20], e);
    assertEquals(costs[20] - costs[0], Sensitivity.saving(o, e, 1), 1e-9);
  }

  @Test
  void aFittedSectionGoesThroughWhole() {
    // Given a fitted county and a section of 40 cells, half of them worn
    RepairModel model =
        RepairModel.fit(
            SimulatedCounty.draw(List.of(new Truth(0.02, 1.8, 0.5)), 2000, 8, 2), FitOptions.FULL);
    PatchingOutlook o = PatchingOutlook.of(model, IntStream.range(0, 40).toArray(), 20);
    Economics e = new Economics(60_000, 15, new RepairCost(400, 120), 0.03, 20, 0.5);
    LifeCycle c = LifeCycle.of(o, e, DRAWS);
    // then drawn futures agree with the expectation: never's cost is the mean forecast, discounted
    double never = 0;
    double[] yearly = LifeCycle.yearly(o, e, false);
    for (int y = 0; y < 20; y++) {
      never += yearly[y] / Math.pow(1.03, y + 0.5);
    }
    assertEquals(never, c.presentCost()[20], 1e-6);
    assertTrue(c.savingLow() <= c.saving() && c.saving() <= c.savingHigh());
  }
}
