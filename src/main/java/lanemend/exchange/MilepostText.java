package lanemend.exchange;

import java.util.Locale;
import java.util.Optional;
import lanemend.network.EquationSide;
import lanemend.network.Milepost;

/** Mileposts as people write them: {@code 12.345}, {@code 12.345 back}, {@code 12.345 ahead}. */
public final class MilepostText {
  static final String WANTED =
      "a milepost in miles such as 12.345, with ' back' or ' ahead' where it occurs twice";

  private MilepostText() {}

  public static Optional<Milepost> parse(String text) {
    String t = text.strip().toLowerCase(Locale.ROOT);
    EquationSide side = EquationSide.ONLY;
    if (t.endsWith(" back")) {
      side = EquationSide.BACK;
      t = t.substring(0, t.length() - 5).strip();
    } else if (t.endsWith(" ahead")) {
      side = EquationSide.AHEAD;
      t = t.substring(0, t.length() - 6).strip();
    }
    double miles = Cells.parse(t);
    return miles >= -1_000 && miles <= 100_000
        ? Optional.of(new Milepost(miles, side))
        : Optional.empty();
  }
}
