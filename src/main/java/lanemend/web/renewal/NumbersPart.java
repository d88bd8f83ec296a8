package lanemend.web.renewal;

import java.util.LinkedHashSet;
import java.util.Set;
import lanemend.measure.Figure;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.repairs.FamilyFit;
import lanemend.renewal.sections.Section;
import lanemend.renewal.sections.Sectioning;
import lanemend.web.page.TraceTable;
import lanemend.web.page.Xhtml;

/** 'How each number was reached': rules, inputs and sources of the whole page. */
final class NumbersPart {
  private final Xhtml page;
  private final Evidence e;

  NumbersPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
  }

  void write() {
    page.open("div", "class", "trace numbers").leaf("h2", "How each number was reached");
    page.leaf(
        "p",
        "Each rule once, with its source; below it where it was used, the result and what went in. '"
            + Figure.COMMON_PRACTICE
            + "' and 'from memory' mean just that. The steps of the overlay stand with the overlay"
            + " above.");
    flag().write(page, "The flag and the limits");
    model().write(page, "The model and the forecast");
    TraceTable costs = new TraceTable(e.wording());
    e.section()
        .overlay()
        .costing()
        .ifPresent(c -> c.lifeCycle().figures().forEach(f -> costs.add("section", f)));
    costs.write(page, "Costs");
    TraceTable trust = new TraceTable(e.wording());
    for (Hindcast h : e.context().study().hindcasts()) {
      h.figures().forEach(f -> trust.add(years(h.years()), f));
    }
    trust.write(page, "Hindcast");
    page.close();
  }

  private static String years(int n) {
    return n == 1 ? "1 year" : n + " years";
  }

  private TraceTable flag() {
    TraceTable table = new TraceTable(e.wording());
    if (e.section().cluster().expected() > 0) {
      table.add("section", e.section().cluster().figure());
    }
    for (Sectioning s : e.context().study().sectionings()) {
      if (s.routeId().equals(e.section().cluster().routeId())) {
        s.byDifference().stream().filter(this::overlaps).forEach(x -> add(table, "cum. diff.", x));
        s.byPartition().stream().filter(this::overlaps).forEach(x -> add(table, "PELT", x));
      }
    }
    return table;
  }

  private void add(TraceTable table, String way, Section s) {
    table.add(way + " " + e.mileposts().range(s.fromAlongM(), s.toAlongM()), s.rate());
  }

  private boolean overlaps(Section s) {
    return s.fromAlongM() < e.section().toAlongM() && s.toAlongM() > e.section().fromAlongM();
  }

  private TraceTable model() {
    TraceTable table = new TraceTable(e.wording());
    CellHistories h = e.model().histories();
    Set<FamilyFit> fits = new LinkedHashSet<>();
    int most = -1;
    for (int i : e.cells()) {
      fits.add(e.model().familyFit(h.family(i)));
      most = most < 0 || h.repairs(i) > h.repairs(most) ? i : most;
    }
    for (FamilyFit fit : fits) {
      fit.figures().forEach(f -> table.add(fit.family(), f));
    }
    if (most >= 0) {
      // The rule is the same for all cells; the one with most repairs shows it at work.
      Cell cell = h.cell(most);
      String where = e.mileposts().range(cell.fromAlongM(), cell.toAlongM());
      table.add("lane " + cell.lane() + ", " + where, e.model().outlook(most).figure());
    }
    for (int n : new int[] {1, 5, Evidence.YEARS}) {
      e.forecast().figures(n).forEach(f -> table.add(years(n), f));
    }
    return table;
  }
}
