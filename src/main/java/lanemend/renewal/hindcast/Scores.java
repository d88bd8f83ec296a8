package lanemend.renewal.hindcast;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.RepairModel;

/**
 * Deviance and lift of the model and of simple ways of foretelling. A simple way that says zero
 * where a repair came would score infinitely badly, so each is mixed with the county's mean rate in
 * the share that serves it best, chosen in hindsight: that favours the simple ways.
 */
final class Scores {
  private static final double[] MIXES = {0.01, 0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 1};
  private static final int RANKS = 10;

  private Scores() {}

  static List<Hindcast.Score> of(RepairModel model, Holdout h) {
    int n = h.cells().length;
    double[] fitted = new double[n];
    double[] family = new double[n];
    double[] lastYear = new double[n];
    double[] meanRate = new double[n];
    double[] past = new double[n];
    CellHistories known = h.known();
    for (int k = 0; k < n; k++) {
      int i = h.cells()[k];
      family[k] = family(model, i, h.windows()[k]);
      fitted[k] = model.level(i) * model.outlook(i).multiplier() * family[k];
      lastYear[k] = h.lastYear()[k] * h.windows()[k];
      double years = known.yearsWatched(i);
      meanRate[k] = years == 0 ? 0 : known.repairs(i) / years * h.windows()[k];
      past[k] = years == 0 ? 0 : known.repairs(i);
    }
    double[] worst = byRank(past, meanRate);
    List<Hindcast.Score> out = new ArrayList<>();
    out.add(new Hindcast.Score("the model", deviance(h.repairs(), fitted), lift(h, fitted)));
    out.add(score("last year's count", h, lastYear, meanRate));
    out.add(score("mean rate of the cell", h, meanRate, meanRate));
    out.add(score("worst first", h, worst, meanRate));
    out.add(score("the family alone", h, family, meanRate));
    return out;
  }

  /** Repairs an average cell of the family would have in the window. */
  static double family(RepairModel model, int i, double window) {
    CellHistories h = model.histories();
    double now = h.ageNow(i);
    return model.familyFit(h.family(i)).expected(now, now + window, h.share(i), h.covariates(i));
  }

  private static Hindcast.Score score(String name, Holdout h, double[] said, double[] rates) {
    double mean = 0;
    double years = 0;
    for (int k = 0; k < rates.length; k++) {
      mean += rates[k];
      years += h.windows()[k];
    }
    double least = Double.POSITIVE_INFINITY;
    double[] mixed = new double[said.length];
    for (double mix : MIXES) {
      for (int k = 0; k < said.length; k++) {
        mixed[k] = (1 - mix) * said[k] + mix * mean / years * h.windows()[k];
      }
      least = Math.min(least, deviance(h.repairs(), mixed));
    }
    return new Hindcast.Score(name, least, lift(h, said));
  }

  /** Cells ranked by past repairs in ten ranks; each takes the mean rate of its rank. */
  private static double[] byRank(double[] past, double[] rate) {
    int n = past.length;
    int[] order = descending(past);
    double[] out = new double[n];
    for (int r = 0; r < RANKS; r++) {
      int from = (int) ((long) n * r / RANKS);
      int to = (int) ((long) n * (r + 1) / RANKS);
      double sum = 0;
      for (int k = from; k < to; k++) {
        sum += rate[order[k]];
      }
      for (int k = from; k < to; k++) {
        out[order[k]] = sum / (to - from);
      }
    }
    return out;
  }

  /** Poisson deviance of counts from means. */
  static double deviance(int[] counts, double[] means) {
    double sum = 0;
    for (int k = 0; k < counts.length; k++) {
      double y = counts[k];
      sum += y == 0 ? means[k] : y * Math.log(y / means[k]) - (y - means[k]);
    }
    return 2 * sum;
  }

  private static double[] lift(Holdout h, double[] said) {
    int[] order = descending(said);
    double all = IntStream.of(h.repairs()).sum();
    double length = 0;
    for (int i : h.cells()) {
      length += h.known().share(i);
    }
    double[] out = new double[Hindcast.LIFT_AT.size()];
    for (int a = 0; a < out.length; a++) {
      double taken = 0;
      double caught = 0;
      for (int k : order) {
        if (taken >= Hindcast.LIFT_AT.get(a) * length) {
          break;
        }
        taken += h.known().share(h.cells()[k]);
        caught += h.repairs()[k];
      }
      out[a] = all == 0 ? 0 : caught / all;
    }
    return out;
  }

  /** Places from the largest value down; equal values stay in order. */
  private static int[] descending(double[] values) {
    return IntStream.range(0, values.length)
        .boxed()
        .sorted(Comparator.comparingDouble((Integer k) -> -values[k]))
        .mapToInt(Integer::intValue)
        .toArray();
  }
}
