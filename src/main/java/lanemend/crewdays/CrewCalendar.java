package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lanemend.patching.Equipment;

/**
 * Which dates each crew works and how many of each machine are in service then. A kind of machine
 * the agency lists no unit of is not shared: each crew that does the treatment has its own.
 */
final class CrewCalendar {
  private final Map<Crew, List<LocalDate>> worked = new HashMap<>();
  private final List<LocalDate> dates = new ArrayList<>();
  private final List<Equipment> shared = new ArrayList<>();
  private final Map<LocalDate, Map<Equipment, Integer>> inService = new HashMap<>();
  private final WorkWeather weather;
  private final boolean pooled;

  CrewCalendar(Agency agency) {
    PlanSettings plan = agency.plan();
    weather = WorkWeather.of(agency);
    pooled = agency.equipment().stream().anyMatch(u -> u.kind() == Equipment.HAUL_TRUCK);
    for (Equipment kind : Equipment.values()) {
      // Trucks are shared by number, not by whether a day needs one.
      if (kind != Equipment.HAUL_TRUCK
          && agency.equipment().stream().anyMatch(u -> u.kind() == kind)) {
        shared.add(kind);
      }
    }
    for (int i = 0; i < plan.calendarDays(); i++) {
      LocalDate date = plan.firstDay().plusDays(i);
      dates.add(date);
      Map<Equipment, Integer> count = new EnumMap<>(Equipment.class);
      for (EquipmentUnit unit : agency.equipment()) {
        if (!unit.outOfService().contains(date)) {
          count.merge(unit.kind(), 1, Integer::sum);
        }
      }
      inService.put(date, count);
    }
    for (Crew crew : agency.crews()) {
      worked.put(
          crew,
          dates.stream()
              .filter(d -> plan.workdays().contains(d.getDayOfWeek()))
              .filter(d -> !plan.blackout().contains(d) && !crew.daysOff().contains(d))
              .filter(d -> weather.on(d).worked())
              .toList());
    }
  }

  /** What the weather leaves of the dates. */
  WorkWeather weather() {
    return weather;
  }

  /** True when crews draw their trucks from a pool the agency lists. */
  boolean pooled() {
    return pooled;
  }

  /** Every calendar date of the plan. */
  List<LocalDate> dates() {
    return dates;
  }

  List<LocalDate> worked(Crew crew) {
    return worked.get(crew);
  }

  /** Kinds of machine that crews share. */
  List<Equipment> shared() {
    return shared;
  }

  /** Units of a shared kind in service on a date. */
  int inService(LocalDate date, Equipment kind) {
    return inService.get(date).getOrDefault(kind, 0);
  }

  /** True when at least one unit of every shared kind is in service. */
  boolean machinesThere(LocalDate date, Collection<Equipment> needed) {
    return needed.stream().allMatch(k -> !shared.contains(k) || inService(date, k) > 0);
  }
}
