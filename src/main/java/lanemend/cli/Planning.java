package lanemend.cli;

import java.io.PrintWriter;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import lanemend.county.County;
import lanemend.county.KeptProof;
import lanemend.county.OverlayHolds;
import lanemend.crewdays.Agency;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.CrewDayPlanner;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.PlanProof;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.measure.Unit;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.renewal.program.HoldTogether;
import lanemend.store.Change;
import lanemend.store.Store;
import lanemend.store.Stored;

/** Makes a plan, has it checked by the checker that shares no code with the planner, keeps it. */
final class Planning {
  private Planning() {}

  /** Plans every waiting repair and writes the decisions to the store. */
  static Plan plan(
      Store store,
      String who,
      Agency agency,
      SearchBudget budget,
      double proofSeconds,
      PrintWriter out) {
    try (KeptOnInterrupt kept = new KeptOnInterrupt()) {
      return plan(store, who, agency, budget, proofSeconds, out, kept);
    }
  }

  private static Plan plan(
      Store store,
      String who,
      Agency agency,
      SearchBudget budget,
      double proofSeconds,
      PrintWriter out,
      KeptOnInterrupt kept) {
    County county = County.read(store);
    List<HoldTogether.Held> held = county.underOverlay(agency.plan().firstDay().getYear());
    List<PatchDesign> repairs = county.repairsBeside(held);
    CrewDayPlanner.Planned planned = search(county, agency, repairs, budget, kept);
    List<String> violations =
        county
            .plans()
            .checker(agency)
            .check(planned.plan(), repairs, county.handRules(), county.assignment());
    refuseIfBroken(violations);
    Optional<PlanProof> proof =
        proofSeconds > 0
            ? Optional.of(
                county
                    .plans()
                    .prove(
                        agency,
                        repairs,
                        planned.assignment(),
                        proofSeconds,
                        kept.hearing((stage, share, cost) -> true)))
            : Optional.empty();
    store.write(
        who,
        "plan",
        change -> {
          change.replaceAssignment(planned.assignment());
          OverlayHolds.replace(change, held);
          markPlanned(change, planned.plan());
          KeptProof.forget(change);
          proof.ifPresent(p -> KeptProof.put(change, p));
        });
    Plan plan = County.withHeld(planned.plan(), held);
    say(plan, county, out);
    proof.ifPresent(p -> out.println("proof      " + p.words(plan.currency())));
    return plan;
  }

  private static CrewDayPlanner.Planned search(
      County county,
      Agency agency,
      List<PatchDesign> repairs,
      SearchBudget budget,
      KeptOnInterrupt kept) {
    try (Progress bar = new Progress("crew days", 100)) {
      PlanProgress progress = kept.hearing(showing(bar));
      return county.handRules().all().isEmpty()
          ? county.plans().planner(agency).plan(repairs, budget, progress)
          : county
              .plans()
              .replanner(agency, agency.plan().firstDay())
              .anew(county.plans().inParts(repairs), county.assignment(), budget, progress);
    }
  }

  /** Shows a search on a progress bar. */
  static PlanProgress showing(Progress bar) {
    return (stage, share, cost) -> {
      bar.at(stage.equals("crew days") ? Math.round(100 * share) : 0);
      return true;
    };
  }

  /** Nothing is kept that the checker does not pass. */
  static void refuseIfBroken(List<String> violations) {
    if (!violations.isEmpty()) {
      throw new Refusal(
          "the plan was not kept, as it breaks a limit: "
              + String.join("; ", violations.subList(0, Math.min(3, violations.size())))
              + " ('plan rules' lists what is settled by hand, 'plan release' takes it back; where"
              + " nothing is settled by hand this is a fault of the program, please report it)");
    }
  }

  static void markPlanned(Change change, Plan plan) {
    Set<String> inPlan = new HashSet<>();
    for (CrewDay day : plan.days()) {
      for (CrewDay.Stop stop : day.stops()) {
        stop.zone().repairs().forEach(r -> inPlan.add(RepairPart.defectOf(r.defect().id())));
      }
    }
    for (Stored<Defect> row : change.defects().stored()) {
      Defect d = row.value();
      boolean waits = d.status() == DefectStatus.OPEN || d.status() == DefectStatus.PLANNED;
      DefectStatus now = inPlan.contains(d.id()) ? DefectStatus.PLANNED : DefectStatus.OPEN;
      if (waits && d.status() != now) {
        change.defects().update(row, d.withStatus(now));
      }
    }
  }

  static void say(Plan plan, County county, PrintWriter out) {
    long repairs =
        plan.days().stream()
            .flatMap(d -> d.stops().stream())
            .mapToLong(s -> s.zone().repairs().size())
            .sum();
    double tonnes = plan.days().stream().mapToDouble(CrewDay::tonnes).sum();
    out.printf(
        Locale.ROOT,
        "plan       %d repairs in %d work zones on %d crew days, %s of mix, %,.0f %s; %d left out%n",
        repairs,
        plan.days().stream().mapToInt(d -> d.stops().size()).sum(),
        plan.days().size(),
        county.units().show(tonnes, Unit.TONNE).text(),
        plan.cost(),
        plan.currency(),
        plan.leftOut().size());
    out.println("           checked: no limit is broken");
    plan.leftOut().stream()
        .map(Plan.LeftOut::reason)
        .collect(
            java.util.stream.Collectors.groupingBy(
                r -> r, java.util.TreeMap::new, java.util.stream.Collectors.counting()))
        .forEach((reason, n) -> out.println("           left out, " + n + ": " + reason));
  }
}
