package lanemend.renewal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.renewal.EngineerDecision.Kind;
import lanemend.renewal.overlay.Economics;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.PatchingOutlook;
import lanemend.renewal.program.Candidate;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.repairs.TonsModel;
import org.junit.jupiter.api.Test;

/** What engineers decided leads the program; budgets then go where they save most. */
class ProgramFittingTest {
  private static final int FIRST = 2026;

  /** An overlay of 100 that saves 50, 40 or 30 when laid in the first, second or third year. */
  private static OverlayCase savesMost() {
    return costing(100, 150, 160, 170, 200);
  }

  private static OverlayCase costing(double cost, double... presentCost) {
    Economics e = new Economics(cost, 10, new RepairCost(1, 1), 0.04, presentCost.length - 1, 0);
    PatchingOutlook none =
        new PatchingOutlook(
            new double[0][0], new double[0][0], new double[0][0], 0, new TonsModel.Law[0]);
    LifeCycle life =
        new LifeCycle(
            presentCost, new double[presentCost.length], new double[presentCost.length - 1], 0, 0);
    Figure price = new Figure("cost of overlay", cost, Unit.MONEY, "given", List.of(), "given");
    return new OverlayCase(
        Optional.empty(),
        Optional.empty(),
        Optional.of(new OverlayCase.Costing(price, e, none, life, List.of())),
        List.of(),
        List.of());
  }

  private static ProgramFitting.Option option(
      String id, OverlayCase overlay, Optional<DecidedSection> decision) {
    return new ProgramFitting.Option(id, "SR 1", 0, 1000, overlay, decision);
  }

  private static Optional<DecidedSection> decided(String id, Kind kind, int year) {
    return Optional.of(
        new DecidedSection(
            "SR 1",
            new EngineerDecision(
                id,
                kind,
                0,
                1000,
                kind == Kind.DEFERRED ? year : 0,
                "as the cores say",
                "E. Invented, P.E.",
                LocalDate.of(2026, 1, 5)),
            kind == Kind.DEFERRED ? 0 : year));
  }

  private static int year(ProgramFitting fitting, int section) {
    return fitting.program().chosen().get(section).map(Candidate.Choice::year).orElse(-1);
  }

  @Test
  void anAgreedOverlayTakesItsYearsMoneyBeforeABetterOne() {
    // Given money for one overlay a year; A saves most at once, B is agreed for that year
    ProgramFitting f =
        ProgramFitting.of(
            List.of(
                option("A", savesMost(), Optional.empty()),
                option("B", costing(100, 195, 196, 197, 200), decided("B", Kind.ACCEPTED, 2026))),
            List.of(100.0, 100.0),
            FIRST);
    // then B stands and A waits a year: it saves 40 then, B 5
    assertEquals(1, year(f, 0));
    assertEquals(0, year(f, 1));
    assertEquals(45, f.program().benefit(), 1e-9);
    assertEquals(100, f.program().spent()[0], 1e-9);
    assertEquals(List.of(), f.remarks());
  }

  @Test
  void whatIsRejectedOrDeferredIsNotPlannedSooner() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(
                option("A", savesMost(), decided("A", Kind.REJECTED, 0)),
                option("B", savesMost(), decided("B", Kind.DEFERRED, 2028))),
            List.of(1000.0, 1000.0, 1000.0),
            FIRST);
    assertEquals(-1, year(f, 0));
    assertEquals(2, year(f, 1));
  }

  @Test
  void anAgreementBeyondItsBudgetStandsAndIsSaid() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(option("A", savesMost(), decided("A", Kind.LIMITS_CHANGED, 2026))),
            List.of(60.0),
            FIRST);
    assertEquals(0, year(f, 0));
    assertEquals(List.of("what is agreed for 2026 costs 40 more than its budget"), f.remarks());
  }

  @Test
  void anAgreementOutsideTheProgramsYearsIsSaid() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(option("A", savesMost(), decided("A", Kind.ACCEPTED, 2031))),
            List.of(100.0, 100.0),
            FIRST);
    assertEquals(-1, year(f, 0));
    assertTrue(f.remarks().get(0).contains("outside the program's years"));
  }

  @Test
  void withoutBudgetsEachSectionTakesTheYearThatSavesMost() {
    ProgramFitting f =
        ProgramFitting.of(
            List.of(
                option("A", savesMost(), Optional.empty()),
                option("B", costing(100, 170, 160, 190, 200), Optional.empty())),
            List.of(),
            FIRST);
    assertEquals(0, year(f, 0));
    assertEquals(1, year(f, 1));
  }
}
