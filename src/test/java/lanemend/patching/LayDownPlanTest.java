package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.measure.UnitSystem;
import org.junit.jupiter.api.Test;

/** What the grader's operator is told. */
class LayDownPlanTest {
  private static final double FT = Conversion.M_PER_FT;

  /** Dumping starts margin + taper + 1.5 ft before the defect: 1 + 20 + 1.5 at 55 mph. */
  @Test
  void startsDumpingBeforeTheTack() {
    LayDownPlan plan = plan(Bad.spot(DefectKind.RUTTING, Severity.HIGH, 100, 10, 1.5), 55);

    assertEquals(22.5, value(plan, "dumping starts before the defect") / FT, 1e-9);
    assertEquals(145, value(plan, "windrow length") / FT, 1e-9);
  }

  /** Below 45 mph the ends run out over 10 ft for each inch instead of 20. */
  @Test
  void runsTheEndsOutShorterOnSlowRoads() {
    Defect rut = Bad.spot(DefectKind.RUTTING, Severity.HIGH, 100, 10, 1.5);

    assertEquals(10, value(plan(rut, 35), "end taper") / FT, 1e-9);
    assertEquals(20, value(plan(rut, 45), "end taper") / FT, 1e-9);
  }

  /**
   * The windrows hold all the loose mix, and none is taller than the blade takes in; ruts from 4 in
   * are dug out instead.
   */
  @Test
  void windrowsHoldTheMix() {
    for (double depth : new double[] {0.5, 1.5, 3, 3.9}) {
      Defect rut = Bad.spot(DefectKind.RUTTING, Severity.HIGH, 150, 11, depth);
      PatchDesign design = design(rut, 55, PatchSettings.standard());
      LayDownPlan plan = design.layDown().orElseThrow();
      double height = value(plan, "windrow height");
      double width = value(plan, "windrow width");
      double held = height * width / 2 * value(plan, "windrow length") * value(plan, "windrows");

      assertEquals(design.figure("loose volume").orElseThrow().value(), held, 1e-9);
      assertTrue(height <= 1.5 * FT + 1e-9, "height " + height);
      assertEquals(3, width / height, 1e-9, "a slope of 1.5 to 1 on both sides");
    }
  }

  /** Sentences stand in the order of the work and name the lifts. */
  @Test
  void readsInTheOrderOfTheWork() {
    List<String> s =
        plan(Bad.spot(DefectKind.RUTTING, Severity.HIGH, 100, 10, 1.5), 55).instructions();
    String all = String.join("\n", s);

    assertTrue(s.get(0).contains("shoulder that stands above the mat"), s.get(0));
    assertTrue(all.indexOf("tack") < all.indexOf("Start dumping"), all);
    assertTrue(all.indexOf("Start dumping") < all.indexOf("Lift 1:"), all);
    assertTrue(all.indexOf("Lift 2:") < all.indexOf("Finish lift:"), all);
    assertTrue(all.indexOf("Finish lift:") < all.indexOf("Finish in 2 passes"), all);
    assertTrue(all.contains("10.1 tons (67 % of the mix)"), all);
    assertTrue(all.contains("Keep 7.5 ft clear past the mix at each end"), all);
    assertTrue(all.contains("from the shoulder to the centre in 3 strips"), all);
  }

  @Test
  void cutsAShoveDownFirst() {
    Defect shove = Bad.spot(DefectKind.SHOVING, Severity.MEDIUM, 40, 10, 1);
    List<String> s = plan(shove, 45).instructions();

    assertTrue(s.get(1).startsWith("Cut the shoved mat down to grade"), s.get(1));
  }

  /** On a divided road's roadway the low side need not be the shoulder. */
  @Test
  void carriesTheMixToTheLowSideOfADividedRoad() {
    PatchDesign design =
        new PatchDesigner(TreatmentRules.standard(), PatchSettings.standard())
            .design(
                Bad.spot(DefectKind.RUTTING, Severity.HIGH, 100, 10, 1.5), Bad.freeway(70, 9000));
    String all = String.join("\n", design.layDown().orElseThrow().instructions());

    assertTrue(all.contains("carry the mix out to the low side in 2 passes"), all);
    assertTrue(all.contains("from the low side to the high side"), all);
  }

  @Test
  void speaksMetricToAMetricAgency() {
    PatchSettings metric = PatchSettings.standard().inWords(UnitSystem.METRIC);
    Defect rut = Bad.spot(DefectKind.RUTTING, Severity.HIGH, 100, 10, 1.5);
    String all = String.join("\n", design(rut, 55, metric).layDown().orElseThrow().instructions());

    assertTrue(all.contains("3 lifts of 21 mm compacted"), all);
    assertTrue(all.contains("carry mix at 4 km/h"), all);
    assertFalse(all.matches("(?s).*\\d (ft|in|tons|mph)\\b.*"), all);
  }

  /** A mix too coarse for its lifts is said, not hidden. */
  @Test
  void warnsOfStoneTooLargeForTheLift() {
    // 1 in of cover and 0.4 in of rut make 2 lifts of 0.7 in; twice 3/8 in is 0.75.
    Defect rut = Bad.spot(DefectKind.RUTTING, Severity.LOW, 40, 6, 0.4);

    assertTrue(
        design(rut, 55, PatchSettings.standard())
            .cautions()
            .get(0)
            .startsWith("Lifts of 0.7 in are under twice the largest stone"));
  }

  private static LayDownPlan plan(Defect defect, double mph) {
    return design(defect, mph, PatchSettings.standard()).layDown().orElseThrow();
  }

  private static PatchDesign design(Defect defect, double mph, PatchSettings settings) {
    return new PatchDesigner(TreatmentRules.standard(), settings)
        .design(defect, Bad.twoLane(mph, 2000));
  }

  private static double value(LayDownPlan plan, String name) {
    return plan.figures().stream()
        .filter(f -> f.name().equals(name))
        .mapToDouble(Figure::value)
        .findFirst()
        .orElseThrow();
  }
}
