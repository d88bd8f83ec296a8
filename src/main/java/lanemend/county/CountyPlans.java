package lanemend.county;

import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.CrewDayPlanner;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Haul;
import lanemend.crewdays.OpenPlan;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanChecker;
import lanemend.crewdays.PlanComparison;
import lanemend.crewdays.PlanDifference;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.PlanProof;
import lanemend.crewdays.Replanner;
import lanemend.crewdays.ZoneTraffic;
import lanemend.patching.PartDesigner;
import lanemend.patching.PatchDesign;
import lanemend.patching.PatchDesigner;
import lanemend.patching.RepairPart;
import lanemend.patching.RepairParts;

/** Makes, changes, checks and compares crew-day plans of one county. */
public final class CountyPlans {
  private final County county;
  private final ZoneTraffic traffic;

  CountyPlans(County county, ZoneTraffic traffic) {
    this.county = county;
    this.traffic = traffic;
  }

  /** A plan without the repairs that wait no longer. */
  public Assignment waiting(Assignment of) {
    Set<String> gone = new HashSet<>(of.defectIds());
    Set<String> waiting = new HashSet<>();
    county.defects().stream().filter(County::waits).forEach(d -> waiting.add(d.id()));
    gone.removeIf(id -> waiting.contains(RepairPart.defectOf(id)));
    return of.without(gone);
  }

  /**
   * Plans again with a plan at hand.
   *
   * @param today crew days before it stay
   */
  public Replanner replanner(Agency agency, LocalDate today) {
    return replanner(agency, county.handRules(), today);
  }

  /** As above, with rules that are not in the store yet. */
  public Replanner replanner(Agency agency, HandRules rules, LocalDate today) {
    return new Replanner(Haul.over(county.haulGraph()), agency, traffic, rules, today);
  }

  /** The kept plan, opened for changes by hand. */
  public OpenPlan openPlan(LocalDate today) {
    return new OpenPlan(
        Haul.over(county.haulGraph()),
        county.agency(),
        traffic,
        county.handRules(),
        county.repairsInParts(),
        waiting(county.assignment()),
        today);
  }

  /** What is different between two plans, with why. */
  public PlanComparison compare(
      HandRules rules, Assignment before, Assignment after, Plan now, LocalDate today) {
    Agency agency = rules.applyTo(county.agency());
    List<PatchDesign> repairs = county.repairsInParts();
    Plan then = replanner(agency, rules, today).schedule(waiting(before), repairs);
    return new PlanDifference(
            Haul.over(county.haulGraph()),
            agency,
            traffic,
            rules,
            repairs,
            before,
            waiting(after),
            now,
            today)
        .compare(then);
  }

  /**
   * Proves how far a plan is at most from the cheapest.
   *
   * @param repairs whole, as the defects have them
   * @return empty when the plan is too large for it, or ended before there was any bound
   */
  public Optional<PlanProof> prove(
      Agency agency,
      List<PatchDesign> repairs,
      Assignment plan,
      double seconds,
      PlanProgress progress) {
    return PlanProof.of(
        Haul.over(county.haulGraph()),
        agency,
        traffic,
        county.handRules(),
        planner(agency).inParts(repairs, plan),
        plan,
        seconds,
        progress);
  }

  /**
   * Some repairs as the kept plan cuts them, and cut where they are too long for a day; all of them
   * are {@link County#repairsInParts}.
   */
  public List<PatchDesign> inParts(List<PatchDesign> repairs) {
    return planner(county.agency()).inParts(repairs, county.assignment());
  }

  public CrewDayPlanner planner(Agency agency) {
    return new CrewDayPlanner(Haul.over(county.haulGraph()), agency, traffic, parts());
  }

  public PlanChecker checker(Agency agency) {
    return new PlanChecker(agency, Haul.over(county.haulGraph()), traffic, parts());
  }

  private RepairParts parts() {
    return new PartDesigner(
        new PatchDesigner(county.rules(), county.settings()),
        county.settings(),
        (route, along) ->
            county.locator().pointAt(route, along, 0).map(p -> new double[] {p.x(), p.y()}));
  }
}
