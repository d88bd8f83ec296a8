package lanemend.renewal.hindcast;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lanemend.renewal.SimulatedCounty;
import lanemend.renewal.SimulatedCounty.Planted;
import lanemend.renewal.SimulatedCounty.Truth;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.FitOptions;
import lanemend.renewal.sections.ScanSettings;
import org.junit.jupiter.api.Test;

class HindcastTest {
  private static final Truth TRUTH = new Truth(0.03, 1.5, 0.8);

  private static Hindcast hindcast(int years, List<Planted> bad, long seed) {
    SimulatedCounty.Split split = SimulatedCounty.split(TRUTH, 20, 8, years, bad, seed);
    ScanSettings scan = new ScanSettings(482, 4828, ScanSettings.Chance.FRAILTY, 999, 20, 0.05, 3);
    return Hindcast.of(Holdout.of(split.before(), split.after(), 0), years, FitOptions.FULL, scan);
  }

  @Test
  void theModelsIntervalsCoverAndItBeatsEverySimpleWay() {
    // Given five counties of 20 routes of 100 two-lane cells, hindcast 1, 2 and 3 years
    double coverage = 0;
    for (int s = 0; s < 5; s++) {
      for (int years = 1; years <= 3; years++) {
        Hindcast h = hindcast(years, List.of(), 10 * s + years);
        assertEquals(200, h.stretches());
        coverage += h.coverage() / 15;
        // then the model's deviance is the lowest, though each simple way was mixed in hindsight
        double model = h.scores().get(0).deviance();
        for (Hindcast.Score simple : h.scores().subList(1, h.scores().size())) {
          assertTrue(model < simple.deviance(), simple.name() + " in county " + s);
        }
        // and its worst tenth holds more of the repairs to come than last year's worst
        assertTrue(h.scores().get(0).lift()[3] > h.scores().get(1).lift()[3]);
        // and the total lies within its forecast
        assertTrue(h.repairs() > h.forecast().quantile(0.0005));
        assertTrue(h.repairs() < h.forecast().quantile(0.9995));
      }
    }
    // 3,000 stretches: two standard errors are 1.1 %
    assertEquals(0.90, coverage, 0.015);
  }

  @Test
  void flagsOnPlantedStretchesGoOnFailing() {
    List<Planted> bad = List.of(new Planted(3, 20, 35, 4), new Planted(11, 60, 80, 3));
    Hindcast h = hindcast(2, bad, 77);
    assertTrue(h.flags().size() >= 2);
    for (Hindcast.FlagCheck flag : h.flags()) {
      assertTrue(List.of("SR 3", "SR 11").contains(flag.cluster().routeId()));
      assertTrue(flag.wentOn());
      assertTrue(flag.came() > 1.5 * flag.familyExpected());
    }
  }

  @Test
  void aPoorForecastIsShownAsPoor() {
    // Given a county whose rate triples on the day the records are cut (a winter nobody foresaw)
    SimulatedCounty.Split calm = SimulatedCounty.split(TRUTH, 10, 8, 2, List.of(), 5);
    SimulatedCounty.Split wild =
        SimulatedCounty.split(new Truth(0.09, 1.5, 0.8), 10, 8, 2, List.of(), 5);
    Hindcast h =
        Hindcast.of(
            Holdout.of(calm.before(), wild.after(), 0),
            2,
            FitOptions.FULL,
            ScanSettings.standard());
    // then the coverage falls far short of 90 %
    assertTrue(h.coverage() < 0.6, "coverage " + h.coverage());
  }

  @Test
  void aCellResurfacedAfterTheDayIsWatchedOnlyUntilThen() {
    // Given one cell with a repair half a year after the day, resurfaced at one year, and a repair
    // after that
    Cell cell = new Cell("SR 1", 0, "R1", 0, 160);
    CellHistories.Builder before = new CellHistories.Builder(List.of("one"));
    before.cell(cell, 0, 1, 10, new double[0]);
    before.spell(5, 10);
    before.repair(9.5, 1, -180);
    CellHistories.Builder after = new CellHistories.Builder(List.of("one"));
    after.cell(cell, 0, 1, 2, new double[0]);
    after.spell(10, 11);
    after.repair(10.5, 1, 180);
    after.spell(0, 2);
    after.repair(1, 1, 700);
    Holdout h = Holdout.of(before.build(), after.build(), 0);
    // then one year and one repair count, and last year had one
    assertEquals(1, h.windows()[0], 1e-12);
    assertEquals(1, h.repairs()[0]);
    assertEquals(1, h.lastYear()[0]);
  }

  @Test
  void devianceByHand() {
    // 2 [ (3 ln(3/2) - 1) + 0.5 ] = 2 [0.216395 + 0.5] = 1.432791
    assertEquals(1.432791, Scores.deviance(new int[] {3, 0}, new double[] {2, 0.5}), 1e-6);
  }
}
