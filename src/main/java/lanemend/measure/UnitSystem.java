package lanemend.measure;

import java.util.Locale;

/** How an agency reads its figures; the inside stays SI. */
public enum UnitSystem {
  US_CUSTOMARY,
  METRIC;

  /** A number ready to be shown: {@code value} in {@code label}. */
  public record Shown(double value, String label, int decimals) {
    /** Text such as {@code 12.4 tons}; counts and ratios carry no label. */
    public String text() {
      String number = String.format(Locale.ROOT, "%,." + decimals + "f", value);
      return label.isEmpty() ? number : number + " " + label;
    }
  }

  /** Converts {@code value}, kept in {@code unit}, to what this system's reader expects. */
  public Shown show(double value, Unit unit) {
    return switch (unit) {
      case COUNT -> new Shown(value, "", 0);
      case RATIO -> new Shown(value, "", 2);
      case PERCENT -> new Shown(value, "%", 0);
      case SECOND -> new Shown(value, "s", 0);
      case MINUTE -> fine(value, "min", 0);
      case DEGREE -> new Shown(value, "deg", 0);
      case HOUR -> new Shown(value, "h", 1);
      case VEHICLES_PER_HOUR -> new Shown(value, "veh/h", 0);
      case VEHICLES_PER_DAY -> new Shown(value, "veh/day", 0);
      case VEHICLE_HOUR -> new Shown(value, "veh-h", 1);
      case MONEY -> new Shown(value, "", 2);
      case YEAR -> new Shown(value, "years", 1);
      default -> this == US_CUSTOMARY ? us(value, unit) : metric(value, unit);
    };
  }

  private static Shown us(double v, Unit unit) {
    return switch (unit) {
      case METER -> fine(v / Conversion.M_PER_FT, "ft", 0);
      case ROAD_METER -> new Shown(v / Conversion.M_PER_MILE, "mi", 2);
      case THICKNESS_METER -> new Shown(v / Conversion.M_PER_IN, "in", 1);
      case SQUARE_METER -> new Shown(v / Conversion.M2_PER_YD2, "yd2", 0);
      case CROSS_SECTION_SQUARE_METER ->
          new Shown(v / (Conversion.M_PER_FT * Conversion.M_PER_FT), "ft2", 2);
      case CUBIC_METER -> fine(v / Conversion.M3_PER_YD3, "yd3", 1);
      case CUBIC_METER_PER_HOUR -> new Shown(v / Conversion.M3_PER_YD3, "yd3/h", 1);
      case KILOGRAM -> fine(v / Conversion.KG_PER_LB, "lb", 0);
      case KILOGRAM_PER_METER ->
          new Shown(v / Conversion.KG_PER_LB * Conversion.M_PER_FT, "lb/ft", 2);
      case KILOGRAM_PER_SQUARE_METER ->
          new Shown(v / Conversion.KG_PER_LB * Conversion.M2_PER_YD2, "lb/yd2", 1);
      case TONNE -> fine(v / Conversion.T_PER_SHORT_TON, "tons", 1);
      case TONNE_PER_HOUR -> new Shown(v / Conversion.T_PER_SHORT_TON, "tons/h", 1);
      case KG_PER_CUBIC_METER ->
          new Shown(v * Conversion.M3_PER_FT3 / Conversion.KG_PER_LB, "lb/ft3", 1);
      case LITER -> new Shown(v / Conversion.L_PER_US_GAL, "gal", 1);
      case LITER_PER_SQUARE_METER ->
          new Shown(v / Conversion.L_PER_US_GAL * Conversion.M2_PER_YD2, "gal/yd2", 3);
      case KM_PER_HOUR -> fine(v / Conversion.KMH_PER_MPH, "mph", 0);
      case DEGREE_CELSIUS -> new Shown(v * 9 / 5 + 32, "deg F", 0);
      case KILOPASCAL -> new Shown(v / Conversion.KPA_PER_PSI, "psi", 0);
      default -> throw new IllegalArgumentException("no US unit for " + unit);
    };
  }

  private static Shown metric(double v, Unit unit) {
    return switch (unit) {
      case METER -> new Shown(v, "m", 1);
      case ROAD_METER -> new Shown(v / 1000, "km", 2);
      case THICKNESS_METER -> new Shown(v * 1000, "mm", 0);
      case SQUARE_METER -> new Shown(v, "m2", 0);
      case CROSS_SECTION_SQUARE_METER -> new Shown(v, "m2", 3);
      case CUBIC_METER -> fine(v, "m3", 1);
      case CUBIC_METER_PER_HOUR -> new Shown(v, "m3/h", 1);
      case KILOGRAM -> fine(v, "kg", 0);
      case KILOGRAM_PER_METER -> new Shown(v, "kg/m", 2);
      case KILOGRAM_PER_SQUARE_METER -> new Shown(v, "kg/m2", 1);
      case TONNE -> fine(v, "t", 1);
      case TONNE_PER_HOUR -> new Shown(v, "t/h", 1);
      case KG_PER_CUBIC_METER -> new Shown(v, "kg/m3", 0);
      case LITER -> new Shown(v, "L", 0);
      case LITER_PER_SQUARE_METER -> new Shown(v, "L/m2", 2);
      case KM_PER_HOUR -> fine(v, "km/h", 0);
      case DEGREE_CELSIUS -> new Shown(v, "deg C", 0);
      case KILOPASCAL -> new Shown(v, "kPa", 0);
      default -> throw new IllegalArgumentException("no metric unit for " + unit);
    };
  }

  /**
   * One decimal more where the usual ones would hide a small number: 1.5 ft, 0.06 tons, 2.5 mph.
   */
  private static Shown fine(double v, String label, int decimals) {
    double size = Math.abs(v);
    double unit = Math.pow(10, -decimals);
    boolean whole = Math.abs(size / unit - Math.rint(size / unit)) < 0.05;
    return new Shown(v, label, size < 10 * unit && !whole ? decimals + 1 : decimals);
  }
}
