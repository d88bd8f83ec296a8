package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.crewdays.Agency;
import lanemend.inventory.Severity;
import lanemend.measure.UnitSystem;
import lanemend.network.ProjectedCrs;
import lanemend.network.RoadClass;
import lanemend.patching.PatchSettings;
import lanemend.patching.Treatment;
import lanemend.patching.TreatmentRules;
import lanemend.renewal.RenewalRules;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SettingsFilesTest {
  static final String AGENCY =
      """
      {
        "name": "Alder County",
        "units": "us",
        "yards": [{"id": "Y1", "name": "North yard", "longitude": -93.05, "latitude": 44.01}],
        "plants": [
          {"id": "P1", "name": "Quarry plant", "longitude": -93.0, "latitude": 44.02,
           "opens": "06:30", "closes": "16:00", "daily_tons": 400, "load_minutes": 6,
           "mix_window_minutes": 120, "price_per_ton": 85.5}],
        "crews": [
          {"id": "C1", "name": "Crew one", "yard": "Y1", "shift_start": "07:00",
           "shift_hours": 9.5, "trucks": 3, "cost_per_hour": 410,
           "does": ["hand_patch", "blade_patch"], "days_off": ["2026-05-08"]}],
        "equipment": [{"id": "G1", "kind": "motor_grader", "out_of_service": []}],
        "plan": {
          "first_day": "2026-05-04", "calendar_days": 30,
          "workdays": ["monday", "tuesday", "wednesday", "thursday"], "blackout": ["2026-05-25"],
          "due_days": {"high": 7, "medium": 30, "low": 90},
          "due_factor": {"freeway": 0.5, "arterial": 0.75, "collector": 1, "local": 1.5},
          "max_zone_ft": {"freeway": 10560, "arterial": 5280, "collector": 5280, "local": 2640},
          "truck_payload_tons": 14, "truck_speed_factor": 0.85, "dump_minutes": 5,
          "truck_cost_per_hour": 95, "cost_per_mile": 3.2, "delay_cost_per_vehicle_hour": 22,
          "late_per_day": 40, "currency": "USD"}
      }
      """;

  private static final ProjectedCrs CRS = SmallCounty.CRS;

  @TempDir Path folder;

  private static String problems(String json) {
    ExchangeException e =
        assertThrows(ExchangeException.class, () -> AgencyReader.parse("agency.json", json, CRS));
    return e.getMessage().replace(System.lineSeparator(), "\n");
  }

  @Test
  void readsAnAgencyInUsUnits() {
    Agency a = AgencyReader.read(SmallCounty.write(folder, "agency.json", AGENCY), CRS);
    assertEquals(UnitSystem.US_CUSTOMARY, a.units());
    assertEquals(CRS.project(-93.05, 44.01)[0], a.yards().get(0).x());
    // 400 short tons x 0.90718474; 85.5 per ton / 0.90718474; 3.2 per mile / 1.609344.
    assertEquals(362.873896, a.plants().get(0).dailyTonnes(), 1e-9);
    assertEquals(94.2476172, a.plants().get(0).pricePerTonne().doubleValue(), 1e-6);
    assertEquals(1.98838782, a.plan().costPerKm().doubleValue(), 1e-8);
    assertEquals(LocalTime.of(7, 0), a.crews().get(0).shiftStart());
    assertEquals(570, a.crews().get(0).shiftMinutes());
    assertEquals(Set.of(Treatment.HAND_PATCH, Treatment.BLADE_PATCH), a.crews().get(0).does());
    assertEquals(3218.688, a.plan().maxZoneM().get(RoadClass.FREEWAY), 1e-9);
    assertEquals(90, a.plan().dueDays().get(Severity.LOW));
    assertTrue(a.plan().workdays().contains(DayOfWeek.THURSDAY));
  }

  /** Written with the standard constants. */
  private static String plain(Agency a) {
    return AgencyWriter.json(
        a, CRS, PatchSettings.standard().inWords(a.units()), RenewalRules.standard());
  }

  @Test
  void theAgencysOwnConstantsAreWrittenToo() {
    // Given an agency that puts its own in place of a constant here and there
    String file =
        AGENCY.replaceFirst(
            "\"plan\":",
            """
            "patching": {"blade": {"max_lift_m": 0.03}, "roller": {"passes": 6},
                         "traffic": {"delay": {"lane_capacity": 1510.5}}},
            "renewal": {"records_from": "2012-01-01", "traffic_bands": [800, 6000],
              "min_project_miles": 0.7, "cost_per_repair": 210, "repair_price_per_ton": 131.5,
              "yearly_budgets": [250000, 0, 410000.5], "overlay_price_per_ton": 101,
              "milling_price_per_yd2_in": 1.35, "subgrade_psi": 6200, "analysis_years": 25,

              "reliability": {"freeway": 0.95, "arterial": 0.9, "collector": 0.8, "local": 0.7}, "structure": {"local": {"asphalt_in": 2.5}},
              "most_rise_in": 3,
              "layer_coefficients": {"asphalt": [
                {"condition": "sound", "least_index": 70, "alligator_low": 10, "low": 0.3,
                 "high": 0.4},
                {"condition": "anything else", "low": 0.1, "high": 0.2}]}},
            "plan":""");
    Agency a = AgencyReader.parse("agency.json", file, CRS);
    PatchSettings base = PatchSettings.standard().inWords(a.units());
    PatchSettings patching = PatchOverrides.parse("agency.json", file, base);
    RenewalRules renewal = RenewalRulesReader.parse("agency.json", file, RenewalRules.standard());
    assertEquals(0.03, patching.blade().maxLiftM());
    // when it is written and read again
    String text = AgencyWriter.json(a, CRS, patching, renewal);
    // then every constant is there, to the last bit or the last printed digit
    assertEquals(patching, PatchOverrides.parse("again", text, base));
    RenewalRules back = RenewalRulesReader.parse("again", text, RenewalRules.standard());
    assertEquals(text, AgencyWriter.json(a, CRS, patching, back));
    assertEquals(renewal.yearlyBudgets(), back.yearlyBudgets());
    assertEquals(renewal.overlay().layers(), back.overlay().layers());
    assertEquals(renewal.overlay().structures(), back.overlay().structures());
    assertEquals(
        renewal.repairCost().orElseThrow().perTonne(),
        back.repairCost().orElseThrow().perTonne(),
        1e-9);
    assertTrue(text.contains("\"most_rise_in\" : 3"), text);
    // and nothing that is the standard's
    assertTrue(!text.contains("overlay_life_years") && !text.contains("base_in"), text);
    // and the same in metric, with an agency that reads its sentences in feet all the same
    Agency metric =
        new Agency(
            a.name(), UnitSystem.METRIC, a.yards(), a.plants(), a.crews(), a.equipment(), a.plan());
    String inMetres = AgencyWriter.json(metric, CRS, patching, renewal);
    assertTrue(inMetres.contains("\"most_rise_mm\" : 76.2"), inMetres);
    PatchSettings metricBase = PatchSettings.standard().inWords(UnitSystem.METRIC);
    assertEquals(patching, PatchOverrides.parse("metric", inMetres, metricBase));
  }

  @Test
  void coefficientsThatLeaveAConditionOutAreRefused() {
    String message =
        assertThrows(
                ExchangeException.class,
                () ->
                    RenewalRulesReader.parse(
                        "agency.json",
                        "{\"renewal\": {\"layer_coefficients\": {\"asphalt\": [{\"condition\":"
                            + " \"sound\", \"alligator_low\": 5, \"low\": 0.3, \"high\": 0.4}]}}}",
                        RenewalRules.standard()))
            .getMessage();
    assertTrue(message.contains("the last row of asphalt must allow everything"), message);
  }

  @Test
  void whatIsWrittenReadsBackTheSame() {
    Agency a = AgencyReader.parse("agency.json", AGENCY, CRS);
    String text = plain(a);
    assertTrue(text.contains("\"price_per_ton\" : 85.5"), text);
    assertTrue(text.contains("\"longitude\" : -93.05"), text);
    assertEquals(text, plain(AgencyReader.parse("again", text, CRS)));
    Agency metric =
        new Agency(
            a.name(), UnitSystem.METRIC, a.yards(), a.plants(), a.crews(), a.equipment(), a.plan());
    Agency back = AgencyReader.parse("metric", plain(metric), CRS);
    assertEquals(metric.crews(), back.crews());
    assertEquals(metric.plan(), back.plan());
    assertEquals(
        metric.plants().get(0).pricePerTonne().doubleValue(),
        back.plants().get(0).pricePerTonne().doubleValue(),
        1e-9);
  }

  @Test
  void everyFaultIsNamedWithItsLineAndPath() {
    assertEquals(
        """
        agency.json:6 plants[0].daily_tons: found nothing, expected a number from 0 to 1102311.310924388
        agency.json:6 plants[0].daily_tns: found 'daily_tns', expected one of the fields closes, daily_tonnes, daily_tons, id, latitude, load_minutes, longitude, mix_window_minutes, name, opens, price_per_ton, price_per_tonne
        agency.json:11 crews[0].trucks: found 'three', expected a whole number from 0 to 100
        agency.json:12 crews[0].does[1]: found 'blading', expected one of hand_patch, blade_patch, dig_out_and_rebuild, edge_repair, crack_treatment, surface_treatment, defer_to_overlay
        agency.json:15 plan.first_day: found '4 May', expected a date such as 2026-04-30"""
            .replace("agency.json:6 plants[0].daily_tns", "agency.json:7 plants[0].daily_tns"),
        problems(
            AGENCY
                .replace("daily_tons", "daily_tns")
                .replace("\"trucks\": 3", "\"trucks\": \"three\"")
                .replace("\"blade_patch\"", "\"blading\"")
                .replace("2026-05-04", "4 May")));
  }

  @Test
  void factsThatDoNotFitTogetherAreRefused() {
    assertEquals(
        "agency.json:10 crews[0].yard: found 'Y7', expected the id of a yard",
        problems(AGENCY.replace("\"yard\": \"Y1\"", "\"yard\": \"Y7\"")));
    assertEquals(
        "agency.json:7 plants[0].closes: found '06:00', expected a time after opens",
        problems(AGENCY.replace("16:00", "06:00")));
    assertEquals(
        "agency.json:11 crews[0].shift_hours: found '9.51', expected hours that make whole minutes",
        problems(AGENCY.replace("9.5", "9.51")));
    assertEquals(
        "agency.json:20 plan.truck_payload_tonnes: found '12', expected only one of"
            + " truck_payload_tons and truck_payload_tonnes",
        problems(
            AGENCY.replace(
                "\"truck_payload_tons\": 14",
                "\"truck_payload_tons\": 14, \"truck_payload_tonnes\": 12")));
    assertEquals(
        "agency.json:3 units: found 'us', expected each field once",
        problems(AGENCY.replace("\"units\": \"us\",", "\"units\": \"us\",\"units\": \"us\",")));
    assertTrue(problems("[]").startsWith("agency.json:1: found 'an array', expected an object"));
    assertTrue(problems("{").contains("well-formed JSON to the end of the file"));
    assertTrue(problems("{\"a\":" + "[".repeat(200)).contains("well-formed JSON"));
  }

  @Test
  void anAgencyMayPutItsOwnConstantsInPlace() {
    PatchSettings standard = PatchSettings.standard();
    String json =
        AGENCY.replace(
            "\"units\": \"us\",",
            "\"units\": \"us\", \"patching\": {\"blade\": {\"max_lift_m\": 0.03},"
                + " \"roller\": {\"passes\": 6}},");
    assertEquals(UnitSystem.US_CUSTOMARY, AgencyReader.parse("a", json, CRS).units());
    PatchSettings own = PatchOverrides.parse("a", json, standard);
    assertEquals(0.03, own.blade().maxLiftM());
    assertEquals(6, own.roller().passes());
    assertEquals(standard.blade().moldboardM(), own.blade().moldboardM());
    assertEquals(standard, PatchOverrides.parse("a", AGENCY, standard));
    for (String wrong :
        List.of(
            "{\"blade\": {\"max_lift\": 0.03}}",
            "{\"blade\": {\"max_lift_m\": 0}}",
            "{\"blade\": {\"max_lift_m\": \"1 in\"}}",
            "{\"blade\": 1}",
            "7")) {
      String text = "{\"patching\": " + wrong + "}";
      assertThrows(ExchangeException.class, () -> PatchOverrides.parse("a", text, standard), wrong);
    }
  }

  @Test
  void theStandardTreatmentTableReadsBackTheSameInBothUnits() {
    TreatmentRules standard = TreatmentRules.standard();
    for (UnitSystem units : UnitSystem.values()) {
      String text = TreatmentRulesJson.json(standard, units);
      TreatmentRules back = TreatmentRulesJson.parse("rules.json", text);
      assertEquals(text, TreatmentRulesJson.json(back, units));
      assertEquals(standard.rules().size(), back.rules().size());
    }
    assertTrue(
        TreatmentRulesJson.json(standard, UnitSystem.US_CUSTOMARY)
            .contains("\"area_ft2\" : {\n      \"at_least\" : 10\n    }"));
  }

  @Test
  void aTreatmentTableThatCouldLeaveADefectWithoutTreatmentIsRefused() {
    String rule =
        """
        {"rules": [
        {"id": "a", "kinds": ["pothole"], "treatment": "hand_patch", "reason": "small"}]}
        """;
    assertTrue(
        assertThrows(ExchangeException.class, () -> TreatmentRulesJson.parse("r.json", rule))
            .getMessage()
            .contains("a last rule without any is expected"));
    assertEquals(
        "r.json:2 rules[0].kinds[0]",
        assertThrows(
                ExchangeException.class,
                () -> TreatmentRulesJson.parse("r.json", rule.replace("pothole", "hole")))
            .getMessage()
            .split(": ", 2)[0]);
  }

  @Test
  void aCountysManifestNamesItsFiles() {
    SmallCounty.write(folder, "roads.geojson", SmallCounty.ROADS);
    SmallCounty.write(folder, "posts.csv", SmallCounty.POSTS);
    SmallCounty.write(folder, "d1.csv", "");
    SmallCounty.write(folder, "d2.csv", "");
    String json =
        """
        {"name": "Alder County", "note": "invented",
         "roads": {"file": "roads.geojson", "speed_unit": "kmh",
          "fields": {"route": "ref|name"}, "classes": {"primary": "arterial"}},
         "posts": "posts.csv", "defects": ["d1.csv", "d2.csv"]}
        """;
    SmallCounty.write(folder, "county.json", json);
    CountyManifest m = CountyManifest.read(folder);
    assertEquals(SpeedUnit.KMH, m.roads().speedUnit());
    assertEquals(List.of("ref", "name"), m.roads().fields().columnsOf("route"));
    assertEquals(2, m.defects().size());
    assertEquals(Optional.empty(), m.agency());
    SmallCounty.write(
        folder,
        "county.json",
        json.replace("d2.csv", "../d2.csv")
            .replace("arterial", "big")
            .replace("\"posts\"", "\"postz\""));
    assertEquals(
        """
        county.json:3 roads.classes: found 'an object', expected a mapping (class 'primary' is mapped to 'big', expected freeway, arterial, collector, local or ignore)
        county.json:4 defects[1]: found '../d2.csv', expected the name of a file in this folder
        county.json:4 postz: found 'postz', expected one of the fields agency, attributes, defects, findings, forecast, name, note, patches, posts, roads""",
        assertThrows(ExchangeException.class, () -> CountyManifest.read(folder))
            .getMessage()
            .replace(System.lineSeparator(), "\n"));
  }
}
