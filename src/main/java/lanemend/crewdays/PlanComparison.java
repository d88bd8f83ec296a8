package lanemend.crewdays;

import java.math.BigDecimal;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Two plans side by side: what each comes to, what is different and why, and how much that
 * disturbs.
 */
public record PlanComparison(
    Totals before, Totals after, List<PlanChange> changes, Disturbance disturbance) {

  /** What a plan comes to. */
  public record Totals(
      int crewDays,
      int zones,
      int repairs,
      int leftOut,
      double tonnes,
      double driveKm,
      BigDecimal cost) {

    /** Adds up a plan. */
    public static Totals of(Plan plan) {
      return new Totals(
          plan.days().size(),
          plan.days().stream().mapToInt(d -> d.stops().size()).sum(),
          plan.days().stream()
              .flatMap(d -> d.stops().stream())
              .mapToInt(s -> s.zone().repairs().size())
              .sum(),
          plan.leftOut().size(),
          plan.days().stream().mapToDouble(CrewDay::tonnes).sum(),
          plan.days().stream().mapToDouble(CrewDay::driveKm).sum(),
          plan.cost());
    }
  }

  /**
   * How much of the plan before is not as it was. A zone counts when any of its repairs still waits
   * and is on another crew day or on none.
   *
   * @param crewDays crew days whose work, order or supply is different, new and dropped days among
   *     them
   * @param zonesMoved zones of the plan before that are on another crew day
   * @param zonesTakenOff zones of the plan before that are on none
   * @param daysReordered crew days whose own zones are done in another order
   */
  public record Disturbance(int crewDays, int zonesMoved, int zonesTakenOff, int daysReordered) {

    static Disturbance of(Assignment before, Assignment after, Set<String> waiting) {
      Map<String, String> now = new HashMap<>();
      for (Assignment.Day day : after.days()) {
        day.zones().forEach(z -> z.defectIds().forEach(id -> now.put(id, key(day))));
      }
      int moved = 0;
      int off = 0;
      int reordered = 0;
      Set<String> days = new HashSet<>();
      for (Assignment.Day day : before.days()) {
        for (Assignment.Zone zone : day.zones()) {
          List<String> ids = zone.defectIds().stream().filter(waiting::contains).toList();
          boolean gone = ids.stream().anyMatch(id -> !now.containsKey(id));
          boolean away =
              ids.stream().anyMatch(id -> now.containsKey(id) && !now.get(id).equals(key(day)));
          off += gone ? 1 : 0;
          moved += away && !gone ? 1 : 0;
        }
        Assignment.Day then = after.day(day.crewId(), day.date()).orElse(null);
        if (then != null && !sameOrder(day, then, waiting)) {
          reordered++;
        }
      }
      Map<String, Assignment.Day> was = new HashMap<>();
      before.without(gone(before, waiting)).days().forEach(d -> was.put(key(d), d));
      for (Assignment.Day day : after.days()) {
        Assignment.Day old = was.remove(key(day));
        if (!day.equals(old)) {
          days.add(key(day));
        }
      }
      days.addAll(was.keySet());
      return new Disturbance(days.size(), moved, off, reordered);
    }

    private static Set<String> gone(Assignment before, Set<String> waiting) {
      Set<String> gone = new HashSet<>(before.defectIds());
      gone.removeAll(waiting);
      return gone;
    }

    private static String key(Assignment.Day day) {
      return day.date() + " " + day.crewId();
    }

    /** True when what both days hold stands in the same order in both. */
    static boolean sameOrder(Assignment.Day before, Assignment.Day after, Set<String> waiting) {
      List<String> old = ids(before);
      List<String> now = ids(after);
      List<String> oldBoth = old.stream().filter(now::contains).filter(waiting::contains).toList();
      return oldBoth.equals(now.stream().filter(old::contains).toList());
    }

    private static List<String> ids(Assignment.Day day) {
      return day.zones().stream().flatMap(z -> z.defectIds().stream()).toList();
    }
  }

  public PlanComparison {
    changes = List.copyOf(changes);
  }
}
