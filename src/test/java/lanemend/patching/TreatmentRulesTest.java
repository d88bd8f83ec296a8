package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which treatment a defect gets; the table is common practice, so the cases are the design's. */
class TreatmentRulesTest {

  @ParameterizedTest
  @CsvSource({
    // a dinner-plate pothole, one as large as a car, one that has eaten the base
    "POTHOLE, MEDIUM, 2, 1.5, 3, HAND_PATCH, hand-patch-small-hole",
    "POTHOLE, HIGH, 12, 6, 2, BLADE_PATCH, blade-patch-large-hole",
    "POTHOLE, HIGH, 8, 5, 6, DIG_OUT_AND_REBUILD, dig-out-deep-hole",
    "POTHOLE, HIGH, 2, 2, 6, HAND_PATCH, hand-patch-small-hole",
    "RUTTING, HIGH, 200, 3, 1.5, BLADE_PATCH, blade-patch-ruts",
    "SHOVING, MEDIUM, 30, 10, 1, BLADE_PATCH, blade-patch-ruts",
    "ALLIGATOR_CRACKING, MEDIUM, 60, 8, 0, BLADE_PATCH, blade-patch-alligator",
    "ALLIGATOR_CRACKING, MEDIUM, 4, 4, 0, HAND_PATCH, hand-patch-small-alligator",
    "ALLIGATOR_CRACKING, LOW, 60, 8, 0, SURFACE_TREATMENT, seal-light-alligator",
    "ALLIGATOR_CRACKING, HIGH, 60, 8, 3, DIG_OUT_AND_REBUILD, dig-out-settled-alligator",
    "ALLIGATOR_CRACKING, HIGH, 1500, 12, 0, DEFER_TO_OVERLAY, overlay-long-alligator",
    "ALLIGATOR_CRACKING, HIGH, 1500, 4, 0, BLADE_PATCH, blade-patch-alligator",
    "ALLIGATOR_CRACKING, HIGH, 1300, 12, 0, BLADE_PATCH, blade-patch-alligator",
    "EDGE_BREAK, LOW, 30, 1.5, 3, EDGE_REPAIR, edge-repair",
    "LONGITUDINAL_CRACKING, MEDIUM, 90, 0.1, 0, CRACK_TREATMENT, seal-cracks",
    "TRANSVERSE_CRACKING, HIGH, 1, 12, 2, HAND_PATCH, hand-patch-spalled-crack",
    "RAVELLING, MEDIUM, 200, 11, 0, SURFACE_TREATMENT, seal-surface",
    "BLOCK_CRACKING, HIGH, 200, 11, 0, SURFACE_TREATMENT, seal-surface",
    "RAVELLING, HIGH, 200, 11, 0.75, BLADE_PATCH, blade-patch-lost-surface",
    "DEPRESSION, MEDIUM, 20, 8, 1.5, BLADE_PATCH, blade-patch-large-hole"
  })
  void choosesAsPracticeDoes(
      DefectKind kind,
      Severity severity,
      double lengthFt,
      double widthFt,
      double depthIn,
      Treatment treatment,
      String rule) {
    Defect defect = Bad.spot(kind, severity, lengthFt, widthFt, depthIn);
    TreatmentChoice choice = TreatmentRules.standard().choose(defect, Bad.twoLane(55, 2000));

    assertEquals(treatment, choice.treatment());
    assertEquals(rule, choice.ruleId());
    assertTrue(choice.reason().contains("common practice, no source"), choice.reason());
  }

  /** Every kind, severity and size gets a treatment, and no rule but the catch-all is idle. */
  @Test
  void leavesNothingOutAndHasNoIdleRule() {
    TreatmentRules rules = TreatmentRules.standard();
    Set<String> used = new TreeSet<>();
    for (DefectKind kind : DefectKind.values()) {
      for (Severity severity : Severity.values()) {
        for (double length : new double[] {0, 1, 10, 100, 2000}) {
          for (double width : new double[] {0, 1, 6, 12}) {
            for (double depth : new double[] {0, 0.5, 1, 2, 4, 9}) {
              Defect defect = Bad.spot(kind, severity, length, width, depth);
              used.add(rules.choose(defect, Bad.twoLane(45, 500)).ruleId());
            }
          }
        }
      }
    }
    Set<String> idle = new TreeSet<>();
    rules.rules().forEach(r -> idle.add(r.id()));
    idle.removeAll(used);

    assertEquals(Set.of("otherwise-hand-patch"), idle);
  }

  @Test
  void firstRuleThatFitsWins() {
    TreatmentRule all = TreatmentRule.of("all", Set.of(), Treatment.HAND_PATCH, "any");
    TreatmentRule ruts =
        TreatmentRule.of("ruts", Set.of(DefectKind.RUTTING), Treatment.BLADE_PATCH, "ruts");
    Defect rut = Bad.spot(DefectKind.RUTTING, Severity.LOW, 10, 3, 1);
    RoadSetting road = Bad.twoLane(45, 500);

    assertEquals("ruts", new TreatmentRules(List.of(ruts, all)).choose(rut, road).ruleId());
  }

  @Test
  void refusesATableThatCouldLeaveADefectOut() {
    TreatmentRule ruts =
        TreatmentRule.of("ruts", Set.of(DefectKind.RUTTING), Treatment.BLADE_PATCH, "ruts");
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> new TreatmentRules(List.of(ruts)));

    assertTrue(e.getMessage().startsWith("the last treatment rule, ruts, has conditions"));
  }

  @Test
  void namesTheFaultInARule() {
    TreatmentRule all = TreatmentRule.of("all", Set.of(), Treatment.HAND_PATCH, "any");

    assertEquals(
        "treatment rule all stands twice",
        assertThrows(IllegalArgumentException.class, () -> new TreatmentRules(List.of(all, all)))
            .getMessage());
    assertEquals(
        "treatment rule all: depthM runs from 2.0 to below 1.0: holds nothing",
        assertThrows(IllegalArgumentException.class, () -> all.withDepth(new Range(2.0, 1.0)))
            .getMessage());
    assertEquals(
        "treatment rule x: reason is missing; the crew sheet prints it",
        assertThrows(
                IllegalArgumentException.class,
                () -> TreatmentRule.of("x", Set.of(), Treatment.HAND_PATCH, " "))
            .getMessage());
  }

  /** The table is data: it goes to JSON and back, and a short row leaves every limit open. */
  @Test
  void isPlainData() throws Exception {
    ObjectMapper json = new ObjectMapper();
    TreatmentRules standard = TreatmentRules.standard();

    assertEquals(standard, json.readValue(json.writeValueAsString(standard), TreatmentRules.class));
    TreatmentRule row =
        json.readValue(
            "{\"id\":\"deep\",\"kinds\":[\"POTHOLE\"],\"depthM\":{\"atLeast\":0.1},"
                + "\"treatment\":\"DIG_OUT_AND_REBUILD\",\"reason\":\"ours\"}",
            TreatmentRule.class);
    assertTrue(row.fits(Bad.spot(DefectKind.POTHOLE, Severity.LOW, 1, 1, 5), Bad.twoLane(30, 1)));
    assertEquals(Range.from(0.1), row.depthM());
  }
}
