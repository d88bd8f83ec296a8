package lanemend.renewal.program;

import java.util.ArrayList;
import java.util.List;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.sections.Section;

/**
 * A section that may be overlaid in the program.
 *
 * @param sectionId unique
 * @param choices at most one is taken
 */
public record Candidate(
    String sectionId, String routeId, double fromAlongM, double toAlongM, List<Choice> choices) {

  /**
   * One way to do it.
   *
   * @param year counted from 0, the program's first
   * @param treatment in the engineer's words, for instance {@code 2 in overlay}
   * @param cost charged to that year's budget
   * @param benefit present value saved against patching on
   */
  public record Choice(int year, String treatment, double cost, double benefit) {
    public Choice {
      if (year < 0 || !(cost >= 0) || !Double.isFinite(benefit)) {
        throw new IllegalArgumentException(
            "year %d, cost %s, benefit %s".formatted(year, cost, benefit));
      }
    }
  }

  /**
   * The choices a cost comparison leaves open: an overlay at the start of each of the program's
   * years that saves against patching on.
   *
   * @param firstYear years before it are closed, for instance by an engineer's deferral
   */
  public static Candidate of(
      Section section,
      String sectionId,
      LifeCycle costs,
      String treatment,
      double overlayCost,
      int firstYear,
      int years) {
    double[] present = costs.presentCost();
    double never = present[present.length - 1];
    List<Choice> choices = new ArrayList<>();
    for (int y = firstYear; y < Math.min(years, present.length - 1); y++) {
      if (present[y] < never) {
        choices.add(new Choice(y, treatment, overlayCost, never - present[y]));
      }
    }
    return new Candidate(
        sectionId, section.routeId(), section.fromAlongM(), section.toAlongM(), choices);
  }

  public Candidate {
    choices = List.copyOf(choices);
  }
}
