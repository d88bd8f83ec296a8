package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

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

  /** One work zone: the repairs in it in the order they are done. */
  public record Zone(String routeId, List<String> defectIds) {
    public Zone {
      defectIds = List.copyOf(defectIds);
    }
  }

  public Assignment {
    days = List.copyOf(days);
  }

  /** The same plan without these defects; zones and days that are left empty go. */
  public Assignment without(Set<String> defectIds) {
    List<Day> kept = new ArrayList<>();
    for (Day day : days) {
      List<Zone> zones = new ArrayList<>();
      for (Zone zone : day.zones()) {
        List<String> ids = zone.defectIds().stream().filter(id -> !defectIds.contains(id)).toList();
        if (!ids.isEmpty()) {
          zones.add(new Zone(zone.routeId(), ids));
        }
      }
      if (!zones.isEmpty()) {
        kept.add(new Day(day.date(), day.crewId(), day.plantId(), day.trucks(), zones));
      }
    }
    return new Assignment(kept);
  }

  /** Every defect in it. */
  public Set<String> defectIds() {
    Set<String> ids = new LinkedHashSet<>();
    for (Day day : days) {
      day.zones().forEach(z -> ids.addAll(z.defectIds()));
    }
    return ids;
  }

  /** The crew day that holds a defect. */
  public Optional<Day> dayOf(String defectId) {
    return days.stream()
        .filter(d -> d.zones().stream().anyMatch(z -> z.defectIds().contains(defectId)))
        .findFirst();
  }

  /** A crew's day on a date. */
  public Optional<Day> day(String crewId, LocalDate date) {
    return days.stream()
        .filter(d -> d.crewId().equals(crewId) && d.date().equals(date))
        .findFirst();
  }
}
