package lanemend.web.renewal;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lanemend.measure.Unit;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.program.Candidate;
import lanemend.renewal.program.Program;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** The page that leads to every evidence page, with decisions and the overlay program. */
public final class RenewalIndex {
  private final EvidenceContext context;
  private final Wording wording;

  /** A flagged section and what became of it. */
  public record Row(FlaggedSection section, Optional<EngineerDecision> decision) {}

  /**
   * The program that was fitted to budgets.
   *
   * @param firstYear calendar year of the program's first budget
   */
  public record Budgeted(Program program, int firstYear) {}

  public RenewalIndex(EvidenceContext context) {
    this.context = context;
    this.wording = Wording.of(context.agency());
  }

  /** The index page; rows in the order given. */
  public String html(List<Row> rows, Optional<Budgeted> budgeted) {
    Xhtml page = EvidencePage.open(context, "Renewal");
    page.leaf("div", context.agency().name(), "class", "agency");
    page.leaf("h1", "Renewal: flagged sections");
    page.leaf("p", "For review by a licensed engineer", "class", "stamp");
    page.open("table", "class", "grid index").open("thead").open("tr");
    page.cells("th", "Section", "Milepost", "Length", "Repairs", "Expected", "p", "Best year");
    page.cells("th", "Decision", "Program", "Evidence").close().close().open("tbody");
    rows.forEach(r -> row(page, r, budgeted));
    page.close().close();
    budgeted.ifPresent(b -> program(page, b));
    return page.done();
  }

  private void row(Xhtml page, Row row, Optional<Budgeted> budgeted) {
    FlaggedSection s = row.section();
    Mileposts mileposts = Mileposts.of(context.network(), s.cluster().routeId());
    String file = EvidencePage.fileName(s);
    page.open("tr").leaf("td", s.id());
    page.leaf("td", mileposts.range(s.fromAlongM(), s.toAlongM()));
    page.leaf("td", wording.text(s.lengthM(), Unit.ROAD_METER), "class", "num");
    page.leaf("td", String.valueOf(s.cluster().repairs()), "class", "num");
    page.leaf("td", String.format(Locale.ROOT, "%.1f", s.cluster().expected()), "class", "num");
    page.leaf("td", HeaderPart.p(s.cluster().pValue()).substring(4), "class", "num");
    page.leaf("td", bestYear(s), "class", "num");
    page.leaf("td", row.decision().map(d -> DecisionPart.sentence(d, mileposts)).orElse("open"));
    page.leaf("td", budgeted.map(b -> programYear(b, s.id())).orElse("not run"));
    page.open("td").leaf("a", "page", "href", file + ".html").text(" ");
    page.leaf("a", "PDF", "href", file + ".pdf").close().close();
  }

  private String bestYear(FlaggedSection s) {
    return s.overlay()
        .costing()
        .map(c -> c.lifeCycle().bestYear())
        .map(
            y ->
                y == LifeCycle.NEVER
                    ? "patch on"
                    : String.valueOf(
                        context.study().settings().exposure().recordsTo().getYear() + y))
        .orElse("-");
  }

  private static String programYear(Budgeted budgeted, String sectionId) {
    List<Candidate> candidates = budgeted.program().candidates();
    for (int i = 0; i < candidates.size(); i++) {
      if (candidates.get(i).sectionId().equals(sectionId)) {
        return budgeted
            .program()
            .chosen()
            .get(i)
            .map(c -> budgeted.firstYear() + c.year() + ", " + c.treatment())
            .orElse("not chosen");
      }
    }
    return "not in the program";
  }

  private void program(Xhtml page, Budgeted budgeted) {
    Program p = budgeted.program();
    page.leaf("h2", "Program within the budgets");
    page.open("table", "class", "grid").open("thead").open("tr");
    page.cells("th", "Year", "Budget", "Spent", "One more dollar adds").close().close();
    page.open("tbody");
    for (int y = 0; y < p.budgets().length; y++) {
      page.open("tr").leaf("td", String.valueOf(budgeted.firstYear() + y));
      page.leaf("td", wording.number(p.budgets()[y], Unit.MONEY), "class", "num");
      page.leaf("td", wording.number(p.spent()[y], Unit.MONEY), "class", "num");
      page.leaf("td", wording.number(p.worthOfOneMore()[y], Unit.MONEY), "class", "num").close();
    }
    page.close().close();
  }
}
