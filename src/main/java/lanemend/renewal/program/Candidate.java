package lanemend.renewal.program;

import java.util.List;

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

  public Candidate {
    choices = List.copyOf(choices);
  }
}
