package lanemend.crewdays.learning;

import java.time.LocalDate;
import java.util.Locale;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.patching.Treatment;

/**
 * A factor that done work proposes.
 *
 * @param treatment null for the cost of an hour
 * @param crewId empty for the agency's crews at large
 * @param now factor in force
 * @param proposed mean of actual over designed, pulled towards the agency's mean
 * @param low lower end of its 90 % interval
 * @param high upper end
 * @param own mean of its own records alone
 * @param records repairs of its own that it rests on
 * @param usable false for what is only shown: mix of one crew, because mix is ordered before it is
 *     settled which crew lays it
 */
public record Proposal(
    Measure measure,
    Treatment treatment,
    String crewId,
    double now,
    double proposed,
    double low,
    double high,
    double own,
    int records,
    LocalDate first,
    LocalDate last,
    boolean usable) {

  /** As {@link LearnedFactor#key()}. */
  public String key() {
    return LearnedFactor.key(measure, treatment, crewId);
  }

  /** True when the factor in force lies outside the interval: records speak against it. */
  public boolean clear() {
    return now < low || now > high;
  }

  /** Why, in a sentence. */
  public String reason() {
    return String.format(
        Locale.ROOT,
        "%d %s from %s to %s, mean alone %.2f; the factor in force, %.2f, is %s the 90 %% interval%s",
        records,
        records == 1 ? "repair" : "repairs",
        first,
        last,
        own,
        now,
        clear() ? "outside" : "inside",
        usable ? "" : "; shown only: mix is ordered before its crew is settled");
  }

  /** The factor as accepted. */
  public LearnedFactor accepted(String by, LocalDate on) {
    return new LearnedFactor(measure, treatment, crewId, proposed, low, high, records, by, on);
  }
}
