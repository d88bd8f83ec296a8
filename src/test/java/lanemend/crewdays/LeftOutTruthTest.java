package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.measure.UnitSystem;
import lanemend.network.Side;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/** A reason for leaving a repair out is true: without the hindrance it names, it is planned. */
class LeftOutTruthTest {
  private static final SearchBudget SHORT = SearchBudget.iterations(1_000, 1);

  private static Crew crew(int shiftMinutes, int trucks, Treatment... does) {
    return TestCounty.crew("A", "Y1", shiftMinutes, trucks, does);
  }

  private static Agency agency(Crew crew, int calendarDays) {
    return TestCounty.agency(List.of(crew), TestCounty.settings(calendarDays));
  }

  private static Plant plant(double dailyTonnes, double windowMinutes, String closes) {
    return new Plant(
        "P1",
        "plant P1",
        10_000,
        2_000,
        LocalTime.of(6, 0),
        LocalTime.parse(closes),
        dailyTonnes,
        6,
        windowMinutes,
        new BigDecimal("85"));
  }

  private static Agency with(Agency a, Plant plant) {
    return new Agency(
        a.name(), a.units(), a.yards(), List.of(plant), a.crews(), a.equipment(), a.plan());
  }

  private static PatchDesign patch(double alongM, double tonnes, double minutes) {
    return TestCounty.repair(
        "D1", "SR 1", Side.RIGHT, alongM, 9, Treatment.HAND_PATCH, tonnes, minutes);
  }

  private static String reason(Agency agency, List<PatchDesign> repairs) {
    Assignment made =
        new CrewDayPlanner(TestCounty.CROW, agency, TestCounty.CONES)
            .plan(repairs, SHORT, PlanProgress.NONE)
            .assignment();
    Plan plan =
        new Replanner(TestCounty.CROW, agency, TestCounty.CONES, HandRules.NONE, TestCounty.MONDAY)
            .schedule(made, repairs);
    return plan.leftOut().stream().map(Plan.LeftOut::reason).findFirst().orElse("planned");
  }

  private static void holds(String part, Agency hindered, Agency freed, List<PatchDesign> repairs) {
    String said = reason(hindered, repairs);
    assertTrue(said.contains(part), said);
    assertEquals("planned", reason(freed, repairs), part);
  }

  @Test
  void whatNoCrewDoesIsDoneOnceACrewDoesIt() {
    holds(
        "no crew does hand patch",
        agency(crew(600, 2, Treatment.EDGE_REPAIR), 5),
        agency(crew(600, 2, Treatment.HAND_PATCH), 5),
        List.of(patch(1_000, 1, 60)));
  }

  @Test
  void trucksShiftsAndDaysThatAreWantingAreTheReason() {
    List<PatchDesign> one = List.of(patch(1_000, 1, 60));
    holds(
        "has a haul truck",
        agency(crew(600, 0, Treatment.HAND_PATCH), 5),
        agency(crew(600, 1, Treatment.HAND_PATCH), 5),
        one);
    holds(
        "longest shift 480 min",
        agency(crew(480, 1, Treatment.HAND_PATCH), 5),
        agency(crew(800, 1, Treatment.HAND_PATCH), 5),
        List.of(patch(1_000, 1, 600)));
    List<PatchDesign> week = cracks();
    // Seven zones of 100 minutes: one day of 600 holds five, two days or a day of 900 hold all.
    holds(
        "no room before 2026-06-02: the shift is full on 1 crew day",
        agency(crew(600, 1, Treatment.CRACK_TREATMENT), 1),
        agency(crew(600, 1, Treatment.CRACK_TREATMENT), 2),
        week);
    holds(
        "the shift is full",
        agency(crew(600, 1, Treatment.CRACK_TREATMENT), 1),
        agency(crew(900, 1, Treatment.CRACK_TREATMENT), 1),
        week);
  }

  /** Seven repairs that make zones of 100 minutes, of which a day of 600 holds five. */
  private static List<PatchDesign> cracks() {
    List<PatchDesign> cracks = new ArrayList<>();
    for (int i = 0; i < 7; i++) {
      cracks.add(
          TestCounty.repair(
              "D" + i, "SR 1", Side.RIGHT, 2_000 * i, 5, Treatment.CRACK_TREATMENT, 0, 65));
    }
    return cracks;
  }

  @Test
  void whereSomeDatesArePlannedTheReasonIsThatThoseAreFull() {
    // Given a week of which Monday alone was to be planned
    Agency week = agency(crew(600, 1, Treatment.CRACK_TREATMENT), 5);
    Assignment monday =
        new CrewDayPlanner(
                TestCounty.CROW,
                agency(crew(600, 1, Treatment.CRACK_TREATMENT), 1),
                TestCounty.CONES)
            .plan(cracks(), SHORT, PlanProgress.NONE)
            .assignment();
    Replanner replanner =
        new Replanner(TestCounty.CROW, week, TestCounty.CONES, HandRules.NONE, TestCounty.MONDAY);
    // then the room on its other days is no matter
    assertEquals(
        Set.of("no room from 2026-06-01 to 2026-06-01: the shift is full on 1 crew day"),
        reasons(replanner.upTo(TestCounty.MONDAY).schedule(monday, cracks())));
    assertEquals(Set.of("not put on any crew day"), reasons(replanner.schedule(monday, cracks())));
  }

  private static Set<String> reasons(Plan plan) {
    return plan.leftOut().stream().map(Plan.LeftOut::reason).collect(Collectors.toSet());
  }

  @Test
  void thePlantsWindowTonnesAndHoursAreTheReason() {
    Agency base = agency(crew(700, 2, Treatment.HAND_PATCH), 5);
    List<PatchDesign> far = List.of(patch(100_000, 1, 60));
    holds(
        "inside its mix window of 60 min",
        with(base, plant(400, 60, "17:00")),
        with(base, plant(400, 400, "17:00")),
        far);
    List<PatchDesign> much = List.of(patch(1_000, 30, 200));
    holds(
        "most a plant gives in a day",
        with(base, plant(20, 300, "17:00")),
        with(base, plant(60, 300, "17:00")),
        much);
    holds(
        "closes at 07:05",
        with(base, plant(400, 300, "07:05")),
        with(base, plant(400, 300, "17:00")),
        List.of(patch(1_000, 1, 60)));
  }

  @Test
  void aMachineAnotherCrewHasIsTheReason() {
    // Given two crews, one day, one grader, and two blade patches that fill a day each
    List<Crew> two =
        List.of(
            TestCounty.crew("A", "Y1", 600, 2, Treatment.BLADE_PATCH),
            TestCounty.crew("B", "Y1", 600, 2, Treatment.BLADE_PATCH));
    List<PatchDesign> repairs = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      repairs.add(
          TestCounty.repair(
              "D" + i, "SR 1", Side.RIGHT, 4_000 * i, 30, Treatment.BLADE_PATCH, 9, 400));
    }
    holds("every machine it needs is taken", graders(two, 1), graders(two, 2), repairs);
  }

  private static Agency graders(List<Crew> crews, int count) {
    Agency base = TestCounty.agency(crews, TestCounty.settings(1));
    List<EquipmentUnit> units = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      units.add(new EquipmentUnit("G" + i, Equipment.MOTOR_GRADER, Set.of()));
    }
    return new Agency(
        base.name(),
        UnitSystem.US_CUSTOMARY,
        base.yards(),
        base.plants(),
        crews,
        units,
        base.plan());
  }
}
