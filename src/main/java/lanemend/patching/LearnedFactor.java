package lanemend.patching;

import java.time.LocalDate;
import java.util.Locale;

/**
 * How done work went against its plan, as somebody accepted it: what the designed number is
 * multiplied by from then on.
 *
 * @param treatment null for {@link Measure#HOUR_COST}, which is the same whatever is patched
 * @param crewId empty for the agency's crews at large
 * @param factor what the number is multiplied by, more than 0
 * @param low lower end of the 90 % interval of the factor
 * @param high upper end
 * @param records repairs it rests on
 * @param by who accepted it
 * @param on when
 */
public record LearnedFactor(
    Measure measure,
    Treatment treatment,
    String crewId,
    double factor,
    double low,
    double high,
    int records,
    String by,
    LocalDate on) {

  /** What of a plan done work is held against. */
  public enum Measure {
    /** Minutes of work at the spot. */
    MINUTES,
    /** Mix placed. */
    MIX,
    /** What an hour of a crew costs, trucks and mix apart. */
    HOUR_COST
  }

  public LearnedFactor {
    if (!(factor > 0) || Double.isInfinite(factor) || !(low > 0) || !(low <= high)) {
      throw new IllegalArgumentException(
          "a learned factor is " + factor + " (" + low + " to " + high + "), above 0 is expected");
    }
    if ((treatment == null) != (measure == Measure.HOUR_COST)) {
      throw new IllegalArgumentException(
          "a factor of " + measure + " does not go with treatment " + treatment);
    }
    if (measure == Measure.MIX && !crewId.isEmpty()) {
      throw new IllegalArgumentException("mix is learned by treatment, not for crew " + crewId);
    }
  }

  /** What it is about, such as {@code minutes blade_patch C1}; no two in force share it. */
  public String key() {
    return key(measure, treatment, crewId);
  }

  /** The key of a factor about this. */
  public static String key(Measure measure, Treatment treatment, String crewId) {
    return (code(measure)
            + (treatment == null ? "" : " " + code(treatment))
            + (crewId.isEmpty() ? "" : " " + crewId))
        .strip();
  }

  private static String code(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }

  /** Where it comes from, for the source of a figure. */
  public String source() {
    return String.format(
        Locale.ROOT,
        "learned factor %.3f from %d repairs of %s (90 %% interval %.2f to %.2f), accepted %s by %s",
        factor,
        records,
        crewId.isEmpty() ? "the agency" : "crew " + crewId,
        low,
        high,
        on,
        by);
  }
}
