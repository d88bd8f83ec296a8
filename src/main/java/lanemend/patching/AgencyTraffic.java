package lanemend.patching;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What an agency sets in place of the manual's typical situations.
 *
 * @param situations by the name of the situation in lower case
 * @param hourShares share of a day's traffic in each of its 24 hours from midnight, or empty where
 *     the agency has counted none
 */
public record AgencyTraffic(Map<String, Own> situations, List<Double> hourShares) {
  private static final int HOURS = 24;

  /** Nothing set. */
  public static final AgencyTraffic NONE = new AgencyTraffic(Map.of(), List.of());

  /**
   * The agency's own form of one situation.
   *
   * @param used false where the agency does not allow it
   * @param ahead signs for the traffic that meets the work, nearest to it first; empty keeps the
   *     manual's
   * @param others signs for the other direction, likewise
   * @param arrowBoard whether one is set up; empty keeps the manual's
   * @param attenuator whether a truck-mounted attenuator shields the work; empty keeps the rule of
   *     the class of road
   * @param note the agency's own rule, printed with the situation; may be empty
   */
  public record Own(
      boolean used,
      List<RoadSign> ahead,
      List<RoadSign> others,
      Optional<Boolean> arrowBoard,
      Optional<Boolean> attenuator,
      String note) {

    /** As the manual has it. */
    public static final Own STANDARD =
        new Own(true, List.of(), List.of(), Optional.empty(), Optional.empty(), "");

    public Own {
      ahead = List.copyOf(ahead);
      others = List.copyOf(others);
    }
  }

  /**
   * Checks the hours.
   *
   * @throws IllegalArgumentException when they are neither none nor 24 that add up to 1
   */
  public AgencyTraffic {
    situations = Map.copyOf(situations);
    hourShares = List.copyOf(hourShares);
    double sum = hourShares.stream().mapToDouble(Double::doubleValue).sum();
    if (!hourShares.isEmpty()
        && (hourShares.size() != HOURS
            || hourShares.stream().anyMatch(h -> !(h >= 0))
            || Math.abs(sum - 1) > 0.005)) {
      throw new IllegalArgumentException(
          "the shares of a day's traffic are "
              + hourShares.size()
              + " and add up to "
              + sum
              + "; 24 that add up to 1 are expected");
    }
  }

  /** The agency's form of a situation, or the manual's. */
  public Own of(String situation) {
    return situations.getOrDefault(situation, Own.STANDARD);
  }
}
