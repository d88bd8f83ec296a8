package lanemend.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.Optional;
import lanemend.county.BrokenPlan;
import lanemend.county.County;
import lanemend.county.OffRoadPlaces;
import lanemend.county.PlanMaking;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanComparison;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.PlanProof;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.measure.Unit;
import lanemend.store.Store;

/** Makes a plan, has it checked by the checker that shares no code with the planner, keeps it. */
final class Planning {
  private Planning() {}

  /**
   * Plans every waiting repair and writes the decisions to the store.
   *
   * @param county as it was just read
   * @param making what to plan, of that county
   */
  static Plan plan(
      Store store,
      String who,
      County county,
      PlanMaking making,
      SearchBudget budget,
      double proofSeconds,
      PrintWriter out) {
    try (KeptOnInterrupt kept = new KeptOnInterrupt()) {
      Plan plan = plan(store, who, county, making, budget, proofSeconds, out, kept);
      if (making.daysDropped() > 0) {
        out.printf(
            "           but %d crew days planned for later dates are gone ('undo' brings them back;"
                + " --keep-other-days keeps them)%n",
            making.daysDropped());
      }
      return plan;
    }
  }

  private static Plan plan(
      Store store,
      String who,
      County county,
      PlanMaking making,
      SearchBudget budget,
      double proofSeconds,
      PrintWriter out,
      KeptOnInterrupt kept) {
    PlanMaking.Made made = made(making, budget, kept);
    Optional<PlanProof> proof =
        proofSeconds > 0 && !kept.stopped()
            ? making.prove(made, proofSeconds, kept.hearing((stage, share, cost) -> true))
            : Optional.empty();
    PlanMaking.keep(store, who, made, proof);
    Plan plan = made.whole();
    say(plan, county, out);
    if (kept.stopped()) {
      out.println("           ended early: this is the best plan found so far, and it is kept");
    } else if (proofSeconds > 0) {
      out.println("proof      " + words(proof, plan.currency()));
    }
    return plan;
  }

  /** What is proven, or that nothing is. */
  static String words(Optional<PlanProof> proof, String currency) {
    return proof
        .map(p -> p.words(currency))
        .orElse("not worked out: the plan is too large for it, or it was ended before");
  }

  private static PlanMaking.Made made(
      PlanMaking making, SearchBudget budget, KeptOnInterrupt kept) {
    try (Progress bar = new Progress("crew days", 100)) {
      return making.make(budget, kept.hearing(showing(bar)));
    } catch (BrokenPlan e) {
      throw refusal(e);
    }
  }

  /** Shows a search on a progress bar. */
  static PlanProgress showing(Progress bar) {
    return (stage, share, cost) -> {
      bar.at(stage.equals("crew days") ? Math.round(100 * share) : 0);
      return true;
    };
  }

  /** A plan that breaks limits, with what may be done about it here. */
  static Refusal refusal(BrokenPlan e) {
    return new Refusal(
        e.getMessage()
            + " ('plan rules' lists what is settled by hand, 'plan release' takes it back; where"
            + " nothing is settled by hand this is a fault of the program, please report it)");
  }

  static void say(Plan plan, County county, PrintWriter out) {
    PlanComparison.Totals t = PlanComparison.Totals.of(plan);
    out.printf(
        Locale.ROOT,
        "plan       %d repairs in %d work zones on %d crew days, %s of mix, %,.0f %s; %d left"
            + " out%n",
        t.repairs(),
        t.zones(),
        t.crewDays(),
        county.units().show(t.tonnes(), Unit.TONNE).text(),
        t.cost(),
        plan.currency(),
        t.leftOut());
    out.println("           checked: no limit is broken");
    OffRoadPlaces.of(county.agency(), county.haulGraph())
        .forEach(w -> out.println("           but " + w));
    plan.leftOut().stream()
        .map(Plan.LeftOut::reason)
        .collect(
            java.util.stream.Collectors.groupingBy(
                r -> r, java.util.TreeMap::new, java.util.stream.Collectors.counting()))
        .forEach((reason, n) -> out.println("           left out, " + n + ": " + reason));
  }
}
