package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import lanemend.network.RoadClass;
import lanemend.renewal.RenewalRules;
import lanemend.renewal.overlay.OverlayRules;
import org.junit.jupiter.api.Test;

/** The object {@code renewal} of the agency file. */
class RenewalRulesReaderTest {
  private static final RenewalRules STANDARD = RenewalRules.standard();

  private static RenewalRules read(String renewal) {
    return RenewalRulesReader.parse(
        "agency.json", "{\"name\": \"A\", \"renewal\": " + renewal + "}", STANDARD);
  }

  private static String wrong(String renewal) {
    return assertThrows(ExchangeException.class, () -> read(renewal)).getMessage();
  }

  @Test
  void whatIsNotSaidStaysAsItIs() {
    assertEquals(STANDARD, RenewalRulesReader.parse("agency.json", "{\"name\": \"A\"}", STANDARD));
    assertEquals(STANDARD, read("{}"));
  }

  @Test
  void usAndMetricSpellingsSayTheSame() {
    // 0.5 mi = 0.804672 km; 90 / 0.90718474 = 99.2080; 1.50 a yd2 and in = 1.5 / 0.83612736 m2 /
    // 2.54 cm = 0.706293; 5,000 psi = 34,473.786 kPa; 5 in = 127 mm (NIST SP 811, from memory)
    RenewalRules us =
        read(
            """
            {"min_project_miles": 0.5, "overlay_price_per_ton": 90,
             "milling_price_per_yd2_in": 1.5, "subgrade_psi": 5000,
             "structure": {"local": {"asphalt_in": 5}}}""");
    RenewalRules metric =
        read(
            """
            {"min_project_km": 0.804672, "overlay_price_per_tonne": 99.2080180,
             "milling_price_per_m2_cm": 0.7062933, "subgrade_kpa": 34473.786,
             "structure": {"local": {"asphalt_mm": 127}}}""");
    for (RenewalRules r : List.of(us, metric)) {
      OverlayRules o = r.overlay();
      assertEquals(804.672, r.minProjectM(), 1e-9);
      assertEquals(99.208018, o.price().perTonne(), 1e-5);
      assertEquals(0.7062933, o.price().perM2PerCmMilled(), 1e-6);
      assertEquals(34473.786, o.soil().subgradeKpa(), 1e-2);
      assertEquals(0.127, o.structures().get(RoadClass.LOCAL).asphaltM(), 1e-12);
      // the rest of the road class and the other classes stay
      assertEquals(
          STANDARD.overlay().structures().get(RoadClass.LOCAL).baseM(),
          o.structures().get(RoadClass.LOCAL).baseM());
      assertEquals(
          STANDARD.overlay().structures().get(RoadClass.FREEWAY),
          o.structures().get(RoadClass.FREEWAY));
    }
  }

  @Test
  void budgetsDaysAndBandsAreRead() {
    RenewalRules r =
        read(
            """
            {"records_from": "2016-01-01", "records_to": "2026-01-01",
             "traffic_bands": [500, 2500], "yearly_budgets": [100000, 0, 250000.5],
             "discount_rate": 0.03, "analysis_years": 25, "cost_per_repair": 400,
             "repair_price_per_tonne": 150}""");
    assertEquals(Optional.of(LocalDate.of(2016, 1, 1)), r.recordsFrom());
    assertEquals(List.of(500.0, 2500.0), r.trafficBands());
    assertEquals(List.of(100_000.0, 0.0, 250_000.5), r.yearlyBudgets());
    assertEquals(0.03, r.overlay().discountRate());
    assertEquals(25, r.overlay().analysisYears());
    assertEquals(400, r.repairCost().orElseThrow().perRepair());
    assertEquals(150, r.repairCost().orElseThrow().perTonne());
  }

  @Test
  void everyFaultIsNamedWithItsFieldAtOnce() {
    String said =
        wrong(
            """
            {"yearly_budget": [1], "discount_rate": 4, "traffic_bands": [2500, 500],
             "yearly_budgets": [1, "much"], "overlay_price_per_ton": 90,
             "overlay_price_per_tonne": 99, "structure": {"locall": {}}}""");
    for (String field :
        List.of(
            "renewal.yearly_budget",
            "renewal.discount_rate",
            "renewal.traffic_bands",
            "renewal.yearly_budgets[1]",
            "renewal.overlay_price_per_tonne",
            "renewal.structure.locall")) {
      assertTrue(said.contains(field), field + " in\n" + said);
    }
  }

  @Test
  void halfARepairCostIsRefused() {
    assertTrue(wrong("{\"cost_per_repair\": 400}").contains("renewal.repair_price_per_ton"));
  }

  @Test
  void recordsThatEndBeforeTheyBeginAreRefused() {
    assertTrue(
        wrong("{\"records_from\": \"2026-01-01\", \"records_to\": \"2016-01-01\"}")
            .contains("records_to"));
  }
}
