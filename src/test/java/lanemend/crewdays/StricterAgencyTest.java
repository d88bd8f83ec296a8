package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.Month;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.network.Side;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/** A plan that was good is checked for an agency that asks for more: the checker must say what. */
class StricterAgencyTest {
  private static final LocalDate MONDAY = TestCounty.MONDAY;

  private final List<PatchDesign> repairs = new ArrayList<>();
  private final Agency loose;
  private final Plan plan;

  StricterAgencyTest() {
    for (int i = 0; i < 8; i++) {
      repairs.add(TestCounty.repair("D" + i, 1000 + 1500 * i, Treatment.HAND_PATCH, 2));
    }
    loose =
        agency(
            FinishRule.NONE.asking(0.6),
            WorkSeason.NONE,
            100,
            List.of("H1", "H2", "H3"),
            Treatment.HAND_PATCH);
    plan =
        new CrewDayPlanner(TestCounty.CROW, loose, TestCounty.CONES)
            .plan(repairs, SearchBudget.iterations(1_000, 1), PlanProgress.NONE)
            .plan();
  }

  private static Agency agency(
      FinishRule rule, WorkSeason season, double stock, List<String> trucks, Treatment serves) {
    Agency base =
        TestCounty.agency(
            List.of(TestCounty.crew("A", "Y1", 600, 3, Treatment.values())),
            TestCounty.settings(7).under(rule, season));
    List<EquipmentUnit> units =
        trucks.stream().map(t -> new EquipmentUnit(t, Equipment.HAUL_TRUCK, Set.of())).toList();
    return new Agency(
        base.name(),
        base.units(),
        base.yards(),
        List.of(
            Plant.stockpile("P1", "pile", 0, 0, stock, 6, new BigDecimal("85"), Set.of(serves))),
        base.crews(),
        units,
        base.plan(),
        Forecast.NONE);
  }

  private String said(Agency agency) {
    return String.join(
        "; ", new PlanChecker(agency, TestCounty.CROW, TestCounty.CONES).check(plan, repairs));
  }

  @Test
  void thePlanIsGoodForTheAgencyItWasMadeFor() {
    assertEquals("", said(loose));
    assertTrue(plan.days().stream().allMatch(d -> d.trucks() >= 1));
  }

  @Test
  void aHigherChanceIsAskedFor() {
    FinishRule strict = FinishRule.NONE.asking(0.999);
    String said =
        said(agency(strict, WorkSeason.NONE, 100, List.of("H1", "H2", "H3"), Treatment.HAND_PATCH));
    assertTrue(said.contains("ends inside its shift with a chance of"), said);
  }

  @Test
  void rainColdAndKeptDatesAreSeen() {
    Forecast wet = new Forecast(List.of(new Forecast.Day(MONDAY, 0.9, 0, 15, 25, 0)));
    assertTrue(said(loose.withForecast(wet)).contains("is on a day lost to rain"));
    WorkSeason rainy =
        new WorkSeason(
            MonthDay.of(1, 1),
            MonthDay.of(12, 31),
            Double.NaN,
            0.6,
            5,
            0.95,
            Map.of(Month.JUNE, new WorkSeason.Usual(0.5, 20)),
            MixCooling.STANDARD);
    String said =
        said(agency(FinishRule.NONE, rainy, 100, List.of("H1", "H2", "H3"), Treatment.HAND_PATCH));
    assertTrue(said.contains("must be kept free for lost days"), said);
  }

  @Test
  void stockPoolAndMixAreCounted() {
    String little =
        said(
            agency(
                FinishRule.NONE,
                WorkSeason.NONE,
                10,
                List.of("H1", "H2", "H3"),
                Treatment.HAND_PATCH));
    assertTrue(little.contains("t are taken from pile, which holds 10.0"), little);
    String other =
        said(
            agency(
                FinishRule.NONE,
                WorkSeason.NONE,
                100,
                List.of("H1", "H2", "H3"),
                Treatment.EDGE_REPAIR));
    assertTrue(other.contains("with mix of pile, not fit for it"), other);
    Agency out =
        new Agency(
            loose.name(),
            loose.units(),
            loose.yards(),
            loose.plants(),
            loose.crews(),
            List.of(new EquipmentUnit("H1", Equipment.HAUL_TRUCK, Set.of(MONDAY))),
            loose.plan());
    assertTrue(said(out).contains("trucks are out, the pool has 0"));
  }

  /**
   * The wait at a loader: three trucks, away 30 min, loading 6 min, by mean-value analysis (Reiser
   * and Lavenberg, from memory): R1 = 6; Q1 = 1/36 x 6 = 1/6; R2 = 7; Q2 = 2/37 x 7 = 14/37; R3 = 6
   * x 51/37 = 8.27027. The wait is 2.27027 min.
   */
  @Test
  void theLoadersWaitIsTheMachineRepairModels() {
    assertEquals(2.27027, LoaderTurns.waitMinutes(3, 6, 30), 1e-5);
    assertEquals(0, LoaderTurns.waitMinutes(1, 6, 30));
  }

  /** Given two crews that load at one plant, then each allows for the other's trucks. */
  @Test
  void crewsAllowForEachOthersTrucksAtTheLoader() {
    Crew a = TestCounty.crew("A", "Y1", 600, 3, Treatment.BLADE_PATCH);
    Crew b = TestCounty.crew("B", "Y2", 600, 2, Treatment.BLADE_PATCH);
    Crew cracks = TestCounty.crew("C", "Y2", 600, 2, Treatment.CRACK_TREATMENT);
    Agency two = TestCounty.agency(List.of(a, b, cracks), TestCounty.settings(7));
    LoaderTurns turns = new LoaderTurns(two);
    Plant plant = two.plants().get(0);
    assertEquals(2, turns.otherTrucks(a, plant, 3));
    assertEquals(3, turns.otherTrucks(b, plant, 1));
    assertEquals(plant.loadMinutes(), turns.morningMinutes(a, plant, 3));
    List<PatchDesign> mats = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      mats.add(
          TestCounty.repair(
              "M" + i, "SR 1", Side.RIGHT, 2000 * i, 20, Treatment.BLADE_PATCH, 30, 120));
    }
    Plan planned =
        new CrewDayPlanner(TestCounty.CROW, two, TestCounty.CONES)
            .plan(mats, SearchBudget.iterations(500, 1), PlanProgress.NONE)
            .plan();
    assertEquals(
        List.of(), new PlanChecker(two, TestCounty.CROW, TestCounty.CONES).check(planned, mats));
    double wait =
        planned.days().get(0).stops().get(0).figures().stream()
            .filter(f -> f.name().equals(DayFigureName.LOADER_WAIT))
            .mapToDouble(f -> f.value())
            .findFirst()
            .orElseThrow();
    assertTrue(wait > 0, wait + " min");
  }
}
