package lanemend.renewal.repairs;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.inventory.Entered;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import org.junit.jupiter.api.Test;

class RepairCostTest {
  private static PastPatch patch(int i, String work, Double tonnes, Double cost) {
    Place place = new Place("SR 1", i, i, 0, 0, Entered.byMilepost("SR 1", "1", null));
    BigDecimal money = cost == null ? null : BigDecimal.valueOf(cost);
    return new PastPatch("P" + i, work, place, null, LocalDate.of(2020, 1, 1), tonnes, null, money);
  }

  @Test
  void recordedCostsGiveTheLineTheyLieOn() {
    // Given 40 repairs at 200 and 120 a tonne, resurfacings at other prices and rows without cost
    List<PastPatch> patches = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      patches.add(patch(i, "hand_patch", 1.0 + i % 7, 200 + 120 * (1.0 + i % 7)));
    }
    patches.add(patch(90, "resurfacing", 2000.0, 160_000.0));
    patches.add(patch(91, "hand_patch", null, 900.0));
    patches.add(patch(92, "hand_patch", 3.0, null));
    RepairCost cost = RepairCost.fromRecords(patches).orElseThrow();
    assertEquals(200, cost.perRepair(), 1e-6);
    assertEquals(120, cost.perTonne(), 1e-6);
  }

  @Test
  void tooFewOrImpossibleRecordsGiveNone() {
    List<PastPatch> few = new ArrayList<>();
    List<PastPatch> cheaperByTheTonne = new ArrayList<>();
    List<PastPatch> allAlike = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      if (i < 29) {
        few.add(patch(i, "hand_patch", 1.0 + i % 3, 300.0 + i % 3));
      }
      cheaperByTheTonne.add(patch(i, "hand_patch", 1.0 + i % 3, 900.0 - 100 * (i % 3)));
      allAlike.add(patch(i, "hand_patch", 2.0, 300.0));
    }
    assertEquals(Optional.empty(), RepairCost.fromRecords(few));
    assertEquals(Optional.empty(), RepairCost.fromRecords(cheaperByTheTonne));
    assertEquals(Optional.empty(), RepairCost.fromRecords(allAlike));
  }
}
