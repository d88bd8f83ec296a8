package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.inventory.DefectStatus;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A good plan is spoiled in every way there is; the checker must name each. */
class PlanCheckerTest {
  private static final Crew BLADE =
      TestCounty.crew("A", "Y1", 600, 3, Treatment.BLADE_PATCH, Treatment.HAND_PATCH);
  private static final Crew OTHER =
      TestCounty.crew("B", "Y1", 600, 3, Treatment.BLADE_PATCH, Treatment.HAND_PATCH);
  private static final Agency AGENCY =
      TestCounty.agency(List.of(BLADE, OTHER), TestCounty.settings(14));
  private static final List<PatchDesign> REPAIRS = new ArrayList<>();
  private static Plan good;

  @BeforeAll
  static void planSomething() {
    for (int i = 0; i < 6; i++) {
      REPAIRS.add(
          TestCounty.repair(
              "B" + i, "SR 1", Side.RIGHT, 2000 * i, 40, Treatment.BLADE_PATCH, 30, 90));
      REPAIRS.add(
          TestCounty.repair(
              "H" + i, "SR 1", Side.RIGHT, 2000 * i + 100, 5, Treatment.HAND_PATCH, 0.5, 30));
    }
    REPAIRS.add(TestCounty.repair("out", 500, Treatment.DEFER_TO_OVERLAY, 0));
    good =
        new CrewDayPlanner(TestCounty.CROW, AGENCY, TestCounty.CONES)
            .plan(REPAIRS, SearchBudget.iterations(1_000, 1), PlanProgress.NONE)
            .plan();
  }

  private static List<String> check(Agency agency, Plan plan, List<PatchDesign> repairs) {
    return new PlanChecker(agency, TestCounty.CROW, TestCounty.CONES).check(plan, repairs);
  }

  private static void assertFound(Plan plan, String part) {
    assertFound(AGENCY, plan, REPAIRS, part);
  }

  private static void assertFound(
      Agency agency, Plan plan, List<PatchDesign> repairs, String part) {
    List<String> found = check(agency, plan, repairs);
    assertTrue(found.stream().anyMatch(v -> v.contains(part)), part + " not in " + found);
  }

  private static Plan withDays(List<CrewDay> days) {
    return new Plan(days, good.leftOut(), good.cost(), good.currency());
  }

  private static Plan withFirst(UnaryOperator<CrewDay> change) {
    List<CrewDay> days = new ArrayList<>(good.days());
    days.set(0, change.apply(days.get(0)));
    return withDays(days);
  }

  private static Plan withStop(UnaryOperator<CrewDay.Stop> change) {
    return withFirst(
        d -> {
          List<CrewDay.Stop> stops = new ArrayList<>(d.stops());
          stops.set(0, change.apply(stops.get(0)));
          return Spoiled.times(d, d.leaveYard(), d.backAtYard(), stops);
        });
  }

  @Test
  void aGoodPlanHasNothingAgainstIt() {
    assertEquals(List.of(), check(AGENCY, good, REPAIRS));
    assertTrue(good.days().size() >= 2 && good.leftOut().size() == 1);
  }

  @Test
  void repairsTwiceNeverOrUnasked() {
    List<CrewDay> twice = new ArrayList<>(good.days());
    CrewDay first = twice.get(0);
    twice.add(
        Spoiled.day(
            first, first.date().plusDays(7), first.crew(), first.plantId(), first.trucks()));
    assertFound(withDays(twice), "is repaired more than once");
    assertFound(withDays(good.days().subList(1, good.days().size())), "neither planned nor left");
    assertFound(AGENCY, good, REPAIRS.subList(1, REPAIRS.size()), "was never asked for");
    List<Plan.LeftOut> left = new ArrayList<>(good.leftOut());
    left.add(new Plan.LeftOut("B0", "x"));
    left.add(new Plan.LeftOut("out", " "));
    Plan both = new Plan(good.days(), left, good.cost(), good.currency());
    assertFound(both, "B0 is both planned and left out");
    assertFound(both, "out is left out more than once");
    assertFound(both, "out is left out without a reason");
  }

  @Test
  void timesThatDoNotChain() {
    CrewDay d = good.days().get(0);
    assertFound(
        withFirst(x -> Spoiled.times(x, x.leaveYard().minusHours(1), x.backAtYard(), x.stops())),
        "leaves the yard before its shift starts");
    assertFound(
        withFirst(x -> Spoiled.times(x, x.leaveYard(), x.backAtYard().minusHours(1), x.stops())),
        "return to the yard is given as");
    assertFound(
        withStop(
            s ->
                Spoiled.stop(s, s.zone(), s.driveMinutes(), s.arrive().plusMinutes(9), s.depart())),
        "arrival at");
    assertFound(
        withStop(s -> Spoiled.stop(s, s.zone(), s.driveMinutes() - 1, s.arrive(), s.depart())),
        "drive to");
    assertFound(
        withStop(
            s ->
                Spoiled.stop(
                    s, s.zone(), s.driveMinutes(), s.arrive(), s.depart().minusMinutes(5))),
        "which takes");
    Crew brief = TestCounty.crew("A", "Y1", 100, 3, Treatment.BLADE_PATCH, Treatment.HAND_PATCH);
    Agency shorter = TestCounty.agency(List.of(brief, OTHER), AGENCY.plan());
    assertFound(
        shorter,
        withFirst(x -> Spoiled.day(x, x.date(), brief, x.plantId(), x.trucks())),
        REPAIRS,
        "is back after its shift of 100 minutes");
    assertTrue(d.stops().size() >= 1);
  }

  @Test
  void datesNobodyWorks() {
    LocalDate saturday = TestCounty.MONDAY.plusDays(5);
    assertFound(
        withFirst(d -> Spoiled.day(d, saturday, d.crew(), d.plantId(), d.trucks())), "SATURDAY");
    assertFound(
        withFirst(d -> Spoiled.day(d, d.date().plusDays(70), d.crew(), d.plantId(), d.trucks())),
        "lies outside the plan's days");
    CrewDay first = good.days().get(0);
    Agency closed = with(s -> Spoiled.settings(s, Set.of(first.date()), s.maxZoneM()), AGENCY);
    assertFound(closed, good, REPAIRS, "is on a date nobody works");
    Crew off =
        new Crew(
            first.crew().id(),
            "off",
            "Y1",
            LocalTime.of(7, 0),
            600,
            3,
            first.crew().costPerHour(),
            first.crew().does(),
            Set.of(first.date()));
    assertFound(
        TestCounty.agency(List.of(off), AGENCY.plan()),
        withFirst(d -> Spoiled.day(d, d.date(), off, d.plantId(), d.trucks())),
        REPAIRS,
        "is on a day off of the crew");
    List<CrewDay> same = new ArrayList<>();
    good.days()
        .forEach(
            d -> same.add(Spoiled.day(d, first.date(), first.crew(), d.plantId(), d.trucks())));
    assertFound(withDays(same), "has two days on");
  }

  @Test
  void crewsThatCannot() {
    Crew hand = TestCounty.crew("A", "Y1", 600, 3, Treatment.HAND_PATCH);
    Agency less = TestCounty.agency(List.of(hand), AGENCY.plan());
    List<CrewDay> days = new ArrayList<>();
    good.days().forEach(d -> days.add(Spoiled.day(d, d.date(), hand, d.plantId(), d.trucks())));
    assertFound(less, withDays(days), REPAIRS, "which the crew does not");
    assertFound(less, good, REPAIRS, "is not a crew of the agency");
    assertFound(withFirst(d -> Spoiled.day(d, d.date(), d.crew(), d.plantId(), 9)), "has 9 trucks");
    assertFound(withFirst(d -> Spoiled.day(d, d.date(), d.crew(), "", 0)), "without a plant");
    assertFound(
        withFirst(d -> Spoiled.day(d, d.date(), d.crew(), "Q", 2)), "not a plant of the agency");
    List<PatchDesign> done = new ArrayList<>(REPAIRS);
    done.set(0, Spoiled.withStatus(done.get(0), DefectStatus.DONE));
    assertFound(AGENCY, good, done, "which is DONE");
  }

  @Test
  void sharedThingsRunOut() {
    CrewDay first = good.days().get(0);
    Agency noGrader =
        new Agency(
            "x",
            AGENCY.units(),
            AGENCY.yards(),
            AGENCY.plants(),
            AGENCY.crews(),
            List.of(new EquipmentUnit("G", Equipment.MOTOR_GRADER, Set.of(first.date()))),
            AGENCY.plan());
    assertFound(noGrader, good, REPAIRS, "crews need MOTOR_GRADER, 0 in service");
    assertFound(
        withPlant(p -> Spoiled.plant(p, p.opens(), p.closes(), 10, p.mixWindowMinutes())),
        good,
        REPAIRS,
        "which gives 10.0");
  }

  @Test
  void trucksThatCannotBeThere() {
    assertFound(
        withPlant(p -> Spoiled.plant(p, LocalTime.of(9, 30), p.closes(), 400, 150)),
        good,
        REPAIRS,
        "is not open");
    assertFound(
        withPlant(p -> Spoiled.plant(p, p.opens(), LocalTime.of(8, 0), 400, 150)),
        good,
        REPAIRS,
        "is closed");
    assertFound(
        withPlant(p -> Spoiled.plant(p, p.opens(), p.closes(), 400, 5)),
        good,
        REPAIRS,
        "minutes old, the window is 5.0");
    assertFound(
        withStop(
            s ->
                new CrewDay.Stop(
                    s.zone(),
                    s.driveMinutes(),
                    s.arrive(),
                    s.depart(),
                    LocalTime.of(6, 59),
                    s.figures())),
        "has no truck that brings the mix");
    // With one truck the loads after the first make the crew wait far longer than planned.
    assertFound(withFirst(d -> Spoiled.day(d, d.date(), d.crew(), d.plantId(), 1)), "which takes");
    assertFound(
        withPlant(
            p ->
                new Plant(
                    p.id(),
                    p.name(),
                    p.x(),
                    p.y(),
                    p.opens(),
                    p.closes(),
                    400,
                    90,
                    150,
                    p.pricePerTonne())),
        good,
        REPAIRS,
        "needs a truck at minute");
  }

  @Test
  void zonesThatAreNotOne() {
    Agency narrow =
        with(s -> Spoiled.settings(s, s.blackout(), Map.of(RoadClass.COLLECTOR, 20.0)), AGENCY);
    assertFound(narrow, good, REPAIRS, "longest allowed 20.0");
    CrewDay.Stop s0 = good.days().get(0).stops().get(0);
    WorkZone z = s0.zone();
    assertFound(
        withStop(
            s ->
                Spoiled.stop(
                    s,
                    Spoiled.zone(z, z.repairs(), z.workMinutes() - 3, z.dueOn()),
                    s.driveMinutes(),
                    s.arrive(),
                    s.depart())),
        "minutes is given as");
    assertFound(
        withStop(
            s ->
                Spoiled.stop(
                    s,
                    Spoiled.zone(z, z.repairs(), z.workMinutes(), z.dueOn().plusDays(1)),
                    s.driveMinutes(),
                    s.arrive(),
                    s.depart())),
        "is given as due on");
    List<PatchDesign> back = new ArrayList<>(z.repairs());
    java.util.Collections.reverse(back);
    assertFound(
        withStop(
            s ->
                Spoiled.stop(
                    s,
                    Spoiled.zone(z, back, z.workMinutes(), z.dueOn()),
                    s.driveMinutes(),
                    s.arrive(),
                    s.depart())),
        "does not go along the road");
    List<PatchDesign> mixed = new ArrayList<>(REPAIRS);
    mixed.replaceAll(
        r ->
            r.defect().id().startsWith("H")
                ? TestCounty.repair(
                    r.defect().id(),
                    "SR 2",
                    Side.RIGHT,
                    r.defect().place().fromAlongM(),
                    5,
                    Treatment.HAND_PATCH,
                    0.5,
                    30)
                : r);
    assertFound(AGENCY, good, mixed, "of another route or side");
  }

  @Test
  void sumsThatDoNotAddUp() {
    assertFound(
        new Plan(good.days(), good.leftOut(), good.cost().add(BigDecimal.TEN), "USD"),
        "its days add up to");
    assertFound(new Plan(good.days(), good.leftOut(), good.cost(), "EUR"), "counts in EUR");
    assertFound(
        withFirst(
            d ->
                new CrewDay(
                    d.date(),
                    d.crew(),
                    d.plantId(),
                    d.trucks(),
                    d.stops(),
                    d.leaveYard(),
                    d.backAtYard(),
                    d.tonnes() + 1,
                    d.driveKm() - 1,
                    List.of())),
        "mix to order is given as");
    assertFound(
        withFirst(
            d ->
                new CrewDay(
                    d.date(),
                    d.crew(),
                    d.plantId(),
                    d.trucks(),
                    List.of(),
                    d.leaveYard(),
                    d.backAtYard(),
                    0,
                    0,
                    List.of())),
        "has no stop");
  }

  private static Agency with(UnaryOperator<PlanSettings> change, Agency a) {
    return new Agency(
        a.name(),
        a.units(),
        a.yards(),
        a.plants(),
        a.crews(),
        a.equipment(),
        change.apply(a.plan()));
  }

  private static Agency withPlant(UnaryOperator<Plant> change) {
    return new Agency(
        AGENCY.name(),
        AGENCY.units(),
        AGENCY.yards(),
        List.of(change.apply(AGENCY.plants().get(0))),
        AGENCY.crews(),
        AGENCY.equipment(),
        AGENCY.plan());
  }
}
