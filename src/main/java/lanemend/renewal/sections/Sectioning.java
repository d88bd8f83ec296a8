package lanemend.renewal.sections;

import java.util.ArrayList;
import java.util.List;

/**
 * A route cut both ways, for an engineer to choose from.
 *
 * @param byDifference cumulative difference approach, short units merged
 * @param byPartition optimal partition (PELT) of Poisson counts
 * @param penalty what each change had to be worth in the partition
 */
public record Sectioning(
    String routeId, List<Section> byDifference, List<Section> byPartition, double penalty) {

  /**
   * How a route is cut.
   *
   * @param minLengthM shortest project
   * @param penaltyFactor each change must be worth this times ln(cells), times the dispersion of
   *     the counts; 2 is the Bayesian information criterion for one rate, 3 asks for more
   */
  public record Settings(double minLengthM, double penaltyFactor) {
    /** Half a mile (common practice, no source) and 3. */
    public static final Settings STANDARD = new Settings(804.672, 3);
  }

  public Sectioning {
    byDifference = List.copyOf(byDifference);
    byPartition = List.copyOf(byPartition);
  }

  /** Cuts a route by both ways. */
  public static Sectioning of(Strip strip, Settings settings) {
    int n = strip.cells();
    double[] response = new double[n];
    for (int i = 0; i < n; i++) {
      response[i] = strip.repairs()[i];
    }
    int[] units = CumulativeDifference.ends(response, strip.years());
    double penalty = settings.penaltyFactor() * Math.log(Math.max(2, n)) * strip.dispersion();
    double cellM = (strip.edges()[n] - strip.edges()[0]) / n;
    int shortest = Math.max(1, Math.min(n, (int) Math.ceil(settings.minLengthM() / cellM - 0.01)));
    Pelt.Partition partition =
        Pelt.partition(Pelt.poisson(strip.repairs(), strip.years()), n, penalty, shortest);
    return new Sectioning(
        strip.routeId(),
        merge(sections(strip, units), strip, settings.minLengthM()),
        sections(strip, partition.ends()),
        penalty);
  }

  /**
   * Joins the shortest section below the minimum to the neighbour of the nearer rate, until none.
   */
  private static List<Section> merge(List<Section> cut, Strip strip, double minLengthM) {
    List<Section> out = new ArrayList<>(cut);
    while (out.size() > 1) {
      int shortest = 0;
      for (int i = 1; i < out.size(); i++) {
        shortest = out.get(i).lengthM() < out.get(shortest).lengthM() ? i : shortest;
      }
      if (out.get(shortest).lengthM() >= minLengthM - 1) {
        break;
      }
      int first =
          shortest == 0 || (shortest < out.size() - 1 && nearerNext(out, shortest))
              ? shortest
              : shortest - 1;
      Section a = out.get(first);
      Section b = out.remove(first + 1);
      out.set(first, section(strip, a.firstCell(), b.endCell()));
    }
    return out;
  }

  private static boolean nearerNext(List<Section> sections, int i) {
    double own = sections.get(i).rate().value();
    double before = Math.abs(sections.get(i - 1).rate().value() - own);
    return Math.abs(sections.get(i + 1).rate().value() - own) < before;
  }

  private static List<Section> sections(Strip strip, int[] ends) {
    List<Section> out = new ArrayList<>();
    int from = 0;
    for (int end : ends) {
      out.add(section(strip, from, end));
      from = end;
    }
    return out;
  }

  /** The section of cells {@code from} to {@code to} (not included) of a strip. */
  public static Section section(Strip strip, int from, int to) {
    int repairs = 0;
    double expected = 0;
    double years = 0;
    for (int j = from; j < to; j++) {
      repairs += strip.repairs()[j];
      expected += strip.expected()[j];
      years += strip.years()[j];
    }
    return new Section(
        strip.routeId(),
        from,
        to,
        strip.edges()[from],
        strip.edges()[to],
        repairs,
        expected,
        years);
  }
}
