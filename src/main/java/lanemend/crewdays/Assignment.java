package lanemend.crewdays;

import java.time.LocalDate;
import java.util.List;
import lanemend.network.Side;

/**
 * The decisions of a plan and nothing derived: who does which repairs where on which day, in order.
 * What the store keeps; the planner works out times and figures from it again.
 */
public record Assignment(List<Day> days) {

  /**
   * One crew's day.
   *
   * @param plantId empty when no mix is needed
   */
  public record Day(LocalDate date, String crewId, String plantId, int trucks, List<Zone> zones) {
    public Day {
      zones = List.copyOf(zones);
    }
  }

  /** One work zone: the repairs in it by growing along. */
  public record Zone(String routeId, Side side, List<String> defectIds) {
    public Zone {
      defectIds = List.copyOf(defectIds);
    }
  }

  public Assignment {
    days = List.copyOf(days);
  }
}
