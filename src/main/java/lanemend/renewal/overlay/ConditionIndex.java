package lanemend.renewal.overlay;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import lanemend.inventory.DistressKind;
import lanemend.inventory.Severity;

/**
 * A condition index after the steps of ASTM D6433. The standard's deduct and correction curves are
 * not here: an agency gives them as data from its own copy. Where a curve is missing there is no
 * index, and {@link Result#missing} says which.
 */
public final class ConditionIndex {
  private static final double M_PER_FT = lanemend.measure.Conversion.M_PER_FT;

  private ConditionIndex() {}

  /** One kind and severity of distress. */
  public record Distress(DistressKind kind, Severity severity) {
    /** As it is read, such as {@code alligator cracking, low}. */
    public String text() {
      String name = kind.name().toLowerCase(Locale.ROOT).replace('_', ' ');
      return kind.graded() ? name + ", " + severity.name().toLowerCase(Locale.ROOT) : name;
    }
  }

  /** A distress and its density, percent. */
  public record Observed(Distress distress, double densityPercent) {}

  /** A point of a curve. */
  public record Point(double x, double y) {}

  /**
   * An agency's curves.
   *
   * @param source where the agency has them from; empty without curves
   * @param inFeet densities of what is measured by length or number are feet or pieces for a square
   *     foot, else metres or pieces for a square metre
   * @param deducts deduct value (y) by density in percent (x), interpolated on log density
   * @param corrected corrected deduct value (y) by total deduct (x), for each count q
   */
  public record Curves(
      String source,
      boolean inFeet,
      Map<Distress, List<Point>> deducts,
      Map<Integer, List<Point>> corrected) {
    public Curves {
      deducts = Map.copyOf(deducts);
      corrected = Map.copyOf(corrected);
    }

    /** No curves: no index. */
    public static final Curves NONE = new Curves("", true, Map.of(), Map.of());
  }

  /** The density in percent of so much of a distress, kept in SI, on an area. */
  public static double density(DistressKind kind, double quantity, double areaM2, boolean inFeet) {
    double perArea = 100 * quantity / areaM2;
    return switch (kind.measure()) {
      case AREA -> perArea;
      case LENGTH -> inFeet ? perArea * M_PER_FT : perArea;
      case COUNT -> inFeet ? perArea * M_PER_FT * M_PER_FT : perArea;
    };
  }

  /** A distress with the deduct value its curve gives. */
  public record Deduct(Observed observed, double value) {}

  /** The total of the deducts when q of them stand above 2. */
  public record Total(int q, double total) {}

  /** A total and what its curve makes of it. */
  public record Corrected(Total total, double value) {}

  /**
   * The index of one sample with every step, or what is missing for it.
   *
   * @param deducts highest first
   * @param allowed m, the most deducts that count; 10 without deducts
   * @param counted the deducts that count, the last one perhaps in part
   * @param corrected by falling q; empty where at most one deduct is above 2
   */
  public record Result(
      Optional<Double> index,
      List<Deduct> deducts,
      double allowed,
      List<Double> counted,
      List<Corrected> corrected,
      List<String> missing) {
    public Result {
      deducts = List.copyOf(deducts);
      counted = List.copyOf(counted);
      corrected = List.copyOf(corrected);
      missing = List.copyOf(missing);
    }
  }

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
    List<Deduct> deducts = new ArrayList<>();
    for (Observed o : survey) {
      if (o.densityPercent() > 0) {
        List<Point> curve = curves.deducts().get(o.distress());
        if (curve == null) {
          missing.add("deduct curve of " + o.distress().text());
        } else {
          deducts.add(new Deduct(o, interpolate(curve, o.densityPercent(), true)));
        }
      }
    }
    deducts.sort(Comparator.comparingDouble(Deduct::value).reversed());
    List<Double> counted = reduced(deducts.stream().map(Deduct::value).toList());
    List<Corrected> corrected = new ArrayList<>();
    boolean few = counted.stream().filter(d -> d > 2).count() <= 1;
    double worst = counted.stream().mapToDouble(d -> d).sum();
    if (!few) {
      worst = 0;
      for (Total t : totals(counted)) {
        List<Point> curve = curves.corrected().get(t.q());
        if (curve == null) {
          missing.add("correction curve for q = " + t.q());
        } else {
          corrected.add(new Corrected(t, interpolate(curve, t.total(), false)));
          worst = Math.max(worst, corrected.get(corrected.size() - 1).value());
        }
      }
    }
    return new Result(
        missing.isEmpty() ? Optional.of(Math.max(0, 100 - worst)) : Optional.empty(),
        deducts,
        deducts.isEmpty() ? 10 : allowed(deducts.get(0).value()),
        counted,
        corrected,
        missing);
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
