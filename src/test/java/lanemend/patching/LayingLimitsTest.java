package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The coldest air and surface each repair is laid at. */
class LayingLimitsTest {
  private static final LayingLimits LIMITS = LayingLimits.standard();
  private final PatchDesigner designer =
      new PatchDesigner(TreatmentRules.standard(), PatchSettings.standard());

  /**
   * A Georgia paving contractor's posted table (read): 1 in or less 55 F, 1.1 to 2 in 45, 2.1 to 3
   * in 40, 3.1 to 4 in 35, 4.1 to 8 in 32 F.
   */
  @ParameterizedTest
  @CsvSource({
    "0.5, 55", "1, 55", "1.1, 45", "2, 45", "2.1, 40", "3, 40", "3.1, 35", "4, 35", "6, 32"
  })
  void mixByTheThicknessOfItsLift(double inches, double fahrenheit) {
    assertEquals(fahrenheit, LIMITS.mixC(inches * Conversion.M_PER_IN) * 1.8 + 32, 1e-9);
  }

  /**
   * Given a rut bladed in lifts of an inch at most, then 55 F for the mix and 50 F for the tack.
   */
  @Test
  void aBladePatchNeedsTheWarmerDay() {
    PatchDesign rut =
        designer.design(
            Bad.spot(DefectKind.RUTTING, Severity.HIGH, 100, 10, 1.5), Bad.twoLane(55, 2000));

    assertEquals(Treatment.BLADE_PATCH, rut.choice().treatment());
    assertEquals(55, fahrenheit(rut, "hot mix"), 1e-9);
    assertEquals(50, fahrenheit(rut, "tack"), 1e-9);
  }

  /** A deep dig is laid in thicker lifts and may be laid on a colder day than a thin mat. */
  @Test
  void aThickLiftMayBeLaidColder() {
    PatchDesign dig =
        designer.designAs(
            Bad.spot(DefectKind.POTHOLE, Severity.HIGH, 6, 4, 6),
            Bad.twoLane(55, 2000),
            new TreatmentChoice(Treatment.DIG_OUT_AND_REBUILD, "test", "given"));

    assertTrue(fahrenheit(dig, "hot mix") <= 45 + 1e-9);
  }

  @Test
  void nothingIsLaidWhereTheRepairWaits() {
    assertEquals(List.of(), LIMITS.figures(Treatment.DEFER_TO_OVERLAY, List.of()));
  }

  private static double fahrenheit(PatchDesign design, String what) {
    Figure limit = design.figure(FigureName.LEAST_TEMPERATURE + what).orElseThrow();
    return limit.value() * 1.8 + 32;
  }
}
