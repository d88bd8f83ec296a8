package lanemend.renewal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.renewal.overlay.Economics;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.PatchingOutlook;
import lanemend.renewal.program.Candidate;
import lanemend.renewal.program.Program;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.repairs.TonsModel;
import org.junit.jupiter.api.Test;

/** How what engineers decided and the yearly budgets make a program together. */
class ProgramFittingTest {
  private static final int FIRST = 2026;

  /** An overlay of this cost that saves 90, 80 or 70 if laid in the first, second, third year. */
  private static OverlayCase overlay(double cost) {
    LifeCycle costs =
        new LifeCycle(
            new double[] {10, 20, 30, 100},
            new double[] {1, 0, 0, 0},
            new double[] {1, 1, 1},
            80,
            95);
    PatchingOutlook none =
        new PatchingOutlook(
            new double[0][], new double[0][], new double[0][], 0, new TonsModel.Law[0]);
    return new OverlayCase(
        Optional.empty(),
        Optional.empty(),
        Optional.of(
            new OverlayCase.Costing(
                new Figure("cost of overlay", cost, Unit.MONEY, "given", List.of(), "invented"),
                new Economics(cost, 15, new RepairCost(1, 1), 0, 3, 0),
                none,
                costs,
                List.of())),
        Optional.empty(),
        List.of(),
        List.of(),
        List.of());
  }

  private static DecidedSection decided(
      String id, EngineerDecision.Kind kind, int notBefore, int overlayYear) {
    return new DecidedSection(
        "SR 1",
        new EngineerDecision(
            id, kind, 0, 1000, notBefore, "as seen on site", "Ann Vale", LocalDate.of(2026, 2, 1)),
        overlayYear);
  }

  private static ProgramFitting.Option section(String id, double cost, DecidedSection decision) {
    return new ProgramFitting.Option(
        id, "SR 1", 0, 1000, overlay(cost), Optional.ofNullable(decision));
  }

  private static Optional<Integer> year(Program p, String id) {
    for (int i = 0; i < p.candidates().size(); i++) {
      if (p.candidates().get(i).sectionId().equals(id)) {
        return p.chosen().get(i).map(Candidate.Choice::year).map(y -> FIRST + y);
      }
    }
    throw new AssertionError(id + " is not in the program");
  }

  @Test
  void withoutADecisionTheBestYearWinsWhileThereIsMoney() {
    // Given two sections of 100 each, best overlaid now, and 100 a year
    ProgramFitting f =
        ProgramFitting.of(
            List.of(section("a", 100, null), section("b", 100, null)),
            List.of(100.0, 100.0, 100.0),
            FIRST);
    // then one is done in each of the first two years: 90 + 80
    assertEquals(170, f.program().benefit(), 1e-9);
    assertEquals(100, f.program().spent()[0], 1e-9);
    assertEquals(100, f.program().spent()[1], 1e-9);
    assertEquals(0, f.program().spent()[2], 1e-9);
    assertEquals(List.of(), f.remarks());
  }

  @Test
  void whatIsAgreedStandsInItsYearAndTakesItsMoneyFirst() {
    // Given b agreed for 2026, though a would save as much there
    ProgramFitting f =
        ProgramFitting.of(
            List.of(
                section("a", 100, null),
                section("b", 100, decided("b", EngineerDecision.Kind.ACCEPTED, 0, 2026))),
            List.of(100.0, 100.0),
            FIRST);
    assertEquals(Optional.of(2026), year(f.program(), "b"));
    assertEquals(Optional.of(2027), year(f.program(), "a"));
    // and the order of sections is kept, as the index reads them side by side
    assertEquals("a", f.program().candidates().get(0).sectionId());
    assertEquals(170, f.program().benefit(), 1e-9);
    assertTrue(f.program().bound() >= f.program().benefit() - 1e-9);
  }

  @Test
  void moreAgreedThanAYearCanPayIsSaidAndNotDropped() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(
                section("a", 100, decided("a", EngineerDecision.Kind.ACCEPTED, 0, 2026)),
                section("b", 100, decided("b", EngineerDecision.Kind.LIMITS_CHANGED, 0, 2026))),
            List.of(150.0),
            FIRST);
    assertEquals(Optional.of(2026), year(f.program(), "a"));
    assertEquals(Optional.of(2026), year(f.program(), "b"));
    assertEquals(200, f.program().spent()[0], 1e-9);
    assertEquals(List.of("what is agreed for 2026 costs 50 more than its budget"), f.remarks());
  }

  @Test
  void deferredWaitsAndRejectedStaysOut() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(
                section("late", 100, decided("late", EngineerDecision.Kind.DEFERRED, 2028, 0)),
                section("never", 100, decided("never", EngineerDecision.Kind.REJECTED, 0, 0))),
            List.of(500.0, 500.0, 500.0),
            FIRST);
    assertEquals(Optional.of(2028), year(f.program(), "late"));
    assertEquals(Optional.empty(), year(f.program(), "never"));
    assertEquals(70, f.program().benefit(), 1e-9);
  }

  @Test
  void deferredBeyondTheProgramHasNoYear() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(section("late", 1, decided("late", EngineerDecision.Kind.DEFERRED, 2040, 0))),
            List.of(500.0),
            FIRST);
    assertEquals(Optional.empty(), year(f.program(), "late"));
  }

  @Test
  void acceptedWithoutAYearIsFittedLikeAnyOther() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(section("a", 100, decided("a", EngineerDecision.Kind.ACCEPTED, 0, 0))),
            List.of(50.0, 100.0),
            FIRST);
    assertEquals(Optional.of(2027), year(f.program(), "a"));
  }

  @Test
  void aYearOutsideTheProgramIsSaid() {
    for (int agreed : new int[] {2025, 2027}) {
      ProgramFitting f =
          ProgramFitting.of(
              List.of(section("a", 1, decided("a", EngineerDecision.Kind.ACCEPTED, 0, agreed))),
              List.of(100.0),
              FIRST);
      assertEquals(Optional.empty(), year(f.program(), "a"));
      assertEquals(
          List.of("a is agreed for " + agreed + ", outside the program's years"), f.remarks());
    }
  }

  @Test
  void anAgreedOverlayWhoseCostNobodyKnowsKeepsItsYearAndIsSaid() {
    ProgramFitting.Option unknown =
        new ProgramFitting.Option(
            "a",
            "SR 1",
            0,
            1000,
            OverlayCase.lacking(List.of("no layers")),
            Optional.of(decided("a", EngineerDecision.Kind.ACCEPTED, 0, 2026)));
    ProgramFitting f = ProgramFitting.of(List.of(unknown), List.of(100.0), FIRST);
    assertEquals(Optional.of(2026), year(f.program(), "a"));
    assertEquals(1, f.remarks().size());
    assertTrue(f.remarks().get(0).contains("what it costs is not known"), f.remarks().get(0));
  }

  @Test
  void withoutBudgetsEachSectionHasItsBestYear() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(section("a", 5e6, null), section("b", 5e6, null)), List.of(), FIRST);
    assertEquals(Optional.of(2026), year(f.program(), "a"));
    assertEquals(Optional.of(2026), year(f.program(), "b"));
    assertEquals(0, f.program().worthOfOneMore()[0], 1e-9);
  }
}
