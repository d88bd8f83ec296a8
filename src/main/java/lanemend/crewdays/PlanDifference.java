package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import lanemend.patching.PatchDesign;

/**
 * Compares the plan before with the plan now and finds out why each thing is different: by the
 * rules set by hand where one says so, else by trying, on the plan now, to have it the old way.
 */
public final class PlanDifference {
  private static final int NAMED = 4;

  private final HandRules rules;
  private final LocalDate today;
  private final Plan now;
  private final Assignment before;
  private final Assignment after;
  private final Set<String> waiting;
  private final OpenPlan open;
  private final Agency agency;

  /**
   * Opens both plans.
   *
   * @param rules in force now
   * @param repairs of every defect that waits now
   * @param before may name defects that wait no longer
   * @param now the plan that follows from {@code after}
   */
  public PlanDifference(
      Haul haul,
      Agency agency,
      ZoneTraffic traffic,
      HandRules rules,
      List<PatchDesign> repairs,
      Assignment before,
      Assignment after,
      Plan now,
      LocalDate today) {
    this.rules = rules;
    this.today = today;
    this.now = now;
    this.before = before;
    this.after = after;
    this.agency = agency;
    waiting =
        repairs.stream()
            .map(r -> r.defect().id())
            .collect(Collectors.toCollection(java.util.HashSet::new));
    open = new OpenPlan(haul, agency, traffic, rules, repairs, after, today);
  }

  /**
   * The comparison.
   *
   * @param then the plan before with its times and cost; repairs that wait no longer may be missing
   */
  public PlanComparison compare(Plan then) {
    List<PlanChange> changes = new ArrayList<>();
    for (Assignment.Day day : before.days()) {
      for (Assignment.Zone zone : day.zones()) {
        zone(day, zone, changes);
      }
    }
    added(changes);
    days(changes);
    return new PlanComparison(
        PlanComparison.Totals.of(then),
        PlanComparison.Totals.of(now),
        changes,
        PlanComparison.Disturbance.of(before, after, waiting));
  }

  private record Place(String crewId, LocalDate date) {}

  /** What became of a zone of the plan before: its repairs grouped by where they are now. */
  private void zone(Assignment.Day day, Assignment.Zone zone, List<PlanChange> changes) {
    Map<Place, List<String>> groups = new LinkedHashMap<>();
    List<String> gone = new ArrayList<>();
    for (String id : zone.defectIds()) {
      if (!waiting.contains(id)) {
        gone.add(id);
      } else {
        Place place =
            after.dayOf(id).map(d -> new Place(d.crewId(), d.date())).orElse(new Place("", null));
        groups.computeIfAbsent(place, k -> new ArrayList<>()).add(id);
      }
    }
    if (!gone.isEmpty()) {
      changes.add(
          change(PlanChange.Kind.GONE, gone, day, new Place("", null), "waits for repair no more"));
    }
    groups.forEach(
        (place, ids) -> {
          if (place.date() == null) {
            changes.add(change(PlanChange.Kind.TAKEN_OFF, ids, day, place, leftOut(ids.get(0))));
          } else if (!place.equals(new Place(day.crewId(), day.date()))) {
            changes.add(change(PlanChange.Kind.MOVED, ids, day, place, whyMoved(ids, day, place)));
          }
        });
  }

  private static PlanChange change(
      PlanChange.Kind kind, List<String> ids, Assignment.Day from, Place to, String why) {
    return new PlanChange(kind, ids, from.crewId(), from.date(), to.crewId(), to.date(), why);
  }

  private String leftOut(String id) {
    return now.leftOut().stream()
        .filter(l -> l.defectId().equals(id))
        .map(Plan.LeftOut::reason)
        .findFirst()
        .orElse(LeftOutReasons.NOT_PLACED);
  }

  private String whyMoved(List<String> ids, Assignment.Day from, Place to) {
    for (String id : ids) {
      HandRule pin = rules.pin(id).orElse(null);
      if (pin != null && pin.crewId().equals(to.crewId()) && pin.date().equals(to.date())) {
        return "set by hand: " + pin.reason();
      }
    }
    for (String id : ids) {
      HandRule by = rules.doneBy(id).orElse(null);
      if (by != null && from.date().isAfter(by.date())) {
        return "must be done by " + by.date() + ": " + by.reason();
      }
    }
    HandRule closed = rules.closed(from.crewId(), from.date()).orElse(null);
    if (closed != null) {
      return closed.words() + ": " + closed.reason();
    }
    if (from.date().isBefore(today)) {
      return "not recorded as done on " + from.date();
    }
    if (agency.crews().stream().noneMatch(c -> c.id().equals(from.crewId()))) {
      return "there is no crew " + from.crewId() + " any more";
    }
    Trial back = open.move(ids.get(0), from.crewId(), from.date());
    if (!back.possible()) {
      return "its day has no room for it now: " + back.broken().get(0) + cameIn(from);
    }
    double dearer = back.costAfter().subtract(back.costBefore()).doubleValue();
    return dearer > 0.005
        ? String.format(
            java.util.Locale.ROOT,
            "the plan would cost %,.0f %s more with it there",
            dearer,
            now.currency())
        : "as good on either day by cost";
  }

  /** Who came into a crew day, as a clause. */
  private String cameIn(Assignment.Day old) {
    Set<String> came = new TreeSet<>();
    after
        .day(old.crewId(), old.date())
        .ifPresent(d -> d.zones().forEach(z -> came.addAll(z.defectIds())));
    old.zones().forEach(z -> z.defectIds().forEach(came::remove));
    if (came.isEmpty()) {
      return "";
    }
    String named = came.stream().limit(NAMED).collect(Collectors.joining(", "));
    return "; "
        + named
        + (came.size() > NAMED ? " and " + (came.size() - NAMED) + " more" : "")
        + " came in";
  }

  private void added(List<PlanChange> changes) {
    Set<String> old = before.defectIds();
    for (Assignment.Day day : after.days()) {
      for (Assignment.Zone zone : day.zones()) {
        List<String> ids = zone.defectIds().stream().filter(id -> !old.contains(id)).toList();
        if (!ids.isEmpty()) {
          changes.add(
              new PlanChange(
                  PlanChange.Kind.ADDED, ids, "", null, day.crewId(), day.date(), whyAdded(ids)));
        }
      }
    }
  }

  private String whyAdded(List<String> ids) {
    for (String id : ids) {
      HandRule by = rules.doneBy(id).orElse(null);
      if (by != null) {
        return "must be done by " + by.date() + ": " + by.reason();
      }
      HandRule pin = rules.pin(id).orElse(null);
      if (pin != null) {
        return "set by hand: " + pin.reason();
      }
    }
    return "was in no crew day before";
  }

  /** Days with the same work in another order, or with other trucks. */
  private void days(List<PlanChange> changes) {
    for (Assignment.Day day : before.days()) {
      Assignment.Day then = after.day(day.crewId(), day.date()).orElse(null);
      if (then == null) {
        continue;
      }
      List<String> ids = then.zones().stream().flatMap(z -> z.defectIds().stream()).toList();
      Place place = new Place(day.crewId(), day.date());
      if (!PlanComparison.Disturbance.sameOrder(day, then, waiting)) {
        changes.add(
            change(PlanChange.Kind.REORDERED, ids, day, place, "shorter or cheaper" + cameIn(day)));
      }
      if (day.trucks() != then.trucks() || !day.plantId().equals(then.plantId())) {
        String why =
            supply(day) + " before, " + supply(then) + " now: cheapest for the work of the day";
        changes.add(change(PlanChange.Kind.SUPPLY, ids, day, place, why));
      }
    }
  }

  private static String supply(Assignment.Day day) {
    return day.trucks() == 0
        ? "no truck"
        : day.trucks() + (day.trucks() == 1 ? " truck" : " trucks") + " from " + day.plantId();
  }
}
