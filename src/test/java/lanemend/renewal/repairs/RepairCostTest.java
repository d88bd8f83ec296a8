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

/** What patching costs, read off the agency's own records. */
class RepairCostTest {

  private static PastPatch patch(String work, Double tonnes, Double cost) {
    return new PastPatch(
        "P",
        work,
        new Place("SR 1", 100, 100, 0, 0, Entered.byMilepost("SR 1", "0.06", null)),
        null,
        LocalDate.of(2024, 6, 3),
        tonnes,
        null,
        cost == null ? null : BigDecimal.valueOf(cost));
  }

  /** Repairs of 1, 2, ... tonnes at these prices. */
  private static List<PastPatch> priced(int n, double each, double perTonne) {
    List<PastPatch> out = new ArrayList<>();
    for (int i = 1; i <= n; i++) {
      out.add(patch("blade_patch", (double) i, each + perTonne * i));
    }
    return out;
  }

  @Test
  void aLineThroughExactRecordsGivesTheirPricesBack() {
    // Given 30 repairs billed at 180 each and 125 a tonne, when the line is fitted
    RepairCost found = RepairCost.fromRecords(priced(30, 180, 125)).orElseThrow();
    // then it is that bill: least squares is exact on a straight line
    assertEquals(180, found.perRepair(), 1e-6);
    assertEquals(125, found.perTonne(), 1e-6);
  }

  @Test
  void theLineIsLeastSquaresWhereRecordsScatter() {
    // Given y = x on x = 0, 1, 2 with the last raised by 1 (0, 1, 3), ten times over: by hand the
    // means are 1 and 4/3, the slope 3 / 2 and the rest 4/3 - 3/2, which is below nothing
    List<PastPatch> low = new ArrayList<>();
    List<PastPatch> raised = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      for (double[] xy : new double[][] {{0, 0}, {1, 1}, {2, 3}}) {
        low.add(patch("hand_patch", xy[0], xy[1]));
        raised.add(patch("hand_patch", xy[0], xy[1] + 10));
      }
    }
    // then a line that charges less than nothing for coming out is no price
    assertEquals(Optional.empty(), RepairCost.fromRecords(low));
    // and the same line ten higher is
    RepairCost found = RepairCost.fromRecords(raised).orElseThrow();
    assertEquals(1.5, found.perTonne(), 1e-9);
    assertEquals(10 + 4.0 / 3 - 1.5, found.perRepair(), 1e-9);
  }

  @Test
  void fewRecordsOrRecordsOfOneSizeSayNothing() {
    assertEquals(Optional.empty(), RepairCost.fromRecords(priced(29, 180, 125)));
    List<PastPatch> alike = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      alike.add(patch("hand_patch", 2.0, 400 + i * 1.0));
    }
    assertEquals(Optional.empty(), RepairCost.fromRecords(alike));
  }

  @Test
  void resurfacingsAndRowsThatLackAFigureDoNotCount() {
    // Given the exact records, and among them an overlay and rows with blanks (blank is unknown)
    List<PastPatch> records = priced(30, 180, 125);
    records.add(patch("Resurfacing", 4_000.0, 500_000.0));
    records.add(patch("blade_patch", null, 900.0));
    records.add(patch("blade_patch", 3.0, null));
    RepairCost found = RepairCost.fromRecords(records).orElseThrow();
    assertEquals(180, found.perRepair(), 1e-6);
    assertEquals(125, found.perTonne(), 1e-6);
  }
}
