package lanemend.web.renewal;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import lanemend.measure.Unit;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.CellOutlook;
import lanemend.renewal.repairs.RepairForecast.Horizon;
import lanemend.renewal.repairs.RepairForecast.Range;
import lanemend.renewal.repairs.TonsModel;
import lanemend.web.page.Xhtml;

/** Repairs, tons and cost of patching on, and how far the section is drawn to its family. */
final class ForecastPart {
  private final Xhtml page;
  private final Evidence e;

  /** Cells summed for the shrinkage. */
  private static final class Sum {
    private int repairs;
    private double family;
    private double used;
    private double weight;
  }

  ForecastPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
  }

  void write() {
    page.open("div", "class", "keep").leaf("h2", "Forecast if patching goes on");
    page.leaf(
        "p",
        "From "
            + e.recordsTo()
            + ", where the records end, the surface left as it is; each figure with its "
            + e.levelText()
            + " interval. Today's prices, not discounted.",
        "class",
        "fine");
    page.open("table", "class", "grid").open("thead").open("tr");
    page.leaf("th", "Years").leaf("th", "Through");
    page.leaf("th", "Repairs", "class", "num").leaf("th", e.levelText(), "class", "num");
    page.leaf("th", "Mix, " + e.wording().unitLabel(Unit.TONNE), "class", "num");
    page.leaf("th", e.levelText(), "class", "num");
    page.leaf("th", "Cost, " + e.wording().currency(), "class", "num");
    page.leaf("th", e.levelText(), "class", "num").close().close().open("tbody");
    for (Horizon h : e.forecast().horizons()) {
      page.open("tr").leaf("td", String.valueOf(h.years()));
      page.leaf("td", e.recordsTo().plusYears(h.years()).minusDays(1).toString());
      range(h.repairs(), Unit.COUNT);
      range(h.tonnes(), Unit.TONNE);
      range(h.cost(), Unit.MONEY);
      page.close();
    }
    page.close().close();
    notes();
    page.close();
    shrinkage();
  }

  private void range(Range r, Unit unit) {
    page.leaf("td", shown(r.mean(), unit), "class", "num strong");
    page.leaf("td", shown(r.low(), unit) + " to " + shown(r.high(), unit), "class", "num");
  }

  private String shown(double value, Unit unit) {
    double v = unit == Unit.TONNE ? e.wording().units().show(value, unit).value() : value;
    return Evidence.decimals(0, v);
  }

  private void notes() {
    if (e.forecast().rates().unknownCells() > 0) {
      page.leaf(
          "p",
          e.forecast().rates().unknownCells()
              + " of "
              + e.cells().length
              + " cells have no known surfacing year and are left out: the true figures are higher.",
          "class",
          "review");
    }
    CellHistories h = e.model().histories();
    Set<Integer> families = new LinkedHashSet<>();
    for (int i : e.cells()) {
      families.add(h.family(i));
    }
    for (int f : families) {
      TonsModel.Law law = e.model().tons().of(f);
      String text =
          law.repairs() == 0
              ? "No tonnage was ever recorded: mix is shown as nought and cost lacks it."
              : "Mix per repair: mean "
                  + e.wording().text(law.mean(), Unit.TONNE)
                  + ", from "
                  + law.repairs()
                  + " recorded tonnages of "
                  + (law.borrowed() ? "all families, its own being too few." : "the family.");
      page.leaf("p", text, "class", "fine");
      if (e.model().borrowing().contains(h.families().get(f))) {
        page.leaf(
            "p",
            "The family has too few repairs for a fit of its own and takes that of all roads.",
            "class",
            "review");
      }
    }
  }

  private void shrinkage() {
    CellHistories h = e.model().histories();
    Map<String, Sum> lanes = new LinkedHashMap<>();
    Sum all = new Sum();
    double level = 1;
    for (int i : e.cells()) {
      add(lanes.computeIfAbsent(h.cell(i).lane(), l -> new Sum()), i);
      add(all, i);
      level = Math.max(level, e.model().level(i));
    }
    page.open("div", "class", "keep").leaf("h3", "How far the section is drawn to its family");
    page.leaf(
        "p",
        "A short history is mostly chance, so each tenth of a mile is drawn towards what its family"
            + " shows: weight w on the family, 1 - w on its own repairs. A flagged stretch first"
            + " gets a level of its own, here "
            + Evidence.decimals(2, level)
            + " times the family; its cells are drawn to that. The family here is fitted beside the"
            + " flagged stretches, so it expects a little less than the flag's scan, which is scaled"
            + " to the county's total.",
        "class",
        "fine");
    page.open("table", "class", "grid").open("thead").open("tr").leaf("th", "Lane");
    for (String head :
        new String[] {
          "Repairs seen", "Family would have", "Seen, times family", "Used, times family", "Mean w"
        }) {
      page.leaf("th", head, "class", "num");
    }
    page.close().close().open("tbody");
    lanes.forEach(this::row);
    row("all", all);
    page.close().close().close();
  }

  private void add(Sum sum, int i) {
    CellOutlook o = e.model().outlook(i);
    double family = o.familyExpected() / e.model().level(i);
    sum.repairs += o.repairs();
    sum.family += family;
    sum.used += family * e.model().level(i) * o.multiplier();
    sum.weight += family * o.familyWeight();
  }

  private void row(String lane, Sum s) {
    page.open("tr").leaf("td", lane).leaf("td", String.valueOf(s.repairs), "class", "num");
    page.leaf("td", Evidence.decimals(1, s.family), "class", "num");
    boolean known = s.family > 0;
    page.leaf("td", known ? Evidence.decimals(2, s.repairs / s.family) : "-", "class", "num");
    page.leaf("td", known ? Evidence.decimals(2, s.used / s.family) : "-", "class", "num strong");
    page.leaf("td", known ? Evidence.decimals(2, s.weight / s.family) : "-", "class", "num");
    page.close();
  }
}
