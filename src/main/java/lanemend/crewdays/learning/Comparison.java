package lanemend.crewdays.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.patching.Treatment;

/**
 * Done repairs as logs of actual over planned, by measure. The plan is taken without the learned
 * factors that were in it, so that what is learned is always against the design.
 *
 * @param ratios what can be compared
 * @param without number of repairs that cannot, by reason
 */
record Comparison(List<Ratio> ratios, Map<String, Integer> without) {

  /**
   * One repair.
   *
   * @param treatment null for the cost of an hour
   * @param log natural logarithm of actual over designed
   */
  record Ratio(String id, Treatment treatment, String crewId, LocalDate on, double log) {}

  static Comparison of(Measure measure, List<DoneRepair> done) {
    List<Ratio> ratios = new ArrayList<>();
    Map<String, Integer> without = new TreeMap<>();
    for (DoneRepair r : done) {
      String missing = missing(measure, r);
      double log = missing.isEmpty() ? log(measure, r) : Double.NaN;
      if (!missing.isEmpty()) {
        without.merge(missing, 1, Integer::sum);
      } else if (!Double.isFinite(log)) {
        without.merge(nothing(measure), 1, Integer::sum);
      } else {
        Treatment of = measure == Measure.HOUR_COST ? null : r.treatment();
        ratios.add(new Ratio(r.id(), of, r.crewId(), r.doneOn(), log));
      }
    }
    return new Comparison(List.copyOf(ratios), without);
  }

  private static String missing(Measure measure, DoneRepair r) {
    if (r.treatment() == null) {
      return "work that is no patch treatment";
    }
    DoneRepair.Planned p = r.planned();
    if (p == null) {
      return "no plan on record";
    }
    return switch (measure) {
      case MINUTES ->
          r.crewHours() == null
              ? "no crew hours recorded"
              : p.minutes() == null ? "no planned minutes on record" : "";
      case MIX ->
          r.tonnes() == null
              ? "no mix recorded"
              : p.tonnes() == null ? "no planned mix on record" : "";
      case HOUR_COST -> missingCost(r, p);
    };
  }

  private static String missingCost(DoneRepair r, DoneRepair.Planned p) {
    if (r.cost() == null || r.crewHours() == null) {
      return r.cost() == null ? "no cost recorded" : "no crew hours recorded";
    }
    if (p.hourCost() == null) {
      return "no rate of the crew on record";
    }
    boolean mix = r.tonnes() != null && r.tonnes() > 0;
    return mix && p.mixPrice() == null ? "no price of mix on record" : "";
  }

  /** Why a ratio is not above 0. */
  private static String nothing(Measure measure) {
    return switch (measure) {
      case MINUTES -> "0 hours, planned or recorded";
      case MIX -> "0 mix, planned or recorded";
      case HOUR_COST -> "cost not above that of its mix and trucks, or 0 hours";
    };
  }

  private static double log(Measure measure, DoneRepair r) {
    DoneRepair.Planned p = r.planned();
    return switch (measure) {
      case MINUTES -> Math.log(60 * r.crewHours() * p.minutesFactor() / p.minutes());
      case MIX -> Math.log(r.tonnes() * p.mixFactor() / p.tonnes());
      case HOUR_COST -> {
        double mix = r.tonnes() == null || r.tonnes() == 0 ? 0 : r.tonnes() * p.mixPrice();
        double trucks = p.truckHourCost() == null ? 0 : r.crewHours() * p.truckHourCost();
        double crew = r.cost().doubleValue() - mix - trucks;
        yield Math.log(crew * p.hourCostFactor() / (r.crewHours() * p.hourCost()));
      }
    };
  }
}
