package lanemend.county;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.Plan;
import lanemend.crewdays.learning.SeasonReport;
import lanemend.inventory.Defect;
import lanemend.patching.RepairPart;

/** The county's plan held against what was done in a season. */
public final class CountySeason {
  private CountySeason() {}

  /**
   * The report.
   *
   * @param today repairs planned before it should be done
   */
  public static SeasonReport report(
      County county, LearnedWork work, LocalDate from, LocalDate to, LocalDate today) {
    return SeasonReport.of(work.done(), from, to, notDone(county, from, to, today));
  }

  private static List<SeasonReport.NotDone> notDone(
      County county, LocalDate from, LocalDate to, LocalDate today) {
    Map<String, SeasonReport.NotDone> open = new HashMap<>();
    Set<String> waiting = waiting(county);
    for (Assignment.Day day : county.assignment().days()) {
      if (day.date().isBefore(from) || day.date().isAfter(to) || !day.date().isBefore(today)) {
        continue;
      }
      for (String id : repairs(day, waiting)) {
        open.put(
            id,
            new SeasonReport.NotDone(
                id, day.crewId(), day.date(), "its day is past and no record has come in"));
      }
    }
    closedDays(county, from, to, waiting, open);
    if (!county.assignment().days().isEmpty()
        && county.assignment().days().stream()
            .anyMatch(d -> !d.date().isBefore(from) && !d.date().isAfter(to))) {
      for (Plan.LeftOut out : county.plan().leftOut()) {
        open.putIfAbsent(
            out.defectId(), new SeasonReport.NotDone(out.defectId(), "", null, out.reason()));
      }
    }
    return new ArrayList<>(open.values());
  }

  /** Repairs that lost their day: it was closed by hand, and the plan before had them on it. */
  private static void closedDays(
      County county,
      LocalDate from,
      LocalDate to,
      Set<String> waiting,
      Map<String, SeasonReport.NotDone> open) {
    for (HandRule rule : county.handRules().all()) {
      if (rule.kind() != HandRule.Kind.CLOSE_DAY
          || rule.date().isBefore(from)
          || rule.date().isAfter(to)) {
        continue;
      }
      for (Assignment.Day day : county.assignmentBefore().days()) {
        if (day.date().equals(rule.date())
            && (rule.crewId().isEmpty() || rule.crewId().equals(day.crewId()))) {
          for (String id : repairs(day, waiting)) {
            String now = county.assignment().dayOf(id).map(d -> "; now on " + d.date()).orElse("");
            open.put(
                id,
                new SeasonReport.NotDone(
                    id, day.crewId(), day.date(), "the day was closed: " + rule.reason() + now));
          }
        }
      }
    }
  }

  private static List<String> repairs(Assignment.Day day, Set<String> waiting) {
    return day.zones().stream()
        .flatMap(z -> z.defectIds().stream())
        .filter(waiting::contains)
        .toList();
  }

  /** Ids of repairs, and parts of repairs, that wait. */
  private static Set<String> waiting(County county) {
    Set<String> defects = new HashSet<>();
    county.defects().stream().filter(County::waits).map(Defect::id).forEach(defects::add);
    Set<String> done = DoneWork.partsDone(county);
    Set<String> waiting = new HashSet<>(defects);
    for (Assignment plan : List.of(county.assignment(), county.assignmentBefore())) {
      for (String id : plan.defectIds()) {
        if (defects.contains(RepairPart.defectOf(id)) && !done.contains(id)) {
          waiting.add(id);
        }
      }
    }
    return waiting;
  }
}
