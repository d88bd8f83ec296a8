package lanemend.crewdays.learning;

import java.math.BigDecimal;
import java.time.LocalDate;
import lanemend.patching.Treatment;

/**
 * A repair that was done, with what was planned of it where that is known.
 *
 * @param id of the past patch
 * @param crewId empty where no crew is on record
 * @param treatment null for work that is none of the treatments, such as resurfacing
 * @param planned null where nothing is known of a plan
 * @param tonnes placed, or null when not recorded
 * @param crewHours at the spot, or null
 * @param cost or null; in the agency's currency
 */
public record DoneRepair(
    String id,
    String crewId,
    Treatment treatment,
    String routeId,
    LocalDate doneOn,
    Planned planned,
    Double tonnes,
    Double crewHours,
    BigDecimal cost) {

  /** Where the planned numbers come from. */
  public enum Basis {
    /** Kept when the work was recorded, as the sheet had it. */
    SHEET,
    /** Came with an imported record. */
    FILE,
    /** Worked out now from the defect, for work recorded before plans were kept with it. */
    REDESIGNED
  }

  /**
   * The plan of a repair at the time; what is not known is null.
   *
   * @param on day it was planned for
   * @param minutes of work at the spot
   * @param mixFactor learned factor that is in {@code tonnes}; 1 when none is
   * @param minutesFactor learned factor that is in {@code minutes}
   * @param hourCost of the crew, trucks apart
   * @param hourCostFactor learned factor that is in {@code hourCost}
   * @param truckHourCost of all its trucks
   * @param mixPrice of a tonne
   */
  public record Planned(
      Basis basis,
      LocalDate on,
      Double tonnes,
      Double minutes,
      double mixFactor,
      double minutesFactor,
      Double hourCost,
      double hourCostFactor,
      Double truckHourCost,
      Double mixPrice) {

    /** Crew, trucks and mix of the repair; null where a rate or amount is not known. */
    public Double cost() {
      return costOf(tonnes, minutes == null ? null : minutes / 60);
    }

    /** Cost of so many tonnes and crew hours at the rates of the plan; null where not known. */
    Double costOf(Double tonnesUsed, Double hours) {
      if (tonnesUsed == null || hours == null || hourCost == null) {
        return null;
      }
      if (mixPrice == null && tonnesUsed > 0) {
        return null;
      }
      return hours * (hourCost + (truckHourCost == null ? 0 : truckHourCost))
          + (tonnesUsed > 0 ? tonnesUsed * mixPrice : 0);
    }
  }
}
