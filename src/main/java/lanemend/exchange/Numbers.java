package lanemend.exchange;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Numbers as files carry them: a decimal point, no grouping, no exponent, no trailing zeros. */
final class Numbers {
  private Numbers() {}

  /** To nine decimals, which gives back 2.5 for 2.5 ft kept in metres. */
  static String plain(double value) {
    return rounded(value, 9);
  }

  /** Short, for a message; any double, also one that is not finite. */
  static String shown(double value) {
    return Double.isFinite(value) && Math.abs(value) < 1e12
        ? rounded(value, 7)
        : Double.toString(value);
  }

  /** To {@code decimals} decimals. */
  static String rounded(double value, int decimals) {
    BigDecimal d = new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN);
    return d.signum() == 0 ? "0" : d.stripTrailingZeros().toPlainString();
  }
}
