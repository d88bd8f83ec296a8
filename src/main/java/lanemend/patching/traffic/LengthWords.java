package lanemend.patching.traffic;

import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;

/**
 * Lengths in sentences, as {@link UnitSystem#show} has them. Thousands of zones are planned to
 * choose a few: a formatter would take most of that time.
 */
record LengthWords(UnitSystem units) {

  String text(double metres) {
    if (units == UnitSystem.US_CUSTOMARY) {
      return grouped(Math.round(metres / Conversion.M_PER_FT)) + " ft";
    }
    long tenths = Math.round(metres * 10);
    return grouped(tenths / 10) + "." + tenths % 10 + " m";
  }

  private static String grouped(long whole) {
    long rest = whole % 1000;
    return whole < 1000
        ? String.valueOf(whole)
        : grouped(whole / 1000) + "," + (rest < 10 ? "00" : rest < 100 ? "0" : "") + rest;
  }
}
