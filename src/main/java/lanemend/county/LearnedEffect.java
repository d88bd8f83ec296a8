package lanemend.county;

import java.util.List;
import java.util.OptionalDouble;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayFigureName;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanComparison;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactors;

/**
 * What learned factors would do to the plan, before they are put in force: the kept plan worked out
 * with and without them, and the waiting repairs planned anew with and without, by the same search.
 *
 * @param keptWithout null where nothing is planned yet
 * @param keptWith null where nothing is planned yet, or a day cannot be worked any more
 * @param broken limits of the agency the kept plan would break, a sentence each
 */
public record LearnedEffect(
    Totals keptWithout, Totals keptWith, List<String> broken, Totals anewWithout, Totals anewWith) {

  /**
   * A plan in few numbers, and what factors change of its crew days.
   *
   * @param crewHours of all crew days together
   * @param meanChance of a day to end inside its shift, 0 to 1; NaN without days
   * @param leastChance of the day least sure to
   */
  public record Totals(
      PlanComparison.Totals plan, double crewHours, double meanChance, double leastChance) {

    static Totals of(Plan plan) {
      return new Totals(
          PlanComparison.Totals.of(plan),
          plan.days().stream().mapToDouble(Totals::hours).sum(),
          chances(plan).average().orElse(Double.NaN),
          chances(plan).min().orElse(Double.NaN));
    }

    private static java.util.stream.DoubleStream chances(Plan plan) {
      return plan.days().stream()
          .map(CrewDay::finishProbability)
          .filter(OptionalDouble::isPresent)
          .mapToDouble(OptionalDouble::getAsDouble);
    }

    private static double hours(CrewDay day) {
      return day.figures().stream()
          .filter(f -> f.name().equals(DayFigureName.HOURS))
          .mapToDouble(f -> f.value())
          .sum();
    }
  }

  /**
   * Works it out.
   *
   * @param county as the store has it
   * @param more factors that would come to those in force, or in their place
   */
  public static LearnedEffect of(
      County county, List<LearnedFactor> more, SearchBudget budget, PlanProgress progress) {
    // Built once, not by each of the counties compared.
    county.haulGraph();
    LearnedFactors all = county.learned().with(more);
    County with = county.withLearned(all);
    boolean planned = !county.assignment().days().isEmpty();
    Totals keptWith = null;
    List<String> broken = List.of();
    if (planned) {
      try {
        Plan kept = with.plan();
        keptWith = Totals.of(kept);
        broken =
            with.plans()
                .checker(with.agency())
                .check(kept, with.repairs(), with.handRules(), with.assignment());
      } catch (NotReady e) {
        broken = List.of(e.getMessage());
      }
    }
    return new LearnedEffect(
        planned ? Totals.of(county.plan()) : null,
        keptWith,
        broken,
        anew(county, budget, progress),
        anew(with, budget, progress));
  }

  private static Totals anew(County county, SearchBudget budget, PlanProgress progress) {
    return Totals.of(new PlanMaking(county, county.agency()).make(budget, progress).plan());
  }
}
