package lanemend.web.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.List;
import lanemend.crewdays.Plan;
import lanemend.measure.UnitSystem;
import org.junit.jupiter.api.Test;

class SheetIndexTest {
  private static final Plan PLAN =
      new Plan(
          List.of(InventedDay.day()),
          List.of(new Plan.LeftOut("D-0999", "needs more mix <300 t> than the plant gives")),
          new BigDecimal("6142.50"),
          "USD");

  @Test
  void aDayLinksToItsPageAndPdfAndSaysTonsHoursAndCost() {
    String html = new SheetIndex(InventedDay.context(UnitSystem.US_CUSTOMARY)).html(PLAN);
    assertTrue(html.contains("href=\"2026-05-04-north_002f1.html\""), html);
    assertTrue(html.contains("href=\"2026-05-04-north_002f1.pdf\""), html);
    // Leaves 7:05, back 16:29: 9 h 24 min.
    assertTrue(html.contains("<td class=\"num\">9.4</td>"), html);
    assertTrue(html.contains("<td class=\"num\">6,142.50</td>"), html);
    // 300 + 1.25 + 80 + 1 + 10 ft3 at 145 lb/ft3: 392.25 x 145 / 2000 = 28.44 short tons, 25.80 t.
    assertTrue(html.contains("1 crew day, 13 repairs, 28.4\u00a0tons of mix"), html);
    String metric = new SheetIndex(InventedDay.context(UnitSystem.METRIC)).html(PLAN);
    assertTrue(metric.contains("25.8\u00a0t of mix"), metric);
  }

  @Test
  void whatWasLeftOutIsListedWithItsReason() {
    String html = new SheetIndex(InventedDay.context(UnitSystem.US_CUSTOMARY)).html(PLAN);
    assertTrue(html.contains("Not planned: 1"));
    assertTrue(
        html.contains("D-0999</td><td>needs more mix &lt;300 t&gt; than the plant gives"), html);
  }

  @Test
  void twoCrewsNeverShareAFile() {
    assertEquals("2026-05-04-north_002f1", SheetIndex.fileName(InventedDay.day()));
  }
}
