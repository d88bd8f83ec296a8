package lanemend.web.renewal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lanemend.measure.Unit;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.program.Candidate;
import lanemend.renewal.program.Program;
import lanemend.web.page.TraceTable;
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
    page.leaf("h1", "Renewal: sections to judge");
    page.leaf("p", "For review by a licensed engineer", "class", "stamp");
    page.leaf("p", summary(rows));
    page.open("table", "class", "grid index").open("thead").open("tr");
    page.cells("th", "Section", "Milepost");
    for (String head : new String[] {"Length", "Repairs", "Expected", "p", "Best year"}) {
      page.leaf("th", head, "class", "num");
    }
    page.cells("th", "Decision", "Program", "Evidence").close().close().open("tbody");
    rows.forEach(r -> row(page, r, budgeted));
    page.close().close();
    page.leaf(
        "p",
        "Repairs and expected: under the surface now in place, of roads of its kind and age. Best"
            + " year: the overlay year of least expected present cost over the analysis period.",
        "class",
        "fine");
    budgeted.ifPresent(b -> program(page, b));
    new RecordsPart(page, context).write();
    return page.done();
  }

  private String summary(List<Row> rows) {
    long decided = rows.stream().filter(r -> r.decision().isPresent()).count();
    double lengthM = rows.stream().mapToDouble(r -> r.section().lengthM()).sum();
    long byHand = rows.stream().filter(r -> !r.section().cluster().tested()).count();
    return rows.size()
        + (rows.size() == 1 ? " section, " : " sections, ")
        + (byHand > 0 ? byHand + " of them by hand, " : "")
        + wording.text(lengthM, Unit.ROAD_METER)
        + ", "
        + decided
        + " decided, "
        + (rows.size() - decided)
        + " open. At most about "
        + Evidence.percent(context.study().settings().scan().falseDiscovery())
        + " of flags should be false alarms.";
  }

  private void row(Xhtml page, Row row, Optional<Budgeted> budgeted) {
    FlaggedSection s = row.section();
    Mileposts mileposts = Mileposts.of(context.network(), s.cluster().routeId());
    String file = EvidencePage.fileName(s);
    page.open("tr").leaf("td", s.id(), "class", "id");
    page.leaf("td", mileposts.range(s.fromAlongM(), s.toAlongM()), "class", "id");
    page.leaf("td", wording.text(s.lengthM(), Unit.ROAD_METER), "class", "num");
    page.leaf("td", String.valueOf(s.cluster().repairs()), "class", "num");
    page.leaf("td", String.format(Locale.ROOT, "%.1f", s.cluster().expected()), "class", "num");
    page.leaf(
        "td",
        s.cluster().tested() ? HeaderPart.p(s.cluster().pValue()).substring(4) : "by hand",
        "class",
        "num");
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
                    : String.valueOf(context.study().settings().exposure().yearAhead() + y))
        .orElse("not reckoned");
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
    page.open("table", "class", "grid").open("thead").open("tr").leaf("th", "Year");
    String unit = ", " + wording.currency();
    for (String head :
        new String[] {"Budget" + unit, "Spent" + unit, "Left" + unit, "One more dollar adds"}) {
      page.leaf("th", head.replace("dollar", one()), "class", "num");
    }
    page.leaf("th", "Overlaid", "class", "last").close().close().open("tbody");
    for (int y = 0; y < p.budgets().length; y++) {
      page.open("tr").leaf("td", String.valueOf(budgeted.firstYear() + y));
      number(page, Evidence.decimals(0, p.budgets()[y]));
      number(page, Evidence.decimals(0, p.spent()[y]));
      number(page, Evidence.decimals(0, p.budgets()[y] - p.spent()[y]));
      number(page, Evidence.decimals(2, p.worthOfOneMore()[y]));
      page.leaf("td", overlaid(p, y), "class", "last").close();
    }
    page.close().close();
    page.leaf(
        "p",
        "The program saves "
            + wording.estimate(p.benefit())
            + " of present cost against patching on. No program within these budgets can save more"
            + " than "
            + wording.estimate(p.bound())
            + ": proven gap "
            + Evidence.decimals(2, 100 * p.gap())
            + "\u00a0%. 'One more' is what the saving would grow by for each "
            + one()
            + " added to that year's budget, at the margin; 0 where money is left over.");
    TraceTable trace = new TraceTable(wording);
    p.figures(budgeted.firstYear()).forEach(f -> trace.add("program", f));
    page.open("div", "class", "trace");
    trace.write(page, "How each number was reached");
    page.close();
  }

  private String one() {
    return wording.currency().equals("USD") ? "dollar" : wording.currency();
  }

  private static void number(Xhtml page, String text) {
    page.leaf("td", text, "class", "num");
  }

  private static String overlaid(Program p, int year) {
    List<String> ids = new ArrayList<>();
    for (int s = 0; s < p.candidates().size(); s++) {
      if (p.chosen().get(s).filter(c -> c.year() == year).isPresent()) {
        ids.add(p.candidates().get(s).sectionId());
      }
    }
    return ids.isEmpty() ? "none" : String.join(", ", ids);
  }
}
