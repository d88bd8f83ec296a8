package lanemend.renewal.sections;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.IntStream;
import lanemend.renewal.SimulatedCounty;
import lanemend.renewal.SimulatedCounty.Planted;
import lanemend.renewal.SimulatedCounty.Truth;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.FamilyFit;
import lanemend.renewal.repairs.FitOptions;
import lanemend.renewal.repairs.RateForecast;
import lanemend.renewal.repairs.RepairModel;
import org.junit.jupiter.api.Test;

class FlaggedModelTest {
  private static final Truth TRUTH = new Truth(0.02, 1.6, 0.8);
  private static final List<Planted> BAD =
      List.of(new Planted(2, 10, 30, 6), new Planted(7, 40, 60, 5), new Planted(13, 60, 75, 6));
  private static final ScanSettings SCAN =
      new ScanSettings(482, 4828, ScanSettings.Chance.FRAILTY, 999, 20, 0.05, 3);

  @Test
  void flaggedStretchesNoLongerPullTheirFamily() {
    // Given a county of 4,000 cells, 110 of them on stretches five or six times as bad
    CellHistories h = SimulatedCounty.split(TRUTH, 20, 8, 1, BAD, 41).before();
    FamilyFit mixed = RepairModel.fit(h, FitOptions.FULL).familyFit(0);
    FlaggedModel flagged = FlaggedModel.of(h, FitOptions.FULL, SCAN);
    FamilyFit clean = flagged.model().familyFit(0);
    // then the plain fit takes them for spread among cells and the second fit does not
    assertTrue(mixed.frailtyVariance() > 0.8 + 3 * mixed.frailtyVarianceError());
    assertEquals(0.8, clean.frailtyVariance(), 2.5 * clean.frailtyVarianceError());
    assertEquals(1.6, clean.shape(), 2.5 * clean.shapeError());
  }

  @Test
  void levelsAndForecastsOfFlaggedStretchesHoldTheTruth() {
    int held = 0;
    int levels = 0;
    for (int s = 0; s < 8; s++) {
      SimulatedCounty.Split split = SimulatedCounty.split(TRUTH, 20, 8, 3, BAD, 60 + s);
      RepairModel model = FlaggedModel.of(split.before(), FitOptions.FULL, SCAN).model();
      for (Planted p : BAD) {
        int[] cells =
            IntStream.range(0, split.before().size())
                .filter(i -> split.before().cell(i).routeId().equals("SR " + p.route()))
                .filter(i -> split.before().cell(i).number() >= p.fromCell())
                .filter(i -> split.before().cell(i).number() < p.toCell())
                .toArray();
        // the middle of a planted stretch is on the flagged one
        double level = model.level(cells[cells.length / 2]);
        levels += level > 0.65 * p.factor() && level < 1.6 * p.factor() ? 1 : 0;
        var count = RateForecast.of(model, cells, 3).count(3);
        long came = IntStream.of(cells).map(split.after()::repairs).sum();
        held += came >= count.quantile(0.05) && came <= count.quantile(0.95) ? 1 : 0;
      }
    }
    // then of 24 stretches nearly all levels are near their factor, and 90 % intervals held what
    // came in at least 18 (the 0.03 quantile of a binomial of 24 and 0.9 is 19)
    assertTrue(levels >= 22, levels + " of 24 levels");
    assertTrue(held >= 18, held + " of 24 held");
  }

  @Test
  void withNothingFlaggedItIsThePlainFit() {
    CellHistories h = SimulatedCounty.split(TRUTH, 5, 8, 1, List.of(), 8).before();
    FlaggedModel flagged = FlaggedModel.of(h, FitOptions.FULL, SCAN);
    assertTrue(flagged.clusters().stream().noneMatch(Cluster::flagged));
    assertEquals(
        RepairModel.fit(h, FitOptions.FULL).familyFit(0).shape(),
        flagged.model().familyFit(0).shape());
    assertEquals(1, flagged.model().level(17));
  }
}
