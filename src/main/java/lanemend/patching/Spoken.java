package lanemend.patching;

import java.util.Locale;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;

/** Lengths and counts as an operator says them, in the agency's units. */
record Spoken(UnitSystem units) {

  /** A length on the ground, for instance {@code 7.5 ft}. */
  String length(double meters) {
    return units == UnitSystem.METRIC
        ? number(meters, meters < 10 ? 1 : 0) + " m"
        : number(meters / Conversion.M_PER_FT, meters < 10 * Conversion.M_PER_FT ? 1 : 0) + " ft";
  }

  /** A thickness, for instance {@code 1.5 in}. */
  String thickness(double meters) {
    return units == UnitSystem.METRIC
        ? number(meters * 1000, 0) + " mm"
        : number(meters / Conversion.M_PER_IN, 1) + " in";
  }

  /** A speed, for instance {@code 2.5 mph}. */
  String speed(double kmh) {
    return units == UnitSystem.METRIC
        ? number(kmh, 1) + " km/h"
        : number(kmh / Conversion.KMH_PER_MPH, 1) + " mph";
  }

  /** A cross-section, for instance {@code 1.9 ft2}. */
  String section(double squareMeters) {
    return units == UnitSystem.METRIC
        ? number(squareMeters, 2) + " m2"
        : number(squareMeters / (Conversion.M_PER_FT * Conversion.M_PER_FT), 1) + " ft2";
  }

  /** A mass of mix, for instance {@code 12.4 tons}. */
  String mass(double tonnes) {
    return units == UnitSystem.METRIC
        ? number(tonnes, 1) + " t"
        : number(tonnes / Conversion.T_PER_SHORT_TON, 1) + " tons";
  }

  /** {@code 1 pass}, {@code 2 passes}. */
  static String count(double n, String one, String many) {
    return Math.round(n) + " " + (Math.round(n) == 1 ? one : many);
  }

  private static String number(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
