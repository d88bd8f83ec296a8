package lanemend.web.renewal;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import lanemend.measure.Unit;
import lanemend.renewal.overlay.ConditionIndex;
import lanemend.renewal.overlay.ConditionIndex.Corrected;
import lanemend.renewal.overlay.ConditionIndex.Deduct;
import lanemend.renewal.overlay.ConditionIndex.Observed;
import lanemend.renewal.overlay.ConditionIndex.Result;
import lanemend.renewal.overlay.SectionCondition;
import lanemend.renewal.overlay.SectionCondition.Sample;
import lanemend.web.page.TraceTable;
import lanemend.web.page.Xhtml;

/** The condition index where a survey gives one, with every step, or why there is none. */
final class ConditionPart {
  private final Xhtml page;
  private final Evidence e;

  ConditionPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
  }

  void write() {
    Optional<SectionCondition> condition = e.section().overlay().condition();
    page.open("div", "class", "keep").leaf("h3", "Condition index (steps of ASTM D6433)");
    if (condition.isEmpty()) {
      page.leaf(
          "p",
          "None: no condition survey of this section's surface was entered. Patch records do not"
              + " make one.");
      page.close();
      return;
    }
    SectionCondition c = condition.get();
    page.leaf("p", verdict(c), "class", "why");
    if (!c.missing().isEmpty()) {
      page.leaf("p", "Missing: " + String.join("; ", c.missing()) + ".", "class", "review");
    }
    page.leaf("p", survey(c));
    page.close();
    samples(c);
    c.index().ifPresent(this::mean);
  }

  private static String verdict(SectionCondition c) {
    return c.index()
        .map(f -> Evidence.decimals(0, f.value()) + " of 100. Curves: " + c.source() + ".")
        .orElse(
            "None: the survey and the steps are here, but the deduct and correction curves must come"
                + " from the agency's own copy of the standard, and not all of them do.");
  }

  private String survey(SectionCondition c) {
    java.time.LocalDate[] days = c.days();
    String when = days[0].equals(days[1]) ? "on " + days[0] : days[0] + " to " + days[1];
    int n = c.samples().size();
    return "Surveyed "
        + when
        + ": "
        + n
        + (n == 1 ? " sample unit, " : " sample units, ")
        + Evidence.percent(c.coveredPercent() / 100)
        + " of the area. For an index within 5 points at 95\u00a0% the standard asks for "
        + c.wanted().samples()
        + " of "
        + c.wanted().of()
        + (n < c.wanted().samples() ? ": too few were surveyed." : ".")
        + (c.left() > 0
            ? " Left out: " + c.left() + " of an earlier survey or an earlier surface."
            : "");
  }

  private void samples(SectionCondition c) {
    for (Sample s : c.samples()) {
      page.open("div", "class", "keep");
      page.leaf(
          "h4",
          "Sample "
              + s.name()
              + ", milepost "
              + e.mileposts().range(s.unit().fromAlongM(), s.unit().toAlongM())
              + ", "
              + e.wording().text(s.unit().areaM2(), Unit.SQUARE_METER)
              + (s.unit().additional() ? ", additional" : "")
              + s.result().index().map(i -> ": " + Evidence.decimals(0, i)).orElse(""));
      deducts(s);
      steps(s.result());
      page.close();
    }
  }

  private void deducts(Sample s) {
    if (s.result().deducts().isEmpty() && s.result().missing().isEmpty()) {
      page.leaf("p", "No distress: nothing is deducted.");
      return;
    }
    page.open("table", "class", "grid").open("thead").open("tr").leaf("th", "Distress");
    page.leaf("th", "Density", "class", "num").leaf("th", "Deduct", "class", "num");
    page.leaf("th", "Counts", "class", "num").close().close().open("tbody");
    List<Deduct> deducts = s.result().deducts();
    for (int i = 0; i < deducts.size(); i++) {
      Observed o = deducts.get(i).observed();
      page.open("tr").leaf("td", o.distress().text());
      number(Evidence.decimals(2, o.densityPercent()) + "\u00a0%");
      number(Evidence.decimals(1, deducts.get(i).value()));
      List<Double> counted = s.result().counted();
      number(i < counted.size() ? Evidence.decimals(1, counted.get(i)) : "no");
      page.close();
    }
    page.close().close();
  }

  private void steps(Result r) {
    if (r.deducts().isEmpty()) {
      return;
    }
    page.leaf(
        "p",
        "Most deducts that count: m = 1 + 9/98 (100 - "
            + Evidence.decimals(1, r.deducts().get(0).value())
            + ") = "
            + Evidence.decimals(2, r.allowed())
            + "."
            + (r.corrected().isEmpty()
                ? " At most one is above 2, so they are simply added."
                : " Totals as the smallest above 2 is lowered to 2 each time: "
                    + r.corrected().stream()
                        .map(ConditionPart::step)
                        .collect(Collectors.joining("; "))
                    + ". The greatest corrected one is taken from 100."),
        "class",
        "fine");
  }

  private static String step(Corrected c) {
    ConditionIndex.Total t = c.total();
    return "q = "
        + t.q()
        + ": "
        + Evidence.decimals(1, t.total())
        + ", corrected "
        + Evidence.decimals(1, c.value());
  }

  private void number(String text) {
    page.leaf("td", text, "class", "num");
  }

  private void mean(lanemend.measure.Figure index) {
    TraceTable steps = new TraceTable(e.wording());
    steps.add("survey", index);
    page.open("div", "class", "trace");
    steps.write(page, "The section's index from its samples");
    page.close();
  }
}
