package lanemend.crewdays.learning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * Finds ratios far from the others of their crew and treatment, a slipped unit or a bad day, and
 * pulls each to the fence: it counts, but no further. Distance is 0.6745 |x - median| / median
 * absolute deviation, the fence at 3.5 of it (Iglewicz and Hoaglin 1993, as in the NIST/SEMATECH
 * e-Handbook of statistical methods, section 1.3.5.17).
 */
final class Fence {
  private static final double MAD_TO_SD = 1 / 0.6745;
  private static final double FENCE = 3.5;

  /** A crew's own median is looked at from so many records on. */
  private static final int OWN_MEDIAN = 5;

  /** Fewer deviations than these say nothing of a spread. */
  private static final int OWN_SPREAD = 10;

  private Fence() {}

  /**
   * A ratio inside the fence.
   *
   * @param log as it counts
   * @param pulled whether it lay beyond
   */
  record Kept(Comparison.Ratio ratio, double log, boolean pulled) {}

  /** All ratios, in their order. */
  static List<Kept> around(List<Comparison.Ratio> ratios) {
    Map<String, List<Double>> byCell = new HashMap<>();
    Map<String, List<Double>> byTreatment = new HashMap<>();
    for (Comparison.Ratio r : ratios) {
      byCell.computeIfAbsent(cell(r), k -> new ArrayList<>()).add(r.log());
      byTreatment.computeIfAbsent(treatment(r), k -> new ArrayList<>()).add(r.log());
    }
    Map<String, List<Double>> off = new HashMap<>();
    for (Comparison.Ratio r : ratios) {
      double d = Math.abs(r.log() - middle(r, byCell, byTreatment));
      off.computeIfAbsent(treatment(r), k -> new ArrayList<>()).add(d);
    }
    List<Kept> kept = new ArrayList<>();
    for (Comparison.Ratio r : ratios) {
      double middle = middle(r, byCell, byTreatment);
      double room = FENCE * spread(off.get(treatment(r)));
      double log = Math.max(middle - room, Math.min(middle + room, r.log()));
      kept.add(new Kept(r, log, log != r.log()));
    }
    return kept;
  }

  /** Few records are given the spread that is usual, where theirs is smaller. */
  private static double spread(List<Double> off) {
    double own = median(off) * MAD_TO_SD;
    return off.size() < OWN_SPREAD
        ? Math.max(own, Pooling.USUAL_NOISE)
        : Math.max(own, Pooling.LEAST_NOISE);
  }

  private static double middle(
      Comparison.Ratio r, Map<String, List<Double>> byCell, Map<String, List<Double>> byTreatment) {
    List<Double> own = byCell.get(cell(r));
    return median(own.size() >= OWN_MEDIAN ? own : byTreatment.get(treatment(r)));
  }

  private static String treatment(Comparison.Ratio r) {
    return Objects.toString(r.treatment());
  }

  private static String cell(Comparison.Ratio r) {
    return treatment(r) + " " + r.crewId();
  }

  static double median(List<Double> values) {
    double[] v = values.stream().sorted(Comparator.naturalOrder()).mapToDouble(d -> d).toArray();
    int half = v.length / 2;
    return v.length % 2 == 1 ? v[half] : Arrays.stream(v, half - 1, half + 1).average().orElse(0);
  }
}
