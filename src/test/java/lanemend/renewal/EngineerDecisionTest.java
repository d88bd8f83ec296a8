package lanemend.renewal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import lanemend.renewal.EngineerDecision.Kind;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.program.Candidate;
import lanemend.renewal.sections.Section;
import org.junit.jupiter.api.Test;

class EngineerDecisionTest {
  private static EngineerDecision decision(Kind kind, int notBefore, String reason) {
    return new EngineerDecision(
        "CR 7 a", kind, 100, 900, notBefore, reason, "A. Engineer", LocalDate.of(2026, 2, 1));
  }

  @Test
  void everyDecisionButAcceptanceNeedsAReason() {
    assertEquals("", decision(Kind.ACCEPTED, 0, "").reason());
    for (Kind kind : List.of(Kind.LIMITS_CHANGED, Kind.REJECTED)) {
      assertTrue(
          assertThrows(IllegalArgumentException.class, () -> decision(kind, 0, " "))
              .getMessage()
              .contains("needs a reason"));
    }
  }

  @Test
  void aDeferralNamesItsFirstYearAndNothingElseDoes() {
    assertEquals(2028, decision(Kind.DEFERRED, 2028, "utility work in 2027").notBefore());
    assertThrows(IllegalArgumentException.class, () -> decision(Kind.DEFERRED, 0, "utility work"));
    assertThrows(
        IllegalArgumentException.class, () -> decision(Kind.REJECTED, 2028, "to be closed"));
  }

  @Test
  void aDeferredSectionEntersTheProgramNoEarlier() {
    // Given costs where an overlay saves 30, 20 and -5 in the first three years against patching on
    LifeCycle costs =
        new LifeCycle(new double[] {70, 80, 105, 100}, new double[4], new double[3], 0, 0);
    Section section = new Section("CR 7", 0, 5, 100, 900, 40, 10, 100);
    // when all years are open, and when an engineer defers it by one
    Candidate open = Candidate.of(section, "CR 7 a", costs, "2 in", 50, 0, 3);
    Candidate later = Candidate.of(section, "CR 7 a", costs, "2 in", 50, 1, 3);
    // then the losing third year is never a choice, and the first is closed after the deferral
    assertEquals(
        List.of(new Candidate.Choice(0, "2 in", 50, 30), new Candidate.Choice(1, "2 in", 50, 20)),
        open.choices());
    assertEquals(List.of(new Candidate.Choice(1, "2 in", 50, 20)), later.choices());
  }
}
