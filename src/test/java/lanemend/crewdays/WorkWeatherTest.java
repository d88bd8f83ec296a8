package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.time.Month;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.junit.jupiter.api.Test;

/** Dates lost, kept free, too cold; the mix window in cold and wind. */
class WorkWeatherTest {
  private static final LocalDate MONDAY = TestCounty.MONDAY;

  private static WorkSeason june(double lost, double onTime) {
    return new WorkSeason(
        MonthDay.of(4, 15),
        MonthDay.of(10, 31),
        10,
        0.6,
        5,
        onTime,
        Map.of(Month.JUNE, new WorkSeason.Usual(lost, 20)),
        MixCooling.STANDARD);
  }

  private static Agency agency(int days, WorkSeason season, Forecast forecast) {
    return TestCounty.agency(
            List.of(TestCounty.crew("A", "Y1", 600, 3, Treatment.values())),
            TestCounty.settings(days).under(FinishRule.NONE, season))
        .withForecast(forecast);
  }

  /** Twenty workdays, one in five lost: a library's binomial says how many to keep free. */
  @Test
  void asManyDatesAreKeptFreeAsTheBinomialSays() {
    for (double sure : new double[] {0.5, 0.8, 0.95}) {
      WorkWeather weather = WorkWeather.of(agency(28, june(0.2, sure), Forecast.NONE));
      long kept =
          weather.dates().stream().filter(d -> d.use() == WorkWeather.Use.KEPT_FREE).count();
      assertEquals(
          new BinomialDistribution(20, 0.2).inverseCumulativeProbability(sure), kept, "at " + sure);
    }
  }

  @Test
  void atEveryDateEnoughWasKeptFree() {
    WorkWeather weather = WorkWeather.of(agency(28, june(0.3, 0.9), Forecast.NONE));
    int workdays = 0;
    int kept = 0;
    for (WorkWeather.Outlook day : weather.dates()) {
      if (day.date().getDayOfWeek().getValue() <= 5) {
        workdays++;
        kept += day.use() == WorkWeather.Use.KEPT_FREE ? 1 : 0;
        assertTrue(
            new BinomialDistribution(workdays, 0.3).cumulativeProbability(kept) >= 0.9 - 1e-9);
      }
    }
  }

  @Test
  void aForecastDecidesItsDatesAndSaysWhy() {
    Forecast forecast =
        new Forecast(
            List.of(
                new Forecast.Day(MONDAY, 0.7, 0, 12, 22, 0),
                new Forecast.Day(MONDAY.plusDays(1), 0.1, 8, 12, 22, 0),
                new Forecast.Day(MONDAY.plusDays(2), 0.1, 0, 1, 8, 0),
                new Forecast.Day(MONDAY.plusDays(3), 0.1, 0, 12, 24, 0)));
    WorkWeather weather = WorkWeather.of(agency(7, june(0, 0), forecast));
    assertEquals(WorkWeather.Use.LOST, weather.on(MONDAY).use());
    assertTrue(weather.on(MONDAY).reason().contains("70 % chance of rain"));
    assertTrue(weather.on(MONDAY.plusDays(1)).reason().contains("of rain, work stops from"));
    assertEquals(WorkWeather.Use.NO_HOT_MIX, weather.on(MONDAY.plusDays(2)).use());
    assertEquals(
        "no hot mix: forecast 46 deg F at most, least 50 deg F",
        weather.on(MONDAY.plusDays(2)).reason());
    assertEquals(WorkWeather.Use.FULL, weather.on(MONDAY.plusDays(3)).use());
  }

  @Test
  void hotMixWaitsForItsSeasonAndCrackWorkDoesNot() {
    WorkSeason late =
        new WorkSeason(
            MonthDay.of(7, 1),
            MonthDay.of(9, 30),
            Double.NaN,
            0.6,
            5,
            0,
            Map.of(),
            MixCooling.STANDARD);
    Agency agency = agency(14, late, Forecast.NONE);
    List<PatchDesign> repairs =
        List.of(
            TestCounty.repair("D1", 1000, Treatment.BLADE_PATCH, 10),
            TestCounty.repair("D2", 3000, Treatment.CRACK_TREATMENT, 0));
    Plan plan =
        new CrewDayPlanner(TestCounty.CROW, agency, TestCounty.CONES)
            .plan(repairs, SearchBudget.iterations(500, 1), PlanProgress.NONE)
            .plan();
    assertEquals(1, plan.days().size());
    assertEquals("D2", plan.days().get(0).stops().get(0).zone().repairs().get(0).defect().id());
    assertEquals(
        "needs hot mix, which can be laid on no day of the plan on which a crew that does blade"
            + " patch works",
        plan.leftOut().get(0).reason());
  }

  @Test
  void aFullHorizonSaysWhatWeatherTakesOfIt() {
    List<PatchDesign> repairs = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      repairs.add(
          TestCounty.repair(
              "D" + i, "SR 1", Side.RIGHT, 1000 + 2000 * i, 5, Treatment.CRACK_TREATMENT, 0, 400));
    }
    Plan plan =
        new CrewDayPlanner(
                TestCounty.CROW, agency(7, june(0.3, 0.8), Forecast.NONE), TestCounty.CONES)
            .plan(repairs, SearchBudget.iterations(500, 1), PlanProgress.NONE)
            .plan();
    // Of five workdays, 0.3 each, at most two are lost with 0.8: 0.837 (binomial table).
    assertEquals(3, plan.days().size());
    assertEquals(
        "horizon full before 2026-06-08; weather takes 2 workdays of it",
        plan.leftOut().get(0).reason());
  }

  /**
   * Newton's law of cooling (textbook): from 150 to 115 C in air of 20 C takes ln(130/95) time
   * constants, in air of 5 C ln(145/110): 0.2763 / 0.3137 = 0.881 of the window.
   */
  @Test
  void coldShortensTheMixWindowByNewtonsLaw() {
    assertEquals(0.881, MixCooling.STANDARD.share(5, 10), 5e-4);
    assertEquals(0.85, MixCooling.STANDARD.stepped(5, 10), 1e-9);
    assertEquals(1, MixCooling.STANDARD.stepped(30, 0), 1e-9);
    // Juerges above 5 m/s: (60/90)^0.78 = 0.729 with 40 km/h of wind instead of 10.
    assertEquals(0.729, MixCooling.STANDARD.share(20, 40), 5e-4);
  }
}
