package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import lanemend.network.RoadClass;
import lanemend.renewal.RenewalRules;
import lanemend.renewal.repairs.RepairCost;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The agency file's object {@code renewal}. */
class RenewalRulesReaderTest {

  private static RenewalRules rules(String renewal) {
    return RenewalRulesReader.parse(
        "agency.json", "{\"renewal\": {" + renewal + "}}", RenewalRules.standard());
  }

  private static String fault(String renewal) {
    return assertThrows(ExchangeException.class, () -> rules(renewal)).getMessage();
  }

  @Test
  void anAgencyThatSaysNothingHasTheStandard() {
    assertEquals(
        RenewalRules.standard(),
        RenewalRulesReader.parse("agency.json", "{}", RenewalRules.standard()));
    assertEquals(RenewalRules.standard(), rules(""));
  }

  @Test
  void readsUsUnitsIntoSi() {
    RenewalRules r =
        rules(
            """
            "records_from": "2016-01-01", "records_to": "2026-01-01",
            "traffic_bands": [500, 2500], "min_project_miles": 1,
            "yearly_budgets": [400000, 450000.5], "discount_rate": 0.03, "analysis_years": 25,
            "overlay_price_per_ton": 90.718474, "milling_price_per_yd2_in": 0.836127360,
            "subgrade_psi": 7000, "structure": {"arterial": {"asphalt_in": 5, "base_in": 10}},
            "reliability": {"freeway": 0.99, "arterial": 0.9, "collector": 0.8, "local": 0.5}
            """);
    assertEquals(Optional.of(LocalDate.of(2016, 1, 1)), r.recordsFrom());
    assertEquals(Optional.of(LocalDate.of(2026, 1, 1)), r.recordsTo());
    assertEquals(List.of(500.0, 2500.0), r.trafficBands());
    assertEquals(1609.344, r.minProjectM(), 1e-9);
    assertEquals(List.of(400_000.0, 450_000.5), r.yearlyBudgets());
    assertEquals(0.03, r.overlay().discountRate());
    assertEquals(25, r.overlay().analysisYears());
    // 0.90718474 t a short ton; 0.83612736 m2 a square yard, 2.54 cm an inch; 6.894757 kPa a psi
    // (all exact or as NIST SP 811 gives them, from memory)
    assertEquals(100, r.overlay().price().perTonne(), 1e-9);
    assertEquals(1 / 2.54, r.overlay().price().perM2PerCmMilled(), 1e-9);
    assertEquals(7000 * 6.894757, r.overlay().soil().subgradeKpa(), 0.01);
    assertEquals(0.127, r.overlay().structures().get(RoadClass.ARTERIAL).asphaltM(), 1e-12);
    assertEquals(0.254, r.overlay().structures().get(RoadClass.ARTERIAL).baseM(), 1e-12);
    assertEquals(0.99, r.overlay().soil().reliability().get(RoadClass.FREEWAY));
    // and what was not named stays
    assertEquals(
        RenewalRules.standard().overlay().structures().get(RoadClass.LOCAL),
        r.overlay().structures().get(RoadClass.LOCAL));
    assertEquals(RenewalRules.standard().overlay().lifeYears(), r.overlay().lifeYears());
    assertEquals(RenewalRules.standard().overlay().limits(), r.overlay().limits());
  }

  @Test
  void bothSpellingsOfOneSizeGiveTheSameRules() {
    RenewalRules us =
        rules("\"min_project_miles\": 2, \"thinnest_overlay_in\": 2, \"most_rise_in\": 4");
    RenewalRules metric =
        rules(
            "\"min_project_km\": 3.218688, \"thinnest_overlay_mm\": 50.8, \"most_rise_mm\": 101.6");
    assertEquals(us.minProjectM(), metric.minProjectM(), 1e-9);
    assertEquals(us.overlay().limits().thinnestM(), metric.overlay().limits().thinnestM(), 1e-12);
    assertEquals(us.overlay().limits().mostRiseM(), metric.overlay().limits().mostRiseM(), 1e-12);
    assertTrue(fault("\"min_project_miles\": 2, \"min_project_km\": 3").contains("only one of"));
  }

  @Test
  void aRepairsTwoPricesGoTogether() {
    RepairCost both =
        rules("\"cost_per_repair\": 200, \"repair_price_per_tonne\": 130")
            .repairCost()
            .orElseThrow();
    assertEquals(new RepairCost(200, 130), both);
    assertTrue(fault("\"cost_per_repair\": 200").contains("renewal.repair_price_per_ton"));
    assertTrue(fault("\"repair_price_per_ton\": 110").contains("renewal.cost_per_repair"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "'yearly_budget': [1] | renewal.yearly_budget: found 'yearly_budget'",
        "'yearly_budgets': [1, -5] | renewal.yearly_budgets[1]: found '-5'",
        "'yearly_budgets': ['much'] | renewal.yearly_budgets[0]: found 'much'",
        "'yearly_budgets': 5 | renewal.yearly_budgets: found",
        "'discount_rate': 4 | renewal.discount_rate: found '4'",
        "'analysis_years': 20.5 | renewal.analysis_years: found '20.5'",
        "'min_project_miles': 0 | renewal.min_project_miles: found '0'",
        "'traffic_bands': [5000, 1000] | renewal.traffic_bands",
        "'records_from': '2026-01-01', 'records_to': '2026-01-01' | renewal.records_to",
        "'records_from': 'May' | renewal.records_from: found 'May'",
        "'reliability': {'freeway': 1} | renewal.reliability.freeway: found '1'",
        "'structure': {'local': {'asphalt': 3}} | renewal.structure.local.asphalt: found 'asphalt'",
        "'structure': {'street': {}} | renewal.structure.street: found 'street'",
        "'overlay_life_years': 0 | renewal.overlay_life_years: found '0'",
        "'subgrade_psi': -1 | renewal.subgrade_psi: found '-1'"
      })
  void aFaultIsNamedWithItsFieldAndWhatWasFound(String renewal, String said) {
    String message = fault(renewal.replace('\'', '"'));
    assertTrue(message.contains("agency.json:1 " + said), message);
  }

  @Test
  void renewalThatIsNoObjectIsAFault() {
    String message =
        assertThrows(
                ExchangeException.class,
                () ->
                    RenewalRulesReader.parse(
                        "agency.json", "{\"renewal\": [1]}", RenewalRules.standard()))
            .getMessage();
    assertTrue(message.contains("renewal"), message);
  }

  @Test
  void theAgencyFileMayHoldIt() {
    String agency =
        SettingsFilesTest.AGENCY.replaceFirst("\"plan\":", "\"renewal\": {}, \"plan\":");
    assertEquals("Alder County", AgencyReader.parse("agency.json", agency, SmallCounty.CRS).name());
  }
}
