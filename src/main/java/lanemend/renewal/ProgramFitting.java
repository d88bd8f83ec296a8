package lanemend.renewal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lanemend.measure.Conversion;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.program.Candidate;
import lanemend.renewal.program.Program;
import lanemend.renewal.program.ProgramSolver;

/**
 * Fits sections to the yearly budgets: what engineers agreed on stands in its year and takes its
 * money first, the solver fills what is left.
 */
record ProgramFitting(Program program, List<String> remarks) {
  /** Years looked at where no budgets are set. */
  private static final int USUAL_YEARS = 5;

  /** More than any county spends, for years without a budget; small enough to subtract from. */
  private static final double MONEY_ENOUGH = 1e12;

  /** A section with its costs and what was decided. */
  record Option(
      String id,
      String routeId,
      double fromAlongM,
      double toAlongM,
      OverlayCase overlay,
      Optional<DecidedSection> decision) {

    static Option of(ProposedSection s) {
      return new Option(
          s.id(), s.cluster().routeId(), s.fromAlongM(), s.toAlongM(), s.overlay(), s.decision());
    }

    int agreedYear() {
      return decision.map(DecidedSection::overlayYear).orElse(0);
    }

    /** Choices the costs leave open from this year of the program on. */
    Candidate candidate(int firstYear, int years) {
      int from = 0;
      boolean closed = overlay.costing().isEmpty();
      if (decision.isPresent()) {
        EngineerDecision d = decision.get().decision();
        closed |= d.kind() == EngineerDecision.Kind.REJECTED;
        from = Math.max(0, d.notBefore() - firstYear);
      }
      if (closed) {
        return new Candidate(id, routeId, fromAlongM, toAlongM, List.of());
      }
      OverlayCase.Costing costing = overlay.costing().orElseThrow();
      double[] present = costing.lifeCycle().presentCost();
      double never = present[present.length - 1];
      List<Candidate.Choice> choices = new ArrayList<>();
      for (int y = from; y < Math.min(years, present.length - 1); y++) {
        if (present[y] < never) {
          choices.add(choice(y, costing));
        }
      }
      return new Candidate(id, routeId, fromAlongM, toAlongM, choices);
    }

    Candidate.Choice choice(int year, OverlayCase.Costing costing) {
      double[] present = costing.lifeCycle().presentCost();
      double saving = year < present.length - 1 ? present[present.length - 1] - present[year] : 0;
      return new Candidate.Choice(year, treatment(), costing.overlayCost().value(), saving);
    }

    private String treatment() {
      return overlay
          .design()
          .flatMap(OverlayDesign::chosen)
          .map(
              o ->
                  String.format(
                      Locale.ROOT,
                      "%.1f in (%.0f mm) overlay",
                      o.thickness().value() / Conversion.M_PER_IN,
                      1000 * o.thickness().value()))
          .orElse("overlay");
    }
  }

  static ProgramFitting of(List<Option> options, List<Double> yearlyBudgets, int firstYear) {
    int years = yearlyBudgets.isEmpty() ? USUAL_YEARS : yearlyBudgets.size();
    double[] budgets = new double[years];
    Arrays.setAll(budgets, y -> yearlyBudgets.isEmpty() ? MONEY_ENOUGH : yearlyBudgets.get(y));
    double[] left = budgets.clone();
    List<String> remarks = new ArrayList<>();
    List<Candidate> open = new ArrayList<>();
    List<Optional<Candidate.Choice>> agreed = new ArrayList<>();
    for (Option o : options) {
      Optional<Candidate.Choice> choice = agreed(o, firstYear, years, remarks);
      choice.ifPresent(c -> left[c.year()] -= c.cost());
      agreed.add(choice);
      if (o.agreedYear() == 0) {
        open.add(o.candidate(firstYear, years));
      }
    }
    for (int y = 0; y < years; y++) {
      if (left[y] < 0) {
        remarks.add(
            String.format(
                Locale.ROOT,
                "what is agreed for %d costs %,.0f more than its budget",
                firstYear + y,
                -left[y]));
        left[y] = 0;
      }
    }
    Program solved = ProgramSolver.solve(open, left, ProgramSolver.Effort.STANDARD);
    return new ProgramFitting(together(options, agreed, solved, budgets), remarks);
  }

  private static Optional<Candidate.Choice> agreed(
      Option o, int firstYear, int years, List<String> remarks) {
    int year = o.agreedYear() - firstYear;
    if (o.agreedYear() == 0) {
      return Optional.empty();
    }
    if (year < 0 || year >= years) {
      remarks.add(o.id() + " is agreed for " + o.agreedYear() + ", outside the program's years");
      return Optional.empty();
    }
    if (o.overlay().costing().isEmpty()) {
      remarks.add(o.id() + " is agreed for " + o.agreedYear() + ", but what it costs is not known");
      return Optional.of(new Candidate.Choice(year, "overlay", 0, 0));
    }
    return Optional.of(o.choice(year, o.overlay().costing().orElseThrow()));
  }

  private static Program together(
      List<Option> options,
      List<Optional<Candidate.Choice>> agreed,
      Program solved,
      double[] budgets) {
    List<Candidate> candidates = new ArrayList<>();
    List<Optional<Candidate.Choice>> chosen = new ArrayList<>();
    double[] spent = solved.spent().clone();
    double benefit = 0;
    int next = 0;
    for (int i = 0; i < options.size(); i++) {
      Option o = options.get(i);
      if (o.agreedYear() == 0) {
        candidates.add(solved.candidates().get(next));
        chosen.add(solved.chosen().get(next++));
        continue;
      }
      Optional<Candidate.Choice> choice = agreed.get(i);
      candidates.add(
          new Candidate(
              o.id(), o.routeId(), o.fromAlongM(), o.toAlongM(), choice.stream().toList()));
      chosen.add(choice);
      if (choice.isPresent()) {
        spent[choice.get().year()] += choice.get().cost();
        benefit += choice.get().benefit();
      }
    }
    return new Program(
        candidates,
        chosen,
        solved.benefit() + benefit,
        solved.bound() + benefit,
        spent,
        budgets,
        solved.worthOfOneMore(),
        solved.nodes());
  }
}
