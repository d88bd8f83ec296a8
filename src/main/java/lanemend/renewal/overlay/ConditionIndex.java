package lanemend.renewal.overlay;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * A condition index after the steps of ASTM D6433. The standard's deduct and correction curves are
 * not here: an agency gives them as data from its own copy. Where a curve is missing there is no
 * index, and {@link Result#missing} says which.
 */
public final class ConditionIndex {
  private ConditionIndex() {}

  /** One kind and severity of distress. */
  public record Distress(DefectKind kind, Severity severity) {}

  /** A distress and the percent of the sample's area it covers. */
  public record Observed(Distress distress, double densityPercent) {}

  /** A point of a curve. */
  public record Point(double x, double y) {}

  /**
   * An agency's curves.
   *
   * @param deducts deduct value (y) by density in percent (x), interpolated on log density
   * @param corrected corrected deduct value (y) by total deduct (x), for each count q
   */
  public record Curves(Map<Distress, List<Point>> deducts, Map<Integer, List<Point>> corrected) {
    public Curves {
      deducts = Map.copyOf(deducts);
      corrected = Map.copyOf(corrected);
    }

    /** No curves: no index. */
    public static final Curves NONE = new Curves(Map.of(), Map.of());
  }

  /** The total of the deducts when q of them stand above 2. */
  public record Total(int q, double total) {}

  /** The index, or what is missing for it. */
  public record Result(Optional<Figure> index, List<String> missing) {}

  /** Most deducts allowed, by the highest: {@code 1 + (9 / 98)(100 - highest)}, at most 10. */
  public static double allowed(double highest) {
    return Math.min(10, 1 + 9.0 / 98 * (100 - highest));
  }

  /**
   * Totals from all deducts above 2 down to one: the smallest above 2 is lowered to 2 each time.
   */
  public static List<Total> totals(List<Double> deducts) {
    List<Double> sorted = new ArrayList<>(deducts);
    sorted.sort(Collections.reverseOrder());
    List<Total> out = new ArrayList<>();
    int q = (int) sorted.stream().filter(d -> d > 2).count();
    do {
      out.add(new Total(q, sorted.stream().mapToDouble(d -> d).sum()));
      q--;
      if (q >= 1) {
        sorted.set(q, 2.0);
      }
    } while (q >= 1);
    return out;
  }

  /** The deducts that count: all whole ones allowed and the fraction of the next. */
  public static List<Double> reduced(List<Double> deducts) {
    List<Double> sorted = new ArrayList<>(deducts);
    sorted.sort(Collections.reverseOrder());
    if (sorted.isEmpty()) {
      return sorted;
    }
    double m = allowed(sorted.get(0));
    int whole = (int) Math.floor(m);
    if (sorted.size() <= whole) {
      return sorted;
    }
    List<Double> out = new ArrayList<>(sorted.subList(0, whole));
    out.add((m - whole) * sorted.get(whole));
    return out;
  }

  /** The index of one sample; what the survey or the curves lack is named instead. */
  public static Result of(List<Observed> survey, Curves curves) {
    List<String> missing = new ArrayList<>();
    List<Double> deducts = new ArrayList<>();
    for (Observed o : survey) {
      List<Point> curve = curves.deducts().get(o.distress());
      if (curve == null) {
        missing.add(
            "deduct curve of %s, %s".formatted(o.distress().kind(), o.distress().severity()));
      } else if (o.densityPercent() > 0) {
        deducts.add(interpolate(curve, o.densityPercent(), true));
      }
    }
    double worst = 0;
    List<Double> counted = reduced(deducts);
    boolean few = counted.stream().filter(d -> d > 2).count() <= 1;
    for (Total t : few ? List.<Total>of() : totals(counted)) {
      List<Point> curve = curves.corrected().get(t.q());
      if (curve == null) {
        missing.add("correction curve for q = " + t.q());
      } else {
        worst = Math.max(worst, interpolate(curve, t.total(), false));
      }
    }
    worst = few ? counted.stream().mapToDouble(d -> d).sum() : worst;
    if (!missing.isEmpty()) {
      return new Result(Optional.empty(), missing);
    }
    return new Result(
        Optional.of(
            new Figure(
                "condition index",
                100 - worst,
                Unit.RATIO,
                "100 less the largest corrected deduct",
                List.of(new Figure.Input("largest corrected deduct", worst, Unit.RATIO)),
                "steps of ASTM D6433 (read in a thesis that restates them); the agency's curves")),
        List.of());
  }

  private static double interpolate(List<Point> curve, double x, boolean logarithm) {
    Point before = curve.get(0);
    if (x <= before.x()) {
      return before.y();
    }
    for (Point p : curve) {
      if (x <= p.x()) {
        double share =
            logarithm
                ? Math.log(x / before.x()) / Math.log(p.x() / before.x())
                : (x - before.x()) / (p.x() - before.x());
        return before.y() + share * (p.y() - before.y());
      }
      before = p;
    }
    return before.y();
  }
}
