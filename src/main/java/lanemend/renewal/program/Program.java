package lanemend.renewal.program;

import java.util.List;
import java.util.Optional;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * A chosen program.
 *
 * @param chosen by candidate, in the order given; empty where the section is patched on
 * @param benefit of all choices
 * @param bound no program can do better than this
 * @param spent by year
 * @param budgets by year
 * @param worthOfOneMore by year: what one more unit of money in that year would add to the benefit,
 *     by the multipliers of the bound
 * @param nodes branches looked at
 */
public record Program(
    List<Candidate> candidates,
    List<Optional<Candidate.Choice>> chosen,
    double benefit,
    double bound,
    double[] spent,
    double[] budgets,
    double[] worthOfOneMore,
    long nodes) {

  public Program {
    candidates = List.copyOf(candidates);
    chosen = List.copyOf(chosen);
  }

  /** How far from the best this program can be, as a share of the bound; 0 when proven best. */
  public double gap() {
    return bound <= 0 ? 0 : Math.max(0, (bound - benefit) / bound);
  }

  /**
   * Benefit, bound and the worth of money as an engineer reads them; years named from the first.
   */
  public List<Figure> figures(int firstYear) {
    String source = "Lagrangian bound and branch and bound; docs/renewal.md";
    List<Figure> out = new java.util.ArrayList<>();
    out.add(
        new Figure(
            "saving of the program",
            benefit,
            Unit.MONEY,
            "sum of present savings of the chosen overlays",
            List.of(
                new Figure.Input("no program can save more than", bound, Unit.MONEY),
                new Figure.Input("gap", 100 * gap(), Unit.PERCENT)),
            source));
    for (int y = 0; y < budgets.length; y++) {
      out.add(
          new Figure(
              "worth of one more in " + (firstYear + y),
              worthOfOneMore[y],
              Unit.MONEY,
              "multiplier of the year's budget in the bound",
              List.of(
                  new Figure.Input("budget", budgets[y], Unit.MONEY),
                  new Figure.Input("spent", spent[y], Unit.MONEY)),
              source));
    }
    return out;
  }
}
