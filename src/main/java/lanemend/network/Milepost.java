package lanemend.network;

import java.util.Locale;

/** A milepost in miles, with the side of the equation where the number alone would be ambiguous. */
public record Milepost(double miles, EquationSide equationSide) {

  /** A milepost that occurs once on its route. */
  public static Milepost of(double miles) {
    return new Milepost(miles, EquationSide.ONLY);
  }

  /** Text such as {@code 12.345} or {@code 12.345 back}. */
  public String text() {
    String number = String.format(Locale.ROOT, "%.3f", miles);
    return switch (equationSide) {
      case ONLY -> number;
      case BACK -> number + " back";
      case AHEAD -> number + " ahead";
    };
  }
}
