package lanemend.web.desk;

import java.util.ArrayList;
import java.util.List;
import lanemend.county.CountyRenewal;
import lanemend.measure.Figure;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.RenewalProposal;
import lanemend.renewal.program.Candidate;
import lanemend.renewal.program.Program;
import lanemend.web.page.Wording;

/**
 * The overlay program under yearly budgets: sections by years.
 *
 * @param budgeted false where no budgets are set: each year then has money enough
 * @param kept whether these budgets are those the agency has set
 * @param saving of the whole program, with the bound it cannot exceed
 * @param gap how far from the best at most, per cent
 * @param wanted what all sections that could save would cost together: more money does nothing
 * @param solveMs time the solver took
 */
record ProgramView(
    boolean budgeted,
    boolean kept,
    int firstYear,
    String currency,
    List<Year> years,
    List<Line> sections,
    Trace saving,
    String bound,
    double gap,
    double wanted,
    List<String> remarks,
    double solveMs) {

  /** A year with its money. */
  record Year(int year, double budget, String spent, String left, Trace oneMore) {}

  /**
   * A section's line.
   *
   * @param year chosen, or 0 where it is patched on
   * @param agreed whether the year is an engineer's and not the solver's
   * @param open years in which the costs and decisions leave an overlay open
   */
  record Line(
      String id,
      int year,
      boolean agreed,
      String treatment,
      String cost,
      String saving,
      List<Integer> open,
      String state,
      String stateWords) {}

  static ProgramView of(CountyRenewal study, RenewalProposal proposal, double solveMs) {
    Wording words = Wording.of(study.county().agency());
    Program p = proposal.program();
    List<Figure> figures = p.figures(proposal.firstYear());
    List<Year> years = new ArrayList<>();
    for (int y = 0; y < p.budgets().length; y++) {
      years.add(
          new Year(
              proposal.firstYear() + y,
              proposal.budgeted() ? p.budgets()[y] : 0,
              words.estimate(p.spent()[y]),
              proposal.budgeted() ? words.estimate(p.budgets()[y] - p.spent()[y]) : "",
              Trace.of(figures.get(1 + y), study.county().units())));
    }
    List<Double> set = study.rules().yearlyBudgets();
    boolean kept =
        proposal.budgeted()
            ? set.equals(java.util.Arrays.stream(p.budgets()).boxed().toList())
            : set.isEmpty();
    return new ProgramView(
        proposal.budgeted(),
        kept,
        proposal.firstYear(),
        words.currency(),
        years,
        lines(proposal, words),
        SectionView.money(figures.get(0), study),
        words.estimate(p.bound()),
        100 * p.gap(),
        proposal.all().stream()
            .flatMap(s -> s.overlay().costing().stream())
            .mapToDouble(c -> c.overlayCost().value())
            .sum(),
        proposal.remarks(),
        solveMs);
  }

  private static List<Line> lines(RenewalProposal proposal, Wording words) {
    Program p = proposal.program();
    List<Line> lines = new ArrayList<>();
    for (int i = 0; i < p.candidates().size(); i++) {
      Candidate c = p.candidates().get(i);
      Candidate.Choice chosen = p.chosen().get(i).orElse(null);
      ProposedSection section =
          proposal.all().stream()
              .filter(s -> s.id().equals(c.sectionId()))
              .findFirst()
              .orElseThrow();
      lines.add(
          new Line(
              c.sectionId(),
              chosen == null ? 0 : proposal.firstYear() + chosen.year(),
              section.decision().filter(d -> d.overlayYear() != 0).isPresent(),
              chosen == null ? "" : chosen.treatment(),
              chosen == null ? "" : words.estimate(chosen.cost()),
              chosen == null ? "" : words.estimate(chosen.benefit()),
              c.choices().stream().map(o -> proposal.firstYear() + o.year()).sorted().toList(),
              DeskWords.code(SectionState.of(section.decision())),
              SectionState.words(section.decision())));
    }
    return lines;
  }
}
