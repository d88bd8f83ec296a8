package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.Month;
import java.time.MonthDay;
import java.util.List;
import java.util.Set;
import lanemend.crewdays.Agency;
import lanemend.crewdays.FinishRule;
import lanemend.crewdays.Forecast;
import lanemend.crewdays.MixCooling;
import lanemend.crewdays.Plant;
import lanemend.crewdays.WorkSeason;
import lanemend.measure.UnitSystem;
import lanemend.patching.PatchSettings;
import lanemend.patching.Treatment;
import lanemend.renewal.RenewalRules;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Chance of finishing, season, stockpiles and forecasts from files. */
class WorkRulesTest {
  private static final String RULES =
      """
      "currency": "USD", "finish_probability": 0.9,
          "spread": {"day": 0.1, "drive": 0.2},
          "season": {"hot_mix_from": "04-15", "hot_mix_to": "10-20", "least_air_f": 50,
            "rain_probability_lost": 0.5, "rain_in_lost": 0.2, "on_time_probability": 0.75,
            "usual": {"may": {"lost_day_probability": 0.2, "air_f": 59}},
            "mix_cooling": {"load_f": 320, "least_f": 248, "window_air_f": 68,
              "window_wind_mph": 5}}}""";

  private static final String PILE =
      """
      "stockpiles": [{"id": "S1", "name": "Cold pile", "longitude": -93.05, "latitude": 44.01,
        "tons": 100, "load_minutes": 5, "price_per_ton": 140, "serves": ["hand_patch"]}],
        "crews": [""";

  @TempDir Path folder;

  private static final String AGENCY =
      SettingsFilesTest.AGENCY
          .replace("\"currency\": \"USD\"}", RULES)
          .replace("\"crews\": [", PILE);

  private static Agency read(String json) {
    return AgencyReader.parse("agency.json", json, SmallCounty.CRS);
  }

  private static String problems(String json) {
    return assertThrows(ExchangeException.class, () -> read(json)).getMessage();
  }

  @Test
  void readsChanceSeasonAndStockpile() {
    Agency a = read(AGENCY);
    FinishRule finish = a.plan().finish();
    assertEquals(new FinishRule(0.9, 0.1, 0.2, 0.25, 0.4), finish);
    WorkSeason season = a.plan().season();
    assertEquals(MonthDay.of(4, 15), season.hotMixFrom());
    assertEquals(10, season.leastAirC(), 1e-9);
    assertEquals(5.08, season.rainMm(), 1e-9);
    assertEquals(15, season.usual().get(Month.MAY).airC(), 1e-9);
    assertEquals(160, season.cooling().loadC(), 1e-9);
    assertEquals(8.04672, season.cooling().windKmh(), 1e-9);
    Plant pile = a.plants().get(1);
    assertTrue(pile.isStockpile());
    assertEquals(90.718474, pile.stockTonnes(), 1e-9);
    assertEquals(Set.of(Treatment.HAND_PATCH), pile.serves());
  }

  @Test
  void whatTheFileLeavesOutIsUsual() {
    Agency a = read(SettingsFilesTest.AGENCY);
    assertEquals(0.85, a.plan().finish().probability());
    assertEquals(WorkSeason.NONE, a.plan().season());
    assertEquals(MixCooling.STANDARD, a.plan().season().cooling());
  }

  @Test
  void everyNewSettingIsWrittenBack() {
    for (UnitSystem units : UnitSystem.values()) {
      Agency a = read(AGENCY);
      Agency in =
          new Agency(a.name(), units, a.yards(), a.plants(), a.crews(), a.equipment(), a.plan());
      Agency back =
          read(
              AgencyWriter.json(
                  in, SmallCounty.CRS, PatchSettings.standard(), RenewalRules.standard()));
      assertEquals(in.plan().finish(), back.plan().finish());
      WorkSeason one = in.plan().season();
      WorkSeason two = back.plan().season();
      assertEquals(one.hotMixTo(), two.hotMixTo());
      assertEquals(one.leastAirC(), two.leastAirC(), 1e-9);
      assertEquals(one.rainMm(), two.rainMm(), 1e-9);
      assertEquals(one.onTime(), two.onTime());
      assertEquals(one.rainChance(), two.rainChance());
      assertEquals(one.usual().keySet(), two.usual().keySet());
      assertEquals(one.cooling().windKmh(), two.cooling().windKmh(), 1e-9);
      assertEquals(one.cooling().leastC(), two.cooling().leastC(), 1e-9);
      assertEquals(in.plants().get(1).stockTonnes(), back.plants().get(1).stockTonnes(), 1e-9);
      assertEquals(in.plants().get(1).serves(), back.plants().get(1).serves());
      String text =
          AgencyWriter.json(
              back, SmallCounty.CRS, PatchSettings.standard(), RenewalRules.standard());
      assertEquals(
          text,
          AgencyWriter.json(
              read(text), SmallCounty.CRS, PatchSettings.standard(), RenewalRules.standard()));
    }
  }

  @Test
  void wrongSettingsAreNamed() {
    assertTrue(
        problems(AGENCY.replace("0.9,", "1.9,"))
            .contains("plan.finish_probability: found '1.9', expected a number from 0 to 0.999"));
    assertTrue(
        problems(AGENCY.replace("\"10-20\"", "\"03-20\""))
            .contains("plan.season.hot_mix_to: found '03-20', expected a day of the year not"));
    assertTrue(
        problems(AGENCY.replace("\"04-15\"", "\"15 April\""))
            .contains("plan.season.hot_mix_from: found '15 April', expected a day of the year"));
    assertTrue(
        problems(AGENCY.replace("\"load_f\": 320", "\"load_f\": 200"))
            .contains("load temperature above least temperature above window_air"));
    assertTrue(problems(AGENCY.replace("\"may\"", "\"mai\"")).contains("plan.season.usual.mai"));
  }

  @Test
  void aForecastIsReadRowByRow() {
    Path file =
        SmallCounty.write(
            folder,
            "forecast.csv",
            """
            date,rain_probability,rain_in,min_temperature_f,max_temperature_f,wind_mph
            2026-05-04,0.1,0,41,68,10
            2026-05-05,40,0,41,68,10
            2026-05-04,0.2,0,41,68,10
            2026-05-06,0.2,0.5,68,41,
            5 May,0.2,0.5,41,68,
            2026-05-07,0.2,0.5,50,59,
            """);
    Read<Forecast.Day> read = ForecastReader.read(file, FieldMap.NONE);
    assertEquals(2, read.rows().size());
    Forecast.Day first = read.rows().get(0);
    assertEquals(LocalDate.of(2026, 5, 4), first.date());
    assertEquals(5, first.minC(), 1e-9);
    assertEquals(20, first.maxC(), 1e-9);
    assertEquals(16.09344, first.windKmh(), 1e-9);
    assertEquals(12.7, read.rows().get(1).rainMm(), 1e-9);
    List<String> said = read.problems().stream().map(RowProblem::toString).toList();
    assertEquals(4, said.size());
    String all = String.join("; ", said);
    assertTrue(all.contains("a number from 0 to 1"), all);
    assertTrue(all.contains("each date once; it also stands at"), all);
    assertTrue(all.contains("at least the day's least temperature"), all);
    assertTrue(all.contains("a date such as"), all);
  }

  @Test
  void theStoresForecastReadsBackAndTheLatestWordCounts() {
    Forecast.Day monday = new Forecast.Day(LocalDate.of(2026, 5, 4), 0.1, 0, 5, 20, 9);
    Forecast.Day tuesday = new Forecast.Day(LocalDate.of(2026, 5, 5), 0.7, 3.5, 5, 20, 0);
    Forecast.Day later = new Forecast.Day(LocalDate.of(2026, 5, 5), 0.2, 0, 5, 22, 0);
    Forecast told = ForecastJson.merged(new Forecast(List.of(tuesday, monday)), List.of(later));
    assertEquals(List.of(monday, later), told.days());
    assertEquals(told, ForecastJson.parse("forecast", ForecastJson.json(told)));
  }
}
