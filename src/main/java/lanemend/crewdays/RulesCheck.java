package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;

/** Checks that a plan keeps what people settled by hand; part of {@link PlanChecker}. */
final class RulesCheck {
  private final Plan plan;
  private final HandRules rules;
  private final Assignment kept;
  private final Set<String> waiting = new HashSet<>();
  private final Map<String, CrewDay> dayOf = new HashMap<>();
  private final Map<String, String> zoneOf = new HashMap<>();

  RulesCheck(Plan plan, List<PatchDesign> repairs, HandRules rules, Assignment kept) {
    this.plan = plan;
    this.rules = rules;
    this.kept = kept;
    repairs.forEach(r -> waiting.add(r.defect().id()));
    for (CrewDay day : plan.days()) {
      for (CrewDay.Stop stop : day.stops()) {
        for (PatchDesign repair : stop.zone().repairs()) {
          dayOf.put(repair.defect().id(), day);
          zoneOf.put(repair.defect().id(), stop.zone().id());
        }
      }
    }
  }

  void run(List<String> found) {
    for (HandRule rule : rules.all()) {
      switch (rule.kind()) {
        case PIN -> pin(rule, found);
        case LEAVE_OUT -> {
          if (ids(rule).stream().anyMatch(dayOf::containsKey)) {
            found.add(rule.words() + " (" + rule.reason() + "), but is planned");
          }
        }
        case DONE_BY -> doneBy(rule, found);
        case LOCK_DAY -> locked(rule, found);
        case CLOSE_DAY -> closed(rule, found);
      }
    }
  }

  private void pin(HandRule rule, List<String> found) {
    CrewDay day = dayOf.get(rule.defectId());
    if (!waiting.contains(rule.defectId()) || rules.leftOut(rule.defectId()).isPresent()) {
      return;
    }
    if (day == null) {
      found.add(rule.words() + " (" + rule.reason() + "), but is left out");
    } else if (!day.crew().id().equals(rule.crewId()) || !day.date().equals(rule.date())) {
      found.add(
          rule.words()
              + " ("
              + rule.reason()
              + "), but is with crew "
              + day.crew().id()
              + " on "
              + day.date());
    } else {
      together(rule, found);
    }
  }

  private void together(HandRule rule, List<String> found) {
    for (HandRule other : rules.all()) {
      boolean same =
          other.kind() == HandRule.Kind.PIN
              && other.zone().equals(rule.zone())
              && other.crewId().equals(rule.crewId())
              && other.date().equals(rule.date());
      if (same
          && zoneOf.containsKey(other.defectId())
          && !zoneOf.get(other.defectId()).equals(zoneOf.get(rule.defectId()))) {
        found.add(
            rule.defectId() + " and " + other.defectId() + " are pinned as one zone and are two");
      }
    }
  }

  /** The waiting repair a rule is about, or its parts. */
  private List<String> ids(HandRule rule) {
    return waiting.stream()
        .filter(id -> id.equals(rule.defectId()) || RepairPart.defectOf(id).equals(rule.defectId()))
        .sorted()
        .toList();
  }

  private void doneBy(HandRule rule, List<String> found) {
    for (String id : ids(rule)) {
      CrewDay day = dayOf.get(id);
      if (day == null) {
        found.add(rule.words() + " (" + rule.reason() + "), but is left out");
      } else if (day.date().isAfter(rule.date())) {
        found.add(rule.words() + " (" + rule.reason() + "), but is planned for " + day.date());
      }
    }
  }

  private void locked(HandRule rule, List<String> found) {
    List<List<String>> before = new ArrayList<>();
    String trucks = "";
    for (Assignment.Day day : kept.days()) {
      if (day.crewId().equals(rule.crewId()) && day.date().equals(rule.date())) {
        trucks = day.trucks() + " " + day.plantId();
        for (Assignment.Zone zone : day.zones()) {
          List<String> ids =
              zone.defectIds().stream()
                  .filter(waiting::contains)
                  .filter(id -> rules.leftOut(id).isEmpty())
                  .toList();
          if (!ids.isEmpty()) {
            before.add(ids);
          }
        }
      }
    }
    List<List<String>> now = new ArrayList<>();
    String trucksNow = trucks;
    for (CrewDay day : plan.days()) {
      if (day.crew().id().equals(rule.crewId()) && day.date().equals(rule.date())) {
        trucksNow = day.trucks() + " " + day.plantId();
        for (CrewDay.Stop stop : day.stops()) {
          now.add(stop.zone().repairs().stream().map(r -> r.defect().id()).toList());
        }
      }
    }
    if (!before.equals(now) || (!now.isEmpty() && !trucks.equals(trucksNow))) {
      found.add(
          rule.words()
              + " ("
              + rule.reason()
              + "), but was "
              + shown(before)
              + " and is "
              + shown(now));
    }
  }

  private static String shown(List<List<String>> zones) {
    return zones.isEmpty()
        ? "empty"
        : zones.stream().map(z -> String.join(" ", z)).collect(Collectors.joining(", "));
  }

  private void closed(HandRule rule, List<String> found) {
    LocalDate date = rule.date();
    for (CrewDay day : plan.days()) {
      boolean his = rule.crewId().isEmpty() || rule.crewId().equals(day.crew().id());
      if (his && day.date().equals(date)) {
        found.add(
            rule.words() + " (" + rule.reason() + "), but crew " + day.crew().id() + " has a day");
      }
    }
  }
}
