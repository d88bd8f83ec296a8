package lanemend.renewal.overlay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.inventory.DistressKind;
import lanemend.inventory.Severity;
import lanemend.inventory.SurveyedDistress;
import lanemend.measure.Conversion;
import lanemend.renewal.overlay.ConditionIndex.Curves;
import lanemend.renewal.overlay.ConditionIndex.Distress;
import lanemend.renewal.overlay.ConditionIndex.Observed;
import lanemend.renewal.overlay.ConditionIndex.Point;
import org.junit.jupiter.api.Test;

class ConditionIndexTest {
  private static final double FT = Conversion.M_PER_FT;

  /** One row of the worked sheet: a distress in feet, its density and deduct as printed. */
  private record Printed(
      DistressKind kind, Severity severity, double quantity, double density, double deduct) {}

  /**
   * The worked sheet of ASTM D6433-99 for a sample of 100 by 25 ft, as a thesis prints it
   * (text-id.123dok.com, Assessment and Limitation: Analysis of data, table 3.1; read).
   */
  private static final List<Printed> SHEET =
      List.of(
          new Printed(DistressKind.ALLIGATOR_CRACKING, Severity.LOW, 13, 0.52, 7.9),
          new Printed(DistressKind.ALLIGATOR_CRACKING, Severity.HIGH, 14, 0.56, 23.4),
          new Printed(DistressKind.EDGE_CRACKING, Severity.LOW, 130, 5.20, 7.5),
          new Printed(DistressKind.JOINT_REFLECTION_CRACKING, Severity.MEDIUM, 143, 5.72, 25.1),
          new Printed(DistressKind.PATCHING, Severity.HIGH, 22, 0.88, 17.9),
          new Printed(DistressKind.POTHOLE, Severity.LOW, 1, 0.04, 11.2),
          new Printed(DistressKind.RUTTING, Severity.LOW, 21, 0.84, 6.9),
          new Printed(DistressKind.RAVELLING, Severity.LOW, 250, 10.0, 5.3));

  private static double si(DistressKind kind, double quantity) {
    return switch (kind.measure()) {
      case AREA -> quantity * FT * FT;
      case LENGTH -> quantity * FT;
      case COUNT -> quantity;
    };
  }

  private static List<SurveyedDistress> sheet(String sample, boolean additional, double areaFt2) {
    SurveyedDistress.Unit unit =
        new SurveyedDistress.Unit(
            "SR 7", 0, 100 * FT, areaFt2 * FT * FT, additional, LocalDate.of(2025, 7, 1), "ann");
    List<SurveyedDistress> rows = new ArrayList<>();
    for (Printed p : SHEET) {
      rows.add(
          new SurveyedDistress(
              sample + rows.size(),
              sample,
              unit,
              p.kind(),
              p.severity(),
              si(p.kind(), p.quantity())));
    }
    return rows;
  }

  /** Deducts as read off the standard's charts for the sheet; correction lines invented. */
  private static Curves curves() {
    Map<Distress, List<Point>> deducts = new HashMap<>();
    for (Printed p : SHEET) {
      deducts.put(
          new Distress(p.kind(), p.severity()), List.of(new Point(p.density(), p.deduct())));
    }
    Map<Integer, List<Point>> corrected = new HashMap<>();
    for (int q = 1; q <= 8; q++) {
      // Test data: half of the total, more for fewer deducts.
      corrected.put(q, List.of(new Point(0, 0), new Point(200, 100 + (8 - q))));
    }
    return new Curves("test", true, deducts, corrected);
  }

  private static SectionCondition condition(
      List<SurveyedDistress> rows, double areaM2, Curves curves) {
    return SectionCondition.of(rows, areaM2, u -> true, curves).orElseThrow();
  }

  @Test
  void theWorkedSheetComesOutStepByStep() {
    // Given the sheet's quantities, when they are reckoned over 2,500 ft2
    ConditionIndex.Result r =
        condition(sheet("1", false, 2500), 2500 * FT * FT, curves()).samples().get(0).result();
    // then the densities are the printed ones (highest deduct first)
    assertEquals(
        List.of(5.72, 0.56, 0.88, 0.04, 0.52, 5.20, 0.84, 10.0),
        r.deducts().stream()
            .map(d -> Math.rint(d.observed().densityPercent() * 1e6) / 1e6)
            .toList());
    // and m is 1 + 9 / 98 x (100 - 25.1) = 7.879 (by hand), so of the eighth deduct 0.879 x 5.3
    assertEquals(7.879, r.allowed(), 5e-4);
    assertEquals(4.66, r.counted().get(7), 5e-3);
    // and the totals by falling q start at 104.56 (by hand), the last keeps one above 2
    assertEquals(104.56, r.corrected().get(0).total().total(), 6e-3);
    assertEquals(25.1 + 7 * 2, r.corrected().get(7).total().total(), 1e-9);
    assertEquals(8, r.corrected().size());
  }

  @Test
  void aThesissTotals() {
    // A thesis that restates D6433 (text-id.123dok.com, Evaluation pavement distresses, table 4.3;
    // read): deducts 48, 23, 18, 6 and a last 3.85; m 5.77; totals by q from 5 to 1: 98.85, 97, 93,
    // 77, 56.
    assertEquals(5.7755, ConditionIndex.allowed(48), 5e-5);
    List<ConditionIndex.Total> totals = ConditionIndex.totals(List.of(48.0, 23.0, 18.0, 6.0, 3.85));
    double[] wanted = {98.85, 97, 93, 77, 56};
    for (int i = 0; i < 5; i++) {
      assertEquals(5 - i, totals.get(i).q());
      assertEquals(wanted[i], totals.get(i).total(), 1e-9);
    }
    // The last counts by the fraction of m: of 5.0 it is 3.8776, which the thesis cuts to 3.85.
    List<Double> six = ConditionIndex.reduced(List.of(48.0, 23.0, 18.0, 6.0, 5.0, 5.0));
    assertEquals(5.0 * 0.7755, six.get(5), 5e-4);
  }

  @Test
  void readingsOfTheArmysManual() {
    // US Army TM 5-623 (1982), appendix C (read at buildingcriteria1.tpub.com): alligator cracking,
    // medium, 0.64 % deducts 17; rutting, low, 50 ft2 of 2,500 is 2.0 % and deducts 13; a total of
    // 45 with q = 2 is corrected to 33, so the index is 67.
    Curves read =
        new Curves(
            "TM 5-623, readings of its example",
            true,
            Map.of(
                new Distress(DistressKind.ALLIGATOR_CRACKING, Severity.MEDIUM),
                List.of(new Point(0.64, 17)),
                new Distress(DistressKind.RUTTING, Severity.LOW),
                List.of(new Point(2.0, 13)),
                new Distress(DistressKind.PATCHING, Severity.HIGH),
                List.of(new Point(1.0, 28))),
            Map.of(
                2, List.of(new Point(45, 33)), 1, List.of(new Point(0, 0), new Point(100, 100))));
    assertEquals(2.0, ConditionIndex.density(DistressKind.RUTTING, 50, 2500, true), 1e-12);
    ConditionIndex.Result r =
        ConditionIndex.of(
            List.of(
                new Observed(new Distress(DistressKind.ALLIGATOR_CRACKING, Severity.MEDIUM), 0.64),
                new Observed(new Distress(DistressKind.PATCHING, Severity.HIGH), 1)),
            read);
    // 17 and an invented 28 make the manual's total of 45
    assertEquals(45, r.corrected().get(0).total().total(), 1e-9);
    assertEquals(33, r.corrected().get(0).value(), 1e-9);
    // The later standard goes on to q = 1, here 28 + 2 = 30, and takes the greater: 33.
    assertEquals(67, r.index().orElseThrow(), 1e-9);
  }

  @Test
  void densityOfLengthsAndPiecesHangsOnTheUnit() {
    // 130 ft on 2,500 ft2 is 5.2 % in feet (the sheet); 39.624 m on 232.2576 m2 is 17.06 % in
    // metres
    assertEquals(
        5.2,
        ConditionIndex.density(DistressKind.EDGE_CRACKING, 130 * FT, 2500 * FT * FT, true),
        1e-9);
    assertEquals(
        17.0604,
        ConditionIndex.density(DistressKind.EDGE_CRACKING, 130 * FT, 2500 * FT * FT, false),
        1e-4);
    assertEquals(
        0.04, ConditionIndex.density(DistressKind.POTHOLE, 1, 2500 * FT * FT, true), 1e-12);
  }

  @Test
  void theSectionIsTheMeanOfItsSamplesByArea() {
    // Given two samples at random, one clean and three times as large, and one additional
    List<SurveyedDistress> rows = new ArrayList<>(sheet("1", false, 2500));
    SurveyedDistress.Unit clean =
        new SurveyedDistress.Unit(
            "SR 7", 200, 300, 7500 * FT * FT, false, LocalDate.of(2025, 7, 2), "ann");
    rows.add(new SurveyedDistress("c", "2", clean, DistressKind.NONE, Severity.LOW, 0));
    double pci = condition(sheet("1", false, 2500), 1, curves()).index().orElseThrow().value();
    double section = 40_000 * FT * FT;
    // then at random alone the mean is (pci + 3 x 100) / 4, whatever the section's area
    assertEquals(
        (pci + 300) / 4, condition(rows, section, curves()).index().orElseThrow().value(), 1e-9);
    // and an additional sample of 2,500 ft2 counts for its own sixteenth of the section only
    rows.addAll(sheet("3", true, 2500));
    assertEquals(
        (pci + 300) / 4 * 15 / 16 + pci / 16,
        condition(rows, section, curves()).index().orElseThrow().value(),
        1e-9);
    // D6433 equation 1 (read), by hand: N = 40,000 / 4,166.7 = 10 (rounded), s 10, e 5:
    // 10 x 100 / (6.25 x 9 + 100) = 6.4, so 7
    assertEquals(new SectionCondition.Wanted(7, 10), condition(rows, section, curves()).wanted());
  }

  @Test
  void onlyTheLatestSurveyOfThisSurfaceCounts() {
    List<SurveyedDistress> rows = new ArrayList<>(sheet("1", false, 2500));
    SurveyedDistress.Unit before =
        new SurveyedDistress.Unit(
            "SR 7", 0, 100 * FT, 2500 * FT * FT, false, LocalDate.of(2021, 7, 1), "ann");
    rows.add(new SurveyedDistress("old", "9", before, DistressKind.NONE, Severity.LOW, 0));
    SectionCondition c = condition(rows, 1000, curves());
    assertEquals(List.of("1"), c.samples().stream().map(s -> s.name()).toList());
    assertEquals(1, c.left());
    // and where the surface was laid after the survey there is none
    assertEquals(Optional.empty(), SectionCondition.of(rows, 1000, u -> false, curves()));
  }

  @Test
  void withoutTheAgencysCurvesThereIsNoIndexButTheCrackingCounts() {
    SectionCondition c = condition(sheet("1", false, 2500), 1000, Curves.NONE);
    assertFalse(c.index().isPresent());
    assertTrue(c.missing().contains("deduct curve of rutting, low"), c.missing().toString());
    assertEquals(0.52, c.cracks().alligatorLow(), 1e-9);
    assertEquals(0.56, c.cracks().alligatorHigh(), 1e-9);
  }

  @Test
  void withCurvesTheLargestCorrectedDeductCounts() {
    // Given made-up straight curves (test data, not the standard's): two distresses
    Distress rut = new Distress(DistressKind.RUTTING, Severity.LOW);
    Distress hole = new Distress(DistressKind.POTHOLE, Severity.HIGH);
    List<Point> line = List.of(new Point(1, 10), new Point(100, 50));
    Curves curves =
        new Curves(
            "test",
            true,
            Map.of(rut, line, hole, line),
            Map.of(
                1, List.of(new Point(0, 0), new Point(100, 100)),
                2, List.of(new Point(0, 0), new Point(100, 80))));
    // when rutting covers 10 % (halfway on a log scale: 30) and potholes 1 % (10)
    ConditionIndex.Result result =
        ConditionIndex.of(List.of(new Observed(rut, 10), new Observed(hole, 1)), curves);
    // then q = 2: 40 -> 32; q = 1: 30 + 2 -> 32; the index is 68
    assertEquals(68, result.index().orElseThrow(), 1e-9);
  }

  @Test
  void anAgencysTableMayGoByTheIndex() {
    LayerTable.Limits good = new LayerTable.Limits(100, 100, 100, 100, 100, true, 70);
    LayerTable table =
        new LayerTable(
            List.of(
                new LayerTable.Row(LayerTable.Material.ASPHALT, "70 and more", good, .35, .35),
                new LayerTable.Row(
                    LayerTable.Material.ASPHALT, "less", LayerTable.Limits.NONE, .2, .2),
                new LayerTable.Row(
                    LayerTable.Material.GRANULAR, "any", LayerTable.Limits.NONE, .1, .1)));
    CrackSurvey none = new CrackSurvey(0, 0, 0, 0, 0, false);
    assertEquals(.35, a(table, none, 70));
    assertEquals(.2, a(table, none, 69.9));
  }

  private static double a(LayerTable table, CrackSurvey cracks, double index) {
    return table
        .row(LayerTable.Material.ASPHALT, cracks, java.util.OptionalDouble.of(index))
        .orElseThrow()
        .middle();
  }
}
