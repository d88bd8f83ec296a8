package lanemend.crewdays;

import java.time.LocalDate;
import java.util.List;

/**
 * One thing that is different between two plans.
 *
 * @param defectIds the repairs it is about, by growing along; all of the day's for a day
 * @param fromCrewId empty where it was in no crew day; as {@code fromDate} null
 * @param toCrewId empty where it is in no crew day; as {@code toDate} null
 * @param why in words
 */
public record PlanChange(
    Kind kind,
    List<String> defectIds,
    String fromCrewId,
    LocalDate fromDate,
    String toCrewId,
    LocalDate toDate,
    String why) {

  /** What may be different. */
  public enum Kind {
    /** On another crew day. */
    MOVED,
    /** In a crew day, and was in none. */
    ADDED,
    /** In no crew day, and was in one. */
    TAKEN_OFF,
    /** Does not wait for repair any more. */
    GONE,
    /** The same zones in another order. */
    REORDERED,
    /** The same work with other trucks or another plant. */
    SUPPLY
  }

  public PlanChange {
    defectIds = List.copyOf(defectIds);
  }
}
