package lanemend.renewal.overlay;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.renewal.repairs.RepairForecast.Draws;
import lanemend.renewal.repairs.Sampling;
import lanemend.renewal.repairs.TonsModel;

/**
 * Keep patching, or overlay at the start of year k: discounted cost over the analysis period, money
 * within a year spent at its middle, what is left of the overlay's life taken off at the end.
 *
 * @param presentCost expected present cost of overlaying at the start of year k (k = 0 now); the
 *     last entry is never
 * @param bestChance share of drawn futures in which that choice was the cheapest
 * @param crossoverChance share of drawn futures in which, by the end of year y + 1, patching has
 *     cost more than an overlay now would have, its remaining worth counted
 * @param savingLow 5th percentile over futures of what the best year saves against never
 * @param savingHigh its 95th percentile
 */
public record LifeCycle(
    double[] presentCost,
    double[] bestChance,
    double[] crossoverChance,
    double savingLow,
    double savingHigh) {

  /** No overlay within the analysis period. */
  public static final int NEVER = Integer.MAX_VALUE;

  /** Compares the choices for one section. */
  public static LifeCycle of(PatchingOutlook outlook, Economics e, Draws draws) {
    int n = e.years();
    if (outlook.years() < n) {
      throw new IllegalArgumentException(
          "an outlook of " + outlook.years() + " years is short of " + n);
    }
    double[] mean = presentCosts(yearly(outlook, e, false), yearly(outlook, e, true), e);
    double[] best = new double[n + 1];
    double[] crossed = new double[n];
    double[] saving = new double[draws.number()];
    int chosen = smallest(mean);
    Sampling sampling = new Sampling(new SplittableRandom(draws.seed()));
    for (int d = 0; d < draws.number(); d++) {
      double multiplier = sampling.gammaWithMeanOne(outlook.relativeVariance());
      double[] old = draw(outlook, e, multiplier, false, sampling);
      double[] fresh = draw(outlook, e, multiplier, true, sampling);
      double[] costs = presentCosts(old, fresh, e);
      best[smallest(costs)] += 1.0 / draws.number();
      saving[d] = costs[n] - costs[chosen];
      int year = crossover(old, fresh, e);
      for (int y = year; y < n; y++) {
        crossed[y] += 1.0 / draws.number();
      }
    }
    Arrays.sort(saving);
    return new LifeCycle(
        mean,
        best,
        crossed,
        saving[(int) (0.05 * saving.length)],
        saving[Math.min(saving.length - 1, (int) (0.95 * saving.length))]);
  }

  /** Expected cost of patching by year, on the present surface or counted from a new one. */
  static double[] yearly(PatchingOutlook outlook, Economics e, boolean fresh) {
    double[] cost = new double[e.years()];
    for (int y = 0; y < cost.length; y++) {
      for (int f = 0; f < outlook.tons().length; f++) {
        double repairs = fresh ? outlook.onNew(y, f, e.kept()) : outlook.repairs()[y][f];
        cost[y] +=
            repairs
                * (e.repairCost().perRepair()
                    + e.repairCost().perTonne() * outlook.tons()[f].mean());
      }
    }
    return cost;
  }

  private static double[] draw(
      PatchingOutlook outlook, Economics e, double multiplier, boolean fresh, Sampling sampling) {
    double[] cost = new double[e.years()];
    for (int y = 0; y < cost.length; y++) {
      for (int f = 0; f < outlook.tons().length; f++) {
        double repairs = fresh ? outlook.onNew(y, f, e.kept()) : outlook.repairs()[y][f];
        TonsModel.Law law = outlook.tons()[f];
        long n = sampling.poisson(multiplier * repairs);
        double tonnes = law.repairs() == 0 ? 0 : sampling.lognormals(n, law.logMean(), law.logSd());
        cost[y] += n * e.repairCost().perRepair() + tonnes * e.repairCost().perTonne();
      }
    }
    return cost;
  }

  /** Present cost of overlaying at the start of each year, and of never. */
  static double[] presentCosts(double[] old, double[] fresh, Economics e) {
    int n = e.years();
    double[] out = new double[n + 1];
    double patched = 0;
    for (int k = 0; k < n; k++) {
      double cost = patched;
      int age = 0;
      for (int y = k; y < n; y++) {
        if (age == 0) {
          cost += e.overlayCost() * e.discount(y);
        }
        cost += fresh[age] * e.discount(y + 0.5);
        age = age + 1 == e.overlayLifeYears() ? 0 : age + 1;
      }
      // An age of 0 here is a surface just worn out, not one just laid.
      out[k] = cost - (age == 0 ? 0 : e.worth(age)) * e.discount(n);
      patched += old[k] * e.discount(k + 0.5);
    }
    out[n] = patched;
    return out;
  }

  /** First year by whose end patching has cost more than an overlay now, or {@link #NEVER}. */
  static int crossover(double[] old, double[] fresh, Economics e) {
    double patch = 0;
    double overlay = e.overlayCost();
    for (int y = 0; y < Math.min(e.years(), e.overlayLifeYears()); y++) {
      patch += old[y] * e.discount(y + 0.5);
      overlay += fresh[y] * e.discount(y + 0.5);
      if (patch > overlay - e.worth(y + 1) * e.discount(y + 1)) {
        return y;
      }
    }
    return NEVER;
  }

  private static int smallest(double[] values) {
    int best = 0;
    for (int i = 1; i < values.length; i++) {
      best = values[i] < values[best] ? i : best;
    }
    return best;
  }

  /** The year with the least expected cost; {@link #NEVER} when patching on is. */
  public int bestYear() {
    int best = smallest(presentCost);
    return best == presentCost.length - 1 ? NEVER : best;
  }

  /** What overlaying in the best year saves against never; 0 when never is best. */
  public double saving() {
    return presentCost[presentCost.length - 1] - presentCost[smallest(presentCost)];
  }

  /** First year (from 1) by whose end the crossover has come in at least half of the futures. */
  public int crossoverYear() {
    for (int y = 0; y < crossoverChance.length; y++) {
      if (crossoverChance[y] >= 0.5) {
        return y + 1;
      }
    }
    return NEVER;
  }

  /** The comparison as an engineer reads it. */
  public List<Figure> figures() {
    int best = smallest(presentCost);
    int last = presentCost.length - 1;
    String source = "present cost over the analysis period; docs/renewal.md";
    return List.of(
        figure("cost of patching on", presentCost[last], "sum of patching / (1+r)^t", source),
        figure(
            best == last ? "cost of the best choice: patch on" : "cost of overlay in the best year",
            presentCost[best],
            "patching until then + overlay + patching after - salvage, discounted",
            source),
        new Figure(
            "saving",
            saving(),
            Unit.MONEY,
            "patching on less the best choice",
            List.of(
                new Figure.Input("low", savingLow, Unit.MONEY),
                new Figure.Input("high", savingHigh, Unit.MONEY),
                new Figure.Input("share of futures it is best", bestChance[best], Unit.RATIO)),
            source));
  }

  private static Figure figure(String name, double value, String formula, String source) {
    return new Figure(name, value, Unit.MONEY, formula, List.of(), source);
  }
}
