package lanemend.renewal.program;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Chooses at most one overlay for each section so that the total benefit is greatest and no year
 * spends more than its budget. A Lagrangian gives a bound and the worth of money, exchanges give a
 * good program, branch and bound closes the gap as far as the effort allows.
 */
public final class ProgramSolver {
  private ProgramSolver() {}

  /**
   * How hard to try.
   *
   * @param nodes most branches looked at
   * @param tolerance gap that is good enough, as a share
   */
  public record Effort(long nodes, double tolerance, long seed) {
    /** Three million branches, a gap of 0.02 %. */
    public static final Effort STANDARD = new Effort(3_000_000, 0.0002, 7);
  }

  /**
   * Solves the program.
   *
   * @param budgets by year; choices in later years are not affordable
   */
  public static Program solve(List<Candidate> candidates, double[] budgets, Effort effort) {
    double[][] cost = new double[candidates.size()][];
    double[][] benefit = new double[candidates.size()][];
    int[][] year = new int[candidates.size()][];
    int[][] origin = new int[candidates.size()][];
    for (int s = 0; s < cost.length; s++) {
      List<Candidate.Choice> all = candidates.get(s).choices();
      int[] usable =
          java.util.stream.IntStream.range(0, all.size())
              .filter(c -> all.get(c).year() < budgets.length)
              .filter(c -> all.get(c).cost() <= budgets[all.get(c).year()])
              .filter(c -> all.get(c).benefit() > 0)
              .toArray();
      origin[s] = usable;
      cost[s] = java.util.Arrays.stream(usable).mapToDouble(c -> all.get(c).cost()).toArray();
      benefit[s] = java.util.Arrays.stream(usable).mapToDouble(c -> all.get(c).benefit()).toArray();
      year[s] = java.util.Arrays.stream(usable).map(c -> all.get(c).year()).toArray();
    }
    Multipliers main = new Multipliers(cost, benefit, year, budgets);
    Incumbent incumbent = new Incumbent(cost, benefit, year, budgets);
    int[] start = incumbent.find(main.price(), 1, effort.seed());
    main.lower(value(start, benefit), 400);
    // Many sections leave little to gain from many starts: the bound is tight by itself.
    int starts = Math.max(2, Math.min(24, 1500 / Math.max(1, cost.length)));
    start = incumbent.find(main.price(), starts, effort.seed() + 1);
    double known = value(start, benefit);
    main.lower(known, 400);
    List<Multipliers> bounds = bounds(main, cost, benefit, year, budgets);
    Branching branching =
        new Branching(cost, benefit, year, budgets, bounds, effort.tolerance(), effort.nodes());
    boolean complete = branching.search(start, known);
    double reached = branching.bestValue();
    double proven =
        complete
            ? Math.min(main.bound(), reached * (1 + effort.tolerance()))
            : Math.max(reached, main.bound());
    return program(candidates, budgets, origin, branching, proven, main.price());
  }

  /** Prices for tighter money serve deep in the tree, where years are nearly spent. */
  private static List<Multipliers> bounds(
      Multipliers main, double[][] cost, double[][] benefit, int[][] year, double[] budgets) {
    List<Multipliers> bounds = new ArrayList<>();
    bounds.add(main);
    if (cost.length > 200) {
      return bounds;
    }
    for (int y = -1; y < budgets.length; y++) {
      for (double share : new double[] {0.8, 0.5}) {
        double[] tight = budgets.clone();
        for (int k = 0; k < tight.length; k++) {
          tight[k] *= y < 0 || y == k ? share : 1;
        }
        Multipliers m = new Multipliers(cost, benefit, year, tight);
        m.lower(0.9 * m.bound(), 60);
        bounds.add(m);
      }
    }
    return bounds;
  }

  private static double value(int[] pick, double[][] benefit) {
    double sum = 0;
    for (int s = 0; s < pick.length; s++) {
      sum += pick[s] < 0 ? 0 : benefit[s][pick[s]];
    }
    return sum;
  }

  private static Program program(
      List<Candidate> candidates,
      double[] budgets,
      int[][] origin,
      Branching branching,
      double bound,
      double[] price) {
    List<Optional<Candidate.Choice>> chosen = new ArrayList<>();
    double[] spent = new double[budgets.length];
    for (int s = 0; s < candidates.size(); s++) {
      int c = branching.best()[s];
      Optional<Candidate.Choice> choice =
          c < 0 ? Optional.empty() : Optional.of(candidates.get(s).choices().get(origin[s][c]));
      choice.ifPresent(o -> spent[o.year()] += o.cost());
      chosen.add(choice);
    }
    return new Program(
        candidates,
        chosen,
        branching.bestValue(),
        bound,
        spent,
        budgets.clone(),
        price.clone(),
        branching.nodes());
  }
}
