package lanemend.crewdays.routing;

import java.util.List;

/**
 * What a search found.
 *
 * @param days used slots, by slot
 * @param skipped stops left out
 * @param cost of the days, skipped stops not counted
 * @param iterations over all threads
 */
public record SearchResult(List<Day> days, List<Integer> skipped, double cost, long iterations) {
  public SearchResult {
    days = List.copyOf(days);
    skipped = List.copyOf(skipped);
  }

  /** One slot's day: stops in order. */
  public record Day(int slot, int kind, List<Integer> stops, double cost) {
    public Day {
      stops = List.copyOf(stops);
    }
  }
}
