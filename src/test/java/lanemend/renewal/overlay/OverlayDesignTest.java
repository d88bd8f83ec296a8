package lanemend.renewal.overlay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.network.Lane;
import lanemend.network.Side;
import lanemend.renewal.overlay.LayerTable.Material;
import lanemend.renewal.overlay.OverlayDesign.Layer;
import lanemend.renewal.overlay.OverlayDesign.Limits;
import lanemend.renewal.overlay.OverlayDesign.Option;
import org.junit.jupiter.api.Test;

class OverlayDesignTest {
  private static final double IN = Conversion.M_PER_IN;

  /** The Guide's nomograph demand, SNf 4.976. */
  private static final FlexibleEquation.Demand DEMAND =
      new FlexibleEquation.Demand(5e6, 0.95, 0.35, 5000 * Conversion.KPA_PER_PSI, 1.9);

  private static final List<Layer> ROAD =
      List.of(
          new Layer("asphalt", 5 * IN, 0.25, 1, "over 10 % low alligator"),
          new Layer("crushed base", 12 * IN, 0.12, 1, "no pumping"));

  @Test
  void thicknessIsWhatIsLackingUpToTheHalfInch() {
    // By hand: SNeff = 5 x 0.25 + 12 x 0.12 = 2.69; (4.976 - 2.69) / 0.44 = 5.195 in, so 5.5 in
    Option plain = OverlayDesign.of(DEMAND, ROAD, Limits.STANDARD).options().get(0);
    assertEquals(2.69, plain.effective().value(), 1e-9);
    assertEquals(5.5 * IN, plain.thickness().value(), 1e-9);
    assertEquals(5.5 * IN, plain.riseM(), 1e-9);
  }

  @Test
  void millingTakesItsOwnStrengthAwayFirst() {
    // By hand, 2 in milled: SNeff = 3 x 0.25 + 1.44 = 2.19; (4.976 - 2.19) / 0.44 = 6.33, so 6.5 in
    Option milled = OverlayDesign.of(DEMAND, ROAD, Limits.STANDARD).options().get(4);
    assertEquals(2 * IN, milled.millM(), 1e-12);
    assertEquals(2.19, milled.effective().value(), 1e-9);
    assertEquals(6.5 * IN, milled.thickness().value(), 1e-9);
    assertEquals(4.5 * IN, milled.riseM(), 1e-9);
  }

  @Test
  void theLeastMillingWithinTheLimitsIsChosen() {
    // Given 4.5 in of rise allowed and ruts that need 1 in off
    OverlayDesign design =
        OverlayDesign.of(DEMAND, ROAD, new Limits(0.44, 1.5 * IN, IN, 4.5 * IN, IN));
    // then by hand 1 in needs 5.76 (6 laid, rise 5), 1.5 in needs 6.05 (6.5 laid, rise 5) and 2 in
    // needs 6.33 (6.5 laid, rise 4.5): the last is the first to fit
    assertEquals(2 * IN, design.chosen().orElseThrow().millM(), 1e-9);
    // and with no rise at all nothing fits, which is said
    OverlayDesign none = OverlayDesign.of(DEMAND, ROAD, new Limits(0.44, 1.5 * IN, 0, 0, IN));
    assertTrue(none.chosen().isEmpty());
    assertTrue(none.cautions().stream().anyMatch(c -> c.contains("reconstruct")));
  }

  @Test
  void aStrongRoadStillGetsTheThinnestOverlayThatCanBeLaid() {
    List<Layer> strong = List.of(new Layer("asphalt", 12 * IN, 0.44, 1, "new"));
    Option option = OverlayDesign.of(DEMAND, strong, Limits.STANDARD).options().get(0);
    assertEquals(1.5 * IN, option.thickness().value(), 1e-9);
    assertTrue(option.thickness().formula().contains("thinnest"));
  }

  @Test
  void conditionPicksTheRowOfTheTable() {
    // AASHTO 1993 part III table 5.2, from memory.
    LayerTable table = LayerTable.fromMemory();
    assertEquals(.375, middle(table, new CrackSurvey(0, 0, 0, 0, 0, false)), 1e-9);
    assertEquals(.30, middle(table, new CrackSurvey(8, 0, 0, 0, 0, false)), 1e-9);
    assertEquals(.25, middle(table, new CrackSurvey(30, 4, 0, 0, 0, false)), 1e-9);
    assertEquals(.17, middle(table, new CrackSurvey(0, 15, 2, 0, 0, false)), 1e-9);
    assertEquals(.115, middle(table, new CrackSurvey(0, 0, 11, 0, 0, false)), 1e-9);
    assertEquals(
        .05,
        table
            .row(
                Material.GRANULAR,
                new CrackSurvey(0, 0, 0, 0, 0, true),
                java.util.OptionalDouble.empty())
            .orElseThrow()
            .middle(),
        1e-9);
  }

  private static double middle(LayerTable table, CrackSurvey survey) {
    return table
        .row(Material.ASPHALT, survey, java.util.OptionalDouble.empty())
        .orElseThrow()
        .middle();
  }

  @Test
  void markedDefectsComeToPercentOfTheArea() {
    Place place = new Place("SR 7", 0, 10, 0, 0, Entered.byMilepost("SR 7", "0", null));
    Defect cracked =
        new Defect(
            "d1",
            DefectKind.ALLIGATOR_CRACKING,
            Severity.MEDIUM,
            place,
            new Lane(Side.RIGHT, 1),
            20,
            3,
            0,
            LocalDate.of(2024, 5, 1),
            "patrol",
            "",
            DefectStatus.OPEN,
            "");
    CrackSurvey survey = CrackSurvey.ofDefects(List.of(cracked), 1200, false);
    assertEquals(5, survey.alligatorMedium(), 1e-9);
    assertEquals(0, survey.alligatorHigh(), 1e-9);
  }

  @Test
  void costIsFixedPlusMixPlusMilling() {
    // By hand: 1,000 m2 of 5.5 in (0.1397 m) at 2,322.7 kg/m3 = 324.48 t; 324.48 x 90 + 5,000
    Option option = OverlayDesign.of(DEMAND, ROAD, Limits.STANDARD).options().get(0);
    assertEquals(34_203.3, new OverlayPrice(5000, 90, 0.5).cost(option, 1000).value(), 0.5);
    // 2 in milled is 5.08 cm: 1,000 x 5.08 x 0.5 = 2,540 more, on 6.5 in of mix
    Option milled = OverlayDesign.of(DEMAND, ROAD, Limits.STANDARD).options().get(4);
    assertEquals(
        5000 + 1000 * 0.1651 * 2.3227 * 90 + 2540,
        new OverlayPrice(5000, 90, 0.5).cost(milled, 1000).value(),
        1e-6);
  }
}
