package lanemend.county;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.CrewDayPlanner;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.PlanProof;
import lanemend.crewdays.PlanStopped;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.patching.PatchDesign;
import lanemend.renewal.program.HoldTogether;
import lanemend.store.Store;

/**
 * Plans every waiting repair anew, true to what is settled by hand, has the plan checked by the
 * checker that shares no code with the planner, and keeps it in one write.
 */
public final class PlanMaking {
  private final County county;
  private final Agency agency;
  private final HandRules rules;
  private final LocalDate first;

  /** The last day that may get work, null for that of the agency's plan. */
  private final LocalDate last;

  private final Assignment before;

  /**
   * A checked plan.
   *
   * @param county as it was when the plan was checked
   * @param held defects set aside for an overlay that is agreed
   */
  public record Made(
      County county, Assignment assignment, Plan plan, List<HoldTogether.Held> held) {

    /** The plan with what is set aside for an overlay among what is left out. */
    public Plan whole() {
      return County.withHeld(plan, held);
    }
  }

  /**
   * @param agency the county's, or the same over other dates
   */
  public PlanMaking(County county, Agency agency) {
    this(county, agency, county.handRules(), agency.plan().firstDay(), null, county.assignment());
  }

  private PlanMaking(
      County county,
      Agency agency,
      HandRules rules,
      LocalDate first,
      LocalDate last,
      Assignment before) {
    this.county = county;
    this.agency = agency;
    this.rules = rules;
    this.first = first;
    this.last = last;
    this.before = before;
  }

  /**
   * Plans some dates only: crew days of the kept plan on all others stay as they are, but for past
   * ones whose work still waits, where the dates reach past today.
   *
   * @param dates the county's agency over the dates to plan
   */
  static PlanMaking ofDates(County county, Agency dates, LocalDate today) {
    OtherDays others =
        OtherDays.of(dates, county.handRules(), county.plans().waiting(county.assignment()), today);
    LocalDate first = dates.plan().firstDay();
    LocalDate last = first.plusDays(dates.plan().calendarDays() - 1L);
    return new PlanMaking(county, others.agency(), others.rules(), first, last, others.stay());
  }

  /**
   * Plans the agency's dates: those only, or every waiting repair anew on them.
   *
   * @param keepOtherDays see {@link #ofDates}
   */
  public static PlanMaking over(
      County county, Agency dates, boolean keepOtherDays, LocalDate today) {
    return keepOtherDays ? ofDates(county, dates, today) : new PlanMaking(county, dates);
  }

  /** How many crew days of the kept plan are on dates that {@link #make} does not plan. */
  public long daysDropped() {
    LocalDate end = agency.plan().firstDay().plusDays(agency.plan().calendarDays());
    return county.assignment().days().stream()
        .filter(d -> !d.date().isBefore(end))
        .filter(d -> rules.locked(d.crewId(), d.date()).isEmpty())
        .count();
  }

  /**
   * Plans.
   *
   * @throws NotReady when the listener ended it before there was any plan
   * @throws BrokenPlan when the plan breaks a limit, which is a fault of the planner unless what is
   *     settled by hand asks for it
   */
  public Made make(SearchBudget budget, PlanProgress progress) {
    List<HoldTogether.Held> held = county.underOverlay(first.getYear());
    List<PatchDesign> repairs = county.repairsBeside(held);
    CountyPlans plans = county.plans();
    CrewDayPlanner.Planned planned;
    try {
      planned =
          rules.all().isEmpty()
              ? plans.planner(agency).plan(repairs, budget, progress)
              : plans
                  .replanner(agency, rules, first)
                  .upTo(last)
                  .anew(plans.inParts(repairs), before, budget, progress);
    } catch (PlanStopped e) {
      throw NotReady.ended(e);
    }
    refuseIfBroken(plans.checker(agency).check(planned.plan(), repairs, rules, before));
    return new Made(county, planned.assignment(), planned.plan(), held);
  }

  /**
   * The plan over the records as they are now, when something was written while it was made.
   *
   * @throws BrokenPlan when it does not fit them any more
   */
  public Made onLatest(Store store, Made made) {
    County now = made.county().now(store);
    if (now.lastChange() == made.county().lastChange()) {
      return made;
    }
    List<HoldTogether.Held> held = now.underOverlay(first.getYear());
    List<PatchDesign> repairs = now.repairsBeside(held);
    Assignment waiting = now.plans().waiting(made.assignment());
    Plan plan =
        now.plans()
            .replanner(agency, first)
            .upTo(last)
            .schedule(waiting, now.plans().planner(agency).inParts(repairs, waiting));
    refuseIfBroken(
        now.plans().checker(agency).check(plan, repairs, now.handRules(), now.assignment()));
    return new Made(now, waiting, plan, held);
  }

  /**
   * Proves how far a plan is at most from the cheapest; empty when it is too large for it, or when
   * the listener ended it before there was any bound.
   */
  public Optional<PlanProof> prove(Made made, double seconds, PlanProgress progress) {
    List<PatchDesign> repairs = made.county().repairsBeside(made.held());
    return made.county().plans().prove(agency, repairs, made.assignment(), seconds, progress);
  }

  /** Writes a plan, of whose cost nothing is proven, in place of the one before. */
  public static void keep(Store store, String who, Made made) {
    keep(store, who, made, Optional.empty());
  }

  /** Writes a plan in place of the one before, which stays to be compared with. */
  public static void keep(Store store, String who, Made made, Optional<PlanProof> proof) {
    store.write(
        who,
        "plan",
        change -> {
          PlanKeeping.refuseIfChanged(change, made.county());
          change.replaceAssignment(made.assignment());
          OverlayHolds.replace(change, made.held());
          PlanKeeping.markPlanned(change, made.plan());
          KeptProof.forget(change);
          proof.ifPresent(p -> KeptProof.put(change, p));
        });
  }

  private static void refuseIfBroken(List<String> broken) {
    if (!broken.isEmpty()) {
      throw new BrokenPlan(broken);
    }
  }
}
