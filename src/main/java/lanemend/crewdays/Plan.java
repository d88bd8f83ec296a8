package lanemend.crewdays;

import java.math.BigDecimal;
import java.util.List;

/**
 * Crew days and what did not fit.
 *
 * @param days by date, then crew
 * @param leftOut every repair asked for that is in no crew day, with the reason
 * @param cost by the agency's rates, in its currency
 */
public record Plan(List<CrewDay> days, List<LeftOut> leftOut, BigDecimal cost, String currency) {

  /** A defect that is not planned, and why. */
  public record LeftOut(String defectId, String reason) {}

  public Plan {
    days = List.copyOf(days);
    leftOut = List.copyOf(leftOut);
  }
}
