package lanemend.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A crew must not read 0.0 tons or 2 ft where 0.06 tons or 1.5 ft is meant. */
class SmallNumbersTest {

  @ParameterizedTest
  @CsvSource({"1.5, 1.5 ft", "2, 2 ft", "12.4, 12 ft"})
  void showsHalfFeetWhenShort(double feet, String shown) {
    assertEquals(
        shown, UnitSystem.US_CUSTOMARY.show(feet * Conversion.M_PER_FT, Unit.METER).text());
  }

  @ParameterizedTest
  @CsvSource({"0.06, 0.06 tons", "0.5, 0.5 tons", "3.26, 3.3 tons"})
  void showsAHandfulOfMix(double tons, String shown) {
    assertEquals(
        shown, UnitSystem.US_CUSTOMARY.show(tons * Conversion.T_PER_SHORT_TON, Unit.TONNE).text());
  }

  @Test
  void showsAGradersSpeed() {
    double kmh = 2.5 * Conversion.KMH_PER_MPH;

    assertEquals("2.5 mph", UnitSystem.US_CUSTOMARY.show(kmh, Unit.KM_PER_HOUR).text());
  }
}
