package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Whole repairs, treatment by treatment, and what must hold for all of them. */
class PatchDesignerTest {
  private static final RoadSetting ROAD = Bad.twoLane(55, 2000);

  /** Every treatment that takes mix needs more of it for a longer, wider or deeper defect. */
  @ParameterizedTest
  @EnumSource(
      value = Treatment.class,
      names = {"HAND_PATCH", "BLADE_PATCH", "DIG_OUT_AND_REBUILD", "EDGE_REPAIR"})
  void mixGrowsWithEachDimension(Treatment treatment) {
    PatchDesigner designer = always(treatment);
    Random random = new Random(7);
    for (int i = 0; i < 500; i++) {
      DefectKind kind = random.nextBoolean() ? DefectKind.RUTTING : DefectKind.POTHOLE;
      double length = 200 * random.nextDouble();
      double width = 30 * random.nextDouble();
      double depth = 12 * random.nextDouble();
      double more = 1 + random.nextDouble();
      double tons = tons(designer, kind, length, width, depth);

      assertTrue(tons(designer, kind, length * more, width, depth) > tons);
      assertTrue(tons(designer, kind, length, width * more, depth) >= tons);
      assertTrue(tons(designer, kind, length, width, depth * more) >= tons);
      assertTrue(tons > 0);
    }
  }

  /** The same spot entered in feet and inches or in metres is the same repair. */
  @Test
  void unitsOfEntryDoNotMatter() {
    PatchDesigner designer = standard();
    Defect us = Bad.spot(DefectKind.RUTTING, Severity.MEDIUM, 100, 10, 1.5);
    Defect metric = Bad.spotM(DefectKind.RUTTING, Severity.MEDIUM, 30.48, 3.048, 0.0381);
    PatchDesign a = designer.design(us, ROAD);
    PatchDesign b = designer.design(metric, ROAD);

    assertEquals(a.figures().size(), b.figures().size());
    for (int i = 0; i < a.figures().size(); i++) {
      Figure figure = a.figures().get(i);
      assertEquals(
          figure.value(),
          b.figures().get(i).value(),
          Math.abs(figure.value()) * 1e-12,
          figure.name());
    }
    assertEquals(
        UnitSystem.US_CUSTOMARY.show(a.tonnes(), Unit.TONNE).value() * Conversion.T_PER_SHORT_TON,
        UnitSystem.METRIC.show(b.tonnes(), Unit.TONNE).value(),
        1e-9);
  }

  /** Every figure and step says how it came to be. */
  @Test
  void everyNumberIsTraced() {
    PatchDesigner designer = standard();
    for (DefectKind kind : DefectKind.values()) {
      for (Severity severity : Severity.values()) {
        PatchDesign design = designer.design(Bad.spot(kind, severity, 40, 6, 1), ROAD);
        Set<String> names = new HashSet<>();
        for (Figure figure : design.figures()) {
          assertTrue(names.add(figure.name()), "twice: " + figure.name());
          assertTraced(figure);
        }
        design.steps().forEach(s -> assertTraced(s.minutes()));
        design.layDown().ifPresent(p -> p.figures().forEach(PatchDesignerTest::assertTraced));
        assertTrue(design.steps().stream().allMatch(s -> s.spreadMinutes() > 0));
        assertFalse(design.cautions().isEmpty());
      }
    }
  }

  /** Every figure can be shown to either reader. */
  @Test
  void everyNumberCanBeShown() {
    for (DefectKind kind : DefectKind.values()) {
      PatchDesign design = standard().design(Bad.spot(kind, Severity.HIGH, 40, 6, 1), ROAD);
      for (Figure figure : design.figures()) {
        for (UnitSystem units : UnitSystem.values()) {
          assertFalse(units.show(figure.value(), figure.unit()).text().isBlank());
          figure.inputs().forEach(in -> units.show(in.value(), in.unit()));
        }
      }
    }
  }

  /** A pothole 2 ft by 1.5 ft by 3 in: 3 ft by 2.5 ft by 3 in at 145 lb/ft3 and 5 % is 286 lb. */
  @Test
  void handPatchesASmallPothole() {
    PatchDesign design =
        standard().design(Bad.spot(DefectKind.POTHOLE, Severity.MEDIUM, 2, 1.5, 3), ROAD);

    assertEquals(Treatment.HAND_PATCH, design.choice().treatment());
    double pounds = design.tonnes() * 1000 / Conversion.KG_PER_LB;
    assertEquals(3 * 2.5 * 0.25 * 145 * 1.05, pounds, 1e-6);
    assertEquals(2, value(design, FigureName.LIFTS));
    assertEquals(Set.of(Equipment.PAVEMENT_SAW, Equipment.PLATE_COMPACTOR), design.equipment());
    assertTrue(design.layDown().isEmpty());
  }

  /** 8 ft by 5 ft dug to 10 in: 10 by 7 ft, 6 in of stone at 135 lb/ft3 and 4 in of mix, 5 %. */
  @Test
  void digsOutADeepHole() {
    PatchDesign design =
        standard().design(Bad.spot(DefectKind.POTHOLE, Severity.HIGH, 8, 5, 6), ROAD);
    double stone = value(design, "base stone to order") / Conversion.T_PER_SHORT_TON;
    double mix = design.tonnes() / Conversion.T_PER_SHORT_TON;

    assertEquals(70 * 0.5 * 135 / 2000 * 1.05, stone, 1e-9);
    assertEquals(70 * 4 / 12.0 * 145 / 2000 * 1.05, mix, 1e-9);
    assertEquals(
        70 * 10 / 12.0 / 27 * 1.25,
        value(design, "spoil to haul away") / Conversion.M3_PER_YD3,
        1e-9);
    assertTrue(design.equipment().contains(Equipment.LOADER));
  }

  /** A pit deeper than the least dig is dug to its own depth. */
  @Test
  void digsAsDeepAsTheDefect() {
    PatchDesign design =
        standard().design(Bad.spot(DefectKind.POTHOLE, Severity.HIGH, 8, 5, 14), ROAD);

    assertEquals(14 * Conversion.M_PER_IN, value(design, "cut depth"), 1e-12);
  }

  /** 30 ft of edge, 1.5 ft in, 3 in deep: 32 by 2.5 ft of mix and a 2-ft wedge of stone. */
  @Test
  void repairsAnEdge() {
    PatchDesign design =
        standard().design(Bad.spot(DefectKind.EDGE_BREAK, Severity.MEDIUM, 30, 1.5, 3), ROAD);

    assertEquals(
        32 * 2.5 * 0.25 * 145 / 2000 * 1.05, design.tonnes() / Conversion.T_PER_SHORT_TON, 1e-9);
    assertEquals(
        32 * 2 * 0.25 / 2 * 135 / 2000 * 1.05,
        value(design, "shoulder stone to order") / Conversion.T_PER_SHORT_TON,
        1e-9);
    assertFalse(design.equipment().contains(Equipment.DISTRIBUTOR));
  }

  /** An edge too long for a hand wand brings the distributor and says so in the machines. */
  @Test
  void bringsTheDistributorToALongEdge() {
    PatchDesign design =
        standard().design(Bad.spot(DefectKind.EDGE_BREAK, Severity.MEDIUM, 300, 2, 3), ROAD);

    assertTrue(design.equipment().contains(Equipment.DISTRIBUTOR));
  }

  /** Lengths of crack: the longer side, or one crack for each 20 ft of a run of cracks. */
  @ParameterizedTest
  @CsvSource({
    "LONGITUDINAL_CRACKING, 90, 0.1, 90",
    "TRANSVERSE_CRACKING, 0.1, 12, 12",
    "TRANSVERSE_CRACKING, 60, 12, 48"
  })
  void measuresCracks(DefectKind kind, double lengthFt, double widthFt, double feet) {
    PatchDesign design =
        standard().design(Bad.spot(kind, Severity.MEDIUM, lengthFt, widthFt, 0), ROAD);

    assertEquals(feet, value(design, "crack length") / Conversion.M_PER_FT, 1e-9);
    // 1/2 x 1/2 in groove and 3 x 1/16 in band = 0.4375 in2 at 1,150 kg/m3 and 15 % waste.
    double kgPerM = 0.4375 * 0.0254 * 0.0254 * 1150 * 1.15;
    assertEquals(feet * Conversion.M_PER_FT * kgPerM, value(design, "sealant to melt"), 1e-9);
    assertEquals(0, design.tonnes());
  }

  /** 100 by 11 ft ravelled: 102 by 13 ft at 0.35 gal/yd2 and 22 lb/yd2 plus 10 %. */
  @Test
  void sealsASurface() {
    PatchDesign design =
        standard().design(Bad.spot(DefectKind.RAVELLING, Severity.LOW, 100, 11, 0), ROAD);
    double yd2 = 102 * 13 / 9.0;

    assertEquals(
        yd2 * 0.35, value(design, "seal emulsion to spray") / Conversion.L_PER_US_GAL, 1e-9);
    assertEquals(
        yd2 * 22 / 2000 * 1.1, value(design, "chips to order") / Conversion.T_PER_SHORT_TON, 1e-9);
    assertEquals(0, design.tackLiters());
  }

  @Test
  void defersWithoutWork() {
    PatchDesign design =
        standard()
            .design(Bad.spot(DefectKind.ALLIGATOR_CRACKING, Severity.HIGH, 2000, 12, 0), ROAD);

    assertEquals(Treatment.DEFER_TO_OVERLAY, design.choice().treatment());
    assertEquals(0, design.minutes());
    assertEquals(0, design.tonnes());
    assertTrue(design.equipment().isEmpty());
    assertTrue(design.cautions().get(0).startsWith("Deferring does not make the road safe"));
  }

  /** On a multilane roadway the arrow board is one of the machines. */
  @Test
  void bringsAnArrowBoardToAMultilaneRoad() {
    Defect rut = Bad.spot(DefectKind.RUTTING, Severity.MEDIUM, 50, 3, 1);

    assertTrue(
        standard().design(rut, Bad.freeway(70, 9000)).equipment().contains(Equipment.ARROW_BOARD));
    assertFalse(standard().design(rut, ROAD).equipment().contains(Equipment.ARROW_BOARD));
  }

  /** The mat with its feathers stays inside the lanes the defect lies in. */
  @Test
  void keepsTheFeatherOutOfTheOpenLane() {
    for (double width : new double[] {1, 6, 9, 11.5, 12, 13, 24}) {
      PatchDesign design =
          standard().design(Bad.spot(DefectKind.RUTTING, Severity.LOW, 50, width, 1), ROAD);
      double mat = value(design, "patch width at full thickness") / Conversion.M_PER_FT + 2;

      assertTrue(mat <= (width <= 12 ? 12 : 24) + 1e-9, width + " ft: mat " + mat);
    }
  }

  @Test
  void namesADimensionItCannotUse() {
    assertEquals(
        "defect T1: depth is -0.01 m; 0 or more is expected",
        assertThrows(
                IllegalArgumentException.class,
                () ->
                    standard()
                        .design(Bad.spotM(DefectKind.POTHOLE, Severity.LOW, 1, 1, -0.01), ROAD))
            .getMessage());
    assertThrows(
        IllegalArgumentException.class,
        () ->
            standard().design(Bad.spotM(DefectKind.POTHOLE, Severity.LOW, Double.NaN, 1, 0), ROAD));
  }

  private static void assertTraced(Figure figure) {
    assertTrue(Double.isFinite(figure.value()) && figure.value() >= 0, figure.toString());
    assertFalse(figure.formula().isBlank(), figure.toString());
    assertFalse(figure.source().isBlank(), figure.toString());
  }

  private static double tons(
      PatchDesigner designer, DefectKind kind, double length, double width, double depth) {
    return designer.design(Bad.spot(kind, Severity.MEDIUM, length, width, depth), ROAD).tonnes();
  }

  private static double value(PatchDesign design, String name) {
    return design.figure(name).orElseThrow().value();
  }

  private static PatchDesigner standard() {
    return new PatchDesigner(TreatmentRules.standard(), PatchSettings.standard());
  }

  private static PatchDesigner always(Treatment treatment) {
    TreatmentRule rule = TreatmentRule.of("always", Set.of(), treatment, "for the test");
    return new PatchDesigner(new TreatmentRules(List.of(rule)), PatchSettings.standard());
  }
}
