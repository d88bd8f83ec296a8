package lanemend.county;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanComparison;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.PlanSettings;
import lanemend.crewdays.PlanStopped;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.store.Change;
import lanemend.store.Store;
import lanemend.store.Stored;

/**
 * Judges a plan that was changed by hand together with the rules that come with it, and keeps both
 * in one write. Nothing is kept that {@link lanemend.crewdays.PlanChecker} does not pass, and
 * nothing over a plan that somebody else changed meanwhile.
 */
public final class PlanKeeping {
  private final County before;
  private final LocalDate today;

  /** A changed plan that breaks no limit, with what is different. */
  public record Changed(
      Assignment assignment, HandRules rules, Plan plan, PlanComparison comparison) {}

  /**
   * @param before the county with the plan as it is kept
   * @param today crew days before it are past
   */
  public PlanKeeping(County before, LocalDate today) {
    this.before = before;
    this.today = today;
  }

  /**
   * The day from which a plan may still be changed: now, or the plan's first day where now is not
   * among the plan's days.
   */
  public static LocalDate today(PlanSettings plan, LocalDate now) {
    LocalDate end = plan.firstDay().plusDays(plan.calendarDays());
    return now.isBefore(plan.firstDay()) || !now.isBefore(end) ? plan.firstDay() : now;
  }

  /**
   * Works out the changed plan and checks it.
   *
   * @param rules all that are to be in force
   * @throws BrokenPlan when it breaks a limit
   */
  public Changed judge(HandRules rules, Assignment now) {
    Agency agency = rules.applyTo(before.agency());
    List<PatchDesign> repairs = before.repairs();
    CountyPlans plans = before.plans();
    Plan plan = plans.replanner(agency, rules, today).schedule(now, before.repairsInParts());
    List<String> broken = plans.checker(agency).check(plan, repairs, rules, before.assignment());
    if (!broken.isEmpty()) {
      throw new BrokenPlan(broken);
    }
    return new Changed(
        now, rules, plan, plans.compare(rules, before.assignment(), now, plan, today));
  }

  /**
   * What it is worth not to move a zone to another day or crew: half an hour of the dearest crew.
   */
  public double movePrice() {
    return before.agency().crews().stream()
            .mapToDouble(c -> c.costPerHour().doubleValue())
            .max()
            .orElse(0)
        / 2;
  }

  /**
   * The kept plan adjusted to what is true now and to these rules, with little disturbance. It is
   * yet to be judged.
   *
   * @param freezeDays calendar days from today that do not change
   * @param movePrice in the agency's currency
   * @throws NotReady when the listener ended it before there was any plan
   */
  public Assignment adjusted(
      HandRules rules,
      int freezeDays,
      double movePrice,
      SearchBudget budget,
      PlanProgress progress) {
    try {
      return before
          .plans()
          .replanner(before.agency(), rules, today)
          .adjust(
              before.repairsInParts(),
              before.assignment(),
              today.plusDays(freezeDays),
              movePrice,
              budget,
              progress)
          .assignment();
    } catch (PlanStopped e) {
      throw NotReady.ended(e);
    }
  }

  /** Writes a changed plan and its rules. */
  public void keep(Store store, String who, String why, Changed changed) {
    store.write(
        who,
        why,
        change -> {
          refuseIfChanged(change, before);
          putRules(change, changed.rules());
          change.replaceAssignment(changed.assignment());
          KeptProof.forget(change);
          markPlanned(change, changed.plan());
        });
  }

  /** Writes rules alone, the plan staying as it is. */
  public void keepRules(Store store, String who, String why, HandRules rules) {
    store.write(
        who,
        why,
        change -> {
          refuseIfChanged(change, before);
          putRules(change, rules);
        });
  }

  /** What was worked out of one plan must not be written over another. */
  static void refuseIfChanged(Change change, County before) {
    boolean same =
        change.soFar().assignment().equals(before.assignment())
            && change.soFar().handRules().all().equals(before.handRules().all());
    if (!same) {
      throw new NotReady("the plan was changed by somebody else meanwhile: look at it again first");
    }
  }

  private static void putRules(Change change, HandRules rules) {
    List<HandRule> missing = new ArrayList<>(rules.all());
    for (Stored<HandRule> row : change.handRules().stored()) {
      if (!missing.remove(row.value())) {
        change.handRules().delete(row);
      }
    }
    missing.forEach(change.handRules()::insert);
  }

  /** Gives each waiting defect the status that goes with the plan. */
  static void markPlanned(Change change, Plan plan) {
    Set<String> inPlan = new HashSet<>();
    for (CrewDay day : plan.days()) {
      for (CrewDay.Stop stop : day.stops()) {
        stop.zone().repairs().forEach(r -> inPlan.add(RepairPart.defectOf(r.defect().id())));
      }
    }
    for (Stored<Defect> row : change.defects().stored()) {
      Defect d = row.value();
      DefectStatus now = inPlan.contains(d.id()) ? DefectStatus.PLANNED : DefectStatus.OPEN;
      if (County.waits(d) && d.status() != now) {
        change.defects().update(row, d.withStatus(now));
      }
    }
  }

  /** Repairs of the work zone that holds a repair; empty when it is on no crew day. */
  public static List<String> zoneOf(Assignment plan, String repairId) {
    return plan.dayOf(repairId).stream()
        .flatMap(d -> d.zones().stream())
        .map(Assignment.Zone::defectIds)
        .filter(ids -> ids.contains(repairId))
        .findFirst()
        .orElse(List.of());
  }

  /** Rules that also hold the zone of a repair where this plan has it. */
  public static HandRules pinned(HandRules rules, Assignment plan, String repairId, String reason) {
    Assignment.Day day = plan.dayOf(repairId).orElseThrow();
    List<String> ids = zoneOf(plan, repairId);
    HandRules all = rules;
    for (String id : ids) {
      all = all.with(HandRule.pin(id, ids.get(0), day.crewId(), day.date(), reason));
    }
    return all;
  }

  /** Rules without those about a repair and about the zone it is pinned in. */
  public static HandRules released(HandRules rules, String repairId) {
    Set<String> zones =
        rules.all().stream()
            .filter(r -> r.defectId().equals(repairId) && !r.zone().isEmpty())
            .map(HandRule::zone)
            .collect(Collectors.toSet());
    return new HandRules(
        rules.all().stream()
            .filter(r -> !r.defectId().equals(repairId) && !zones.contains(r.zone()))
            .toList());
  }

  /**
   * Rules without those about a date.
   *
   * @param crewId empty for those about every crew
   */
  public static HandRules released(HandRules rules, String crewId, LocalDate date) {
    return new HandRules(
        rules.all().stream()
            .filter(
                r ->
                    !r.defectId().isEmpty() || !r.date().equals(date) || !r.crewId().equals(crewId))
            .toList());
  }
}
