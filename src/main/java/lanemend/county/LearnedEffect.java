package lanemend.county;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import lanemend.crewdays.Agency;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayFigureName;
import lanemend.crewdays.Plan;
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
   * A plan in few numbers.
   *
   * @param meanChance of a day to end inside its shift, 0 to 1; NaN without days
   * @param leastChance of the day least sure to
   */
  public record Totals(
      int crewDays,
      int repairs,
      int leftOut,
      double tonnes,
      double crewHours,
      BigDecimal cost,
      double meanChance,
      double leastChance,
      Map<String, Integer> daysByCrew) {

    static Totals of(Plan plan) {
      Map<String, Integer> byCrew = new TreeMap<>();
      plan.days().forEach(d -> byCrew.merge(d.crew().id(), 1, Integer::sum));
      return new Totals(
          plan.days().size(),
          plan.days().stream()
              .flatMap(d -> d.stops().stream())
              .mapToInt(s -> s.zone().repairs().size())
              .sum(),
          plan.leftOut().size(),
          plan.days().stream().mapToDouble(CrewDay::tonnes).sum(),
          plan.days().stream().mapToDouble(Totals::hours).sum(),
          plan.cost(),
          chances(plan).average().orElse(Double.NaN),
          chances(plan).min().orElse(Double.NaN),
          byCrew);
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
        keptWith = Totals.of(with.plan());
        broken = broken(with);
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

  private static List<String> broken(County with) {
    Agency agency = with.agency();
    LocalDate first = agency.plan().firstDay();
    CountyPlans plans = with.plans();
    Plan plan =
        plans
            .replanner(agency, first)
            .schedule(plans.waiting(with.assignment()), with.repairsInParts());
    return plans.checker(agency).check(plan, with.repairs(), with.handRules(), with.assignment());
  }

  private static Totals anew(County county, SearchBudget budget, PlanProgress progress) {
    return Totals.of(new PlanMaking(county, county.agency()).make(budget, progress).plan());
  }
}
