package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.patching.LearnedFactor.Measure;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Repairs designed with what done work taught. */
class LearnedDesignTest {
  private static final Defect SPOT = Bad.spot(DefectKind.RUTTING, Severity.MEDIUM, 100, 10, 1.5);

  private static LearnedFactor factor(Measure m, Treatment t, double factor) {
    return new LearnedFactor(
        m, t, "", factor, 0.9 * factor, 1.1 * factor, 23, "ann", LocalDate.of(2026, 5, 4));
  }

  private static PatchDesign design(Treatment treatment, LearnedFactor... learned) {
    TreatmentRule rule = TreatmentRule.of("always", Set.of(), treatment, "for the test");
    PatchSettings settings =
        PatchSettings.standard().withLearned(new LearnedFactors(List.of(learned)));
    return new PatchDesigner(new TreatmentRules(List.of(rule)), settings)
        .design(SPOT, Bad.twoLane(55, 2000));
  }

  @ParameterizedTest
  @EnumSource(
      value = Treatment.class,
      names = {"HAND_PATCH", "BLADE_PATCH", "DIG_OUT_AND_REBUILD", "EDGE_REPAIR"})
  void mixAndMinutesAreThoseOfTheDesignTimesTheirFactors(Treatment treatment) {
    PatchDesign plain = design(treatment);
    PatchDesign mix = design(treatment, factor(Measure.MIX, treatment, 1.08));
    assertEquals(1.08 * plain.tonnes(), mix.tonnes(), 1e-9);
    // what the trucks and the lay-down sheet need goes with the mix that is ordered
    double loose = plain.figure("loose volume").orElseThrow().value();
    assertEquals(1.08 * loose, mix.figure("loose volume").orElseThrow().value(), 1e-9);
    // minutes are learned apart: only a truck more to dump may take longer
    assertEquals(plain.minutes(), mix.minutes(), 3.01);

    PatchDesign slow = design(treatment, factor(Measure.MINUTES, treatment, 1.2));
    assertEquals(1.2 * plain.minutes(), slow.minutes(), 1e-9);
    assertEquals(plain.tonnes(), slow.tonnes(), 1e-12);
    for (WorkStep step : slow.steps()) {
      assertTrue(step.minutes().formula().endsWith("x learned factor"), step.name());
      assertTrue(step.minutes().source().contains("accepted 2026-05-04 by ann"), step.name());
    }
    Figure order = mix.figure(FigureName.MIX).orElseThrow();
    assertTrue(order.source().contains("from 23 repairs of the agency"), order.source());
  }

  @Test
  void aFactorOfAnotherTreatmentOrOfOneCrewLeavesTheDesignAsItIs() {
    LearnedFactor ofCrew =
        new LearnedFactor(
            Measure.MINUTES,
            Treatment.BLADE_PATCH,
            "C1",
            1.3,
            1.2,
            1.4,
            9,
            "ann",
            LocalDate.of(2026, 5, 4));
    assertEquals(
        design(Treatment.BLADE_PATCH),
        design(Treatment.BLADE_PATCH, ofCrew, factor(Measure.MIX, Treatment.HAND_PATCH, 1.08)));
  }

  @Test
  void factorsThatMakeNoSenseAreRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> factor(Measure.MIX, Treatment.HAND_PATCH, 0));
    assertThrows(IllegalArgumentException.class, () -> factor(Measure.MIX, null, 1));
    LearnedFactor one = factor(Measure.MIX, Treatment.HAND_PATCH, 1.1);
    assertThrows(IllegalArgumentException.class, () -> new LearnedFactors(List.of(one, one)));
  }
}
