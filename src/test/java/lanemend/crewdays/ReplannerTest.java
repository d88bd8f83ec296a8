package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/** Plans changed by hand and planned again: what is settled stays, and little else changes. */
class ReplannerTest {
  private static final LocalDate MONDAY = TestCounty.MONDAY;
  private static final SearchBudget SHORT = SearchBudget.iterations(2_000, 1);

  private static CrewDayPlanner.Planned plan(Agency agency, List<PatchDesign> repairs) {
    return new CrewDayPlanner(TestCounty.CROW, agency, TestCounty.CONES)
        .plan(repairs, SHORT, PlanProgress.NONE);
  }

  private static Replanner replanner(Agency agency, HandRules rules, LocalDate today) {
    return new Replanner(TestCounty.CROW, agency, TestCounty.CONES, rules, today);
  }

  private static OpenPlan open(
      Agency agency, HandRules rules, List<PatchDesign> repairs, Assignment kept) {
    return new OpenPlan(TestCounty.CROW, agency, TestCounty.CONES, rules, repairs, kept, MONDAY);
  }

  private static List<String> broken(
      Agency agency, Plan plan, List<PatchDesign> repairs, HandRules rules, Assignment kept) {
    return new PlanChecker(rules.applyTo(agency), TestCounty.CROW, TestCounty.CONES)
        .check(plan, repairs, rules, kept);
  }

  /** Crack work of 100 minutes a zone: five zones and their drives fill a day of 600. */
  private static List<PatchDesign> cracks(int count) {
    List<PatchDesign> repairs = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      repairs.add(crack("D" + i, 1000 + 1500 * i));
    }
    return repairs;
  }

  private static PatchDesign crack(String id, double alongM) {
    return TestCounty.repair(id, "SR 1", Side.RIGHT, alongM, 5, Treatment.CRACK_TREATMENT, 0, 65);
  }

  @Test
  void aMoveByHandCostsWhatThePlanThenCostsAndBreaksNothing() {
    int possible = 0;
    int refused = 0;
    for (int seed = 0; seed < 40; seed++) {
      Random random = new Random(seed);
      Agency agency = TestCounty.randomAgency(random);
      List<PatchDesign> repairs = TestCounty.randomRepairs(random, 25);
      Assignment kept = plan(agency, repairs).assignment();
      if (kept.days().isEmpty()) {
        continue;
      }
      OpenPlan open = open(agency, HandRules.NONE, repairs, kept);
      List<String> ids = new ArrayList<>(kept.defectIds());
      for (int i = 0; i < 6; i++) {
        String id = ids.get(random.nextInt(ids.size()));
        Crew crew = agency.crews().get(random.nextInt(agency.crews().size()));
        LocalDate date = MONDAY.plusDays(random.nextInt(agency.plan().calendarDays()));
        Trial trial = open.move(id, crew.id(), date);
        if (trial.possible()) {
          possible++;
          Plan now =
              replanner(agency, HandRules.NONE, MONDAY).schedule(trial.assignment(), repairs);
          HandRules pin = HandRules.NONE.with(HandRule.pin(id, id, crew.id(), date, "test"));
          assertEquals(List.of(), broken(agency, now, repairs, pin, kept), "seed " + seed);
          double cents = 0.02 * (1 + now.days().size());
          assertEquals(
              now.cost().doubleValue(), trial.costAfter().doubleValue(), cents, "seed " + seed);
        } else {
          refused++;
          assertFalse(trial.broken().stream().anyMatch(String::isBlank));
        }
      }
    }
    assertTrue(possible > 20 && refused > 20, possible + " possible, " + refused + " refused");
  }

  @Test
  void aMoveThatCannotBeSaysEachLimitInWords() {
    // Given a crew whose Monday is full of crack work, five zones of 100 minutes
    Agency agency =
        TestCounty.agency(
            List.of(
                TestCounty.crew("A", "Y1", 600, 1, Treatment.CRACK_TREATMENT),
                TestCounty.crew("B", "Y1", 600, 1, Treatment.HAND_PATCH)),
            TestCounty.settings(7));
    List<PatchDesign> repairs = cracks(10);
    Assignment kept = plan(agency, repairs).assignment();
    HandRules rules =
        HandRules.NONE
            .with(HandRule.lockDay("A", MONDAY.plusDays(3), "inspection"))
            .with(HandRule.closeDay("", MONDAY.plusDays(4), "rain"))
            .with(HandRule.doneBy("D9", MONDAY.plusDays(1), "school"));
    OpenPlan open = open(agency, rules, repairs, kept);
    String onTuesday =
        kept.day("A", MONDAY.plusDays(1)).orElseThrow().zones().get(0).defectIds().get(0);
    // when a zone of Tuesday is put there, then the shift is over, and it says by how much
    Trial full = open.move(onTuesday, "A", MONDAY);
    assertTrue(full.broken().get(0).matches("crew A would be back at .* after its shift"));
    assertTrue(full.costAfter().compareTo(full.costBefore()) != 0);
    assertEquals(
        "crew B does not do crack treatment (SR 1 right, D0)",
        open.move("D0", "B", MONDAY).broken().get(0));
    assertEquals(
        List.of("the day of crew A on 2026-06-04 stays as it is: inspection"),
        open.move("D0", "A", MONDAY.plusDays(3)).broken());
    assertEquals(
        List.of("nobody works on 2026-06-05: rain"),
        open.move("D0", "A", MONDAY.plusDays(4)).broken());
    assertEquals(
        List.of("D9 is done by 2026-06-02: school"),
        open.move("D9", "A", MONDAY.plusDays(2)).broken());
    assertEquals(
        List.of("2026-06-06 is a saturday, which is not worked"),
        open.move("D0", "A", MONDAY.plusDays(5)).broken());
  }

  @Test
  void aNewPlanKeepsToEverythingSettledByHand() {
    int settled = 0;
    for (int seed = 0; seed < 40; seed++) {
      Random random = new Random(seed);
      Agency agency = TestCounty.randomAgency(random);
      List<PatchDesign> repairs = TestCounty.randomRepairs(random, 30);
      Assignment kept = plan(agency, repairs).assignment();
      if (kept.days().size() < 3) {
        continue;
      }
      Assignment.Day locked = kept.days().get(random.nextInt(kept.days().size()));
      Assignment.Day pinned = kept.days().get(random.nextInt(kept.days().size()));
      Assignment.Zone zone = pinned.zones().get(0);
      List<String> ids = new ArrayList<>(kept.defectIds());
      ids.removeAll(locked.zones().stream().flatMap(z -> z.defectIds().stream()).toList());
      ids.removeAll(zone.defectIds());
      if (ids.isEmpty()) {
        continue;
      }
      HandRules rules =
          HandRules.NONE
              .with(HandRule.lockDay(locked.crewId(), locked.date(), "test"))
              .with(HandRule.leaveOut(ids.get(0), "test"));
      for (String id : zone.defectIds()) {
        rules =
            rules.with(
                HandRule.pin(id, zone.defectIds().get(0), pinned.crewId(), pinned.date(), "test"));
      }
      CrewDayPlanner.Planned now =
          replanner(agency, rules, MONDAY).anew(repairs, kept, SHORT, PlanProgress.NONE);
      assertEquals(List.of(), broken(agency, now.plan(), repairs, rules, kept), "seed " + seed);
      settled++;
    }
    assertTrue(settled > 10, settled + " counties");
  }

  @Test
  void aLostDayMovesItsOwnWorkAndLittleElse() {
    // Given two weeks of which the first is planned, and rain on Tuesday
    Agency agency =
        TestCounty.agency(
            List.of(TestCounty.crew("A", "Y1", 600, 1, Treatment.CRACK_TREATMENT)),
            TestCounty.settings(14));
    List<PatchDesign> repairs = cracks(20);
    Assignment kept = plan(agency, repairs).assignment();
    LocalDate tuesday = MONDAY.plusDays(1);
    HandRules rules = HandRules.NONE.with(HandRule.closeDay("", tuesday, "rain"));
    // when it is planned again with a high price on moving
    CrewDayPlanner.Planned now =
        replanner(agency, rules, MONDAY)
            .adjust(repairs, kept, MONDAY, 1_000, SHORT, PlanProgress.NONE);
    // then Tuesday's zones are elsewhere and nobody else's moved
    assertEquals(List.of(), broken(agency, now.plan(), repairs, rules, kept));
    int lost = kept.day("A", tuesday).orElseThrow().zones().size();
    PlanComparison c = compare(agency, rules, repairs, kept, now);
    assertEquals(lost, c.disturbance().zonesMoved());
    assertEquals(0, c.disturbance().zonesTakenOff());
    assertTrue(
        c.changes().stream()
            .filter(x -> x.kind() == PlanChange.Kind.MOVED)
            .allMatch(x -> x.why().equals("nobody works on 2026-06-02: rain")),
        c.changes().toString());
  }

  private static PlanComparison compare(
      Agency agency,
      HandRules rules,
      List<PatchDesign> repairs,
      Assignment before,
      CrewDayPlanner.Planned now) {
    Plan then = replanner(agency, rules, MONDAY).schedule(before, repairs);
    return new PlanDifference(
            TestCounty.CROW,
            rules.applyTo(agency),
            TestCounty.CONES,
            rules,
            repairs,
            before,
            now.assignment(),
            now.plan(),
            MONDAY)
        .compare(then);
  }

  @Test
  void doneWorkAndPastDaysStayAsTheyAre() {
    Agency agency =
        TestCounty.agency(
            List.of(TestCounty.crew("A", "Y1", 600, 1, Treatment.CRACK_TREATMENT)),
            TestCounty.settings(14));
    List<PatchDesign> repairs = cracks(20);
    Assignment kept = plan(agency, repairs).assignment();
    // Given Thursday, with Monday's first zone recorded as done and a new defect
    LocalDate thursday = MONDAY.plusDays(3);
    String done = kept.days().get(0).zones().get(0).defectIds().get(0);
    List<PatchDesign> waiting = new ArrayList<>(repairs);
    waiting.removeIf(r -> r.defect().id().equals(done));
    waiting.add(crack("N1", 2500));
    CrewDayPlanner.Planned now =
        replanner(agency, HandRules.NONE, thursday)
            .adjust(waiting, kept, thursday, 1_000, SHORT, PlanProgress.NONE);
    assertEquals(List.of(), broken(agency, now.plan(), waiting, HandRules.NONE, kept));
    for (int d = 0; d < 3; d++) {
      LocalDate date = MONDAY.plusDays(d);
      assertEquals(kept.without(Set.of(done)).day("A", date), now.assignment().day("A", date));
    }
    LocalDate added = now.assignment().dayOf("N1").orElseThrow().date();
    assertFalse(added.isBefore(thursday));
    assertEquals(0, compare(agency, HandRules.NONE, waiting, kept, now).disturbance().zonesMoved());
  }

  @Test
  void anUrgentRepairFindsItsDayAndThePlanStillHolds() {
    int found = 0;
    for (int seed = 0; seed < 40; seed++) {
      Random random = new Random(seed);
      Agency agency = TestCounty.randomAgency(random);
      List<PatchDesign> repairs = TestCounty.randomRepairs(random, 30);
      String urgent = repairs.get(0).defect().id();
      Assignment kept = plan(agency, repairs.subList(1, repairs.size())).assignment();
      LocalDate by = MONDAY.plusDays(1 + random.nextInt(3));
      Replanner.Urgent way =
          replanner(agency, HandRules.NONE, MONDAY).urgent(repairs, kept, urgent, by, MONDAY, 20);
      if (way == null) {
        continue;
      }
      found++;
      HandRules rules = HandRules.NONE.with(HandRule.doneBy(urgent, by, "test"));
      Plan now = replanner(agency, rules, MONDAY).schedule(way.assignment(), repairs);
      assertEquals(List.of(), broken(agency, now, repairs, rules, kept), "seed " + seed);
      assertEquals(way.date(), way.assignment().dayOf(urgent).orElseThrow().date());
    }
    assertTrue(found > 10, found + " found");
  }

  @Test
  void anUrgentRepairJoinsAZoneNearbyAndNothingElseChanges() {
    // Given one zone planned for Monday and an urgent crack 100 m from it
    Agency agency = TestCounty.agency();
    List<PatchDesign> repairs = List.of(crack("D0", 1000), crack("U1", 1100));
    Assignment kept = plan(agency, repairs.subList(0, 1)).assignment();
    Replanner.Urgent way =
        replanner(agency, HandRules.NONE, MONDAY)
            .urgent(repairs, kept, "U1", MONDAY.plusDays(2), MONDAY, 10);
    assertNotNull(way);
    assertTrue(way.joined() && way.proven());
    assertEquals(MONDAY, way.date());
    assertEquals(1, way.assignment().days().get(0).zones().size());
    assertEquals(0, way.otherDays());
  }

  @Test
  void aDayCloseAtHandChangesOnlyWhenItMust() {
    Agency agency = TestCounty.agency();
    List<PatchDesign> repairs = List.of(crack("D0", 1000), crack("U1", 9000));
    Assignment kept = plan(agency, repairs.subList(0, 1)).assignment();
    LocalDate frozen = MONDAY.plusDays(2);
    // Given until Friday, it goes to Wednesday, the first day that is not close at hand
    Replanner.Urgent later =
        replanner(agency, HandRules.NONE, MONDAY)
            .urgent(repairs, kept, "U1", MONDAY.plusDays(4), frozen, 10);
    assertFalse(later.date().isBefore(frozen));
    assertEquals(0, later.frozenDays());
    // given until Tuesday, a day close at hand must change
    Replanner.Urgent soon =
        replanner(agency, HandRules.NONE, MONDAY)
            .urgent(repairs, kept, "U1", MONDAY.plusDays(1), frozen, 10);
    assertFalse(soon.date().isAfter(MONDAY.plusDays(1)));
    assertEquals(1, soon.frozenDays());
  }
}
