package lanemend.web.renewal;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import lanemend.renewal.exposure.Exposure;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** What the records lack or had to be assumed, so that nothing is left out silently. */
final class RecordsPart {
  private final Xhtml page;
  private final EvidenceContext context;

  RecordsPart(Xhtml page, EvidenceContext context) {
    this.page = page;
    this.context = context;
  }

  void write() {
    Exposure exposure = context.study().exposure();
    page.leaf("h2", "The records behind this");
    page.leaf(
        "p",
        String.format(
            Locale.ROOT,
            "Repairs from %s to %s: %,d counted, %,d not.",
            exposure.settings().recordsFrom(),
            exposure.settings().recordsTo().minusDays(1),
            exposure.histories().allRepairs(),
            exposure.unused().size()));
    page.open("ul", "class", "cautions");
    reasons(exposure)
        .forEach((why, n) -> page.leaf("li", Wording.sentence(n + " not counted: " + why)));
    exposure
        .inferred()
        .forEach(
            i ->
                page.leaf(
                    "li",
                    Wording.sentence(
                        place(i.routeId(), i.fromAlongM(), i.toAlongM())
                            + ": surfaced in "
                            + i.year()
                            + " is inferred; "
                            + i.rule())));
    List<String> borrowing = context.study().model().borrowing();
    borrowing.forEach(
        f ->
            page.leaf("li", f + ": too few repairs of its own, so it takes the fit of all roads."));
    page.close();
    // A sliver at a route's end that nobody repaired is no question worth anyone's time.
    questions(
        exposure.toAsk().stream()
            .filter(q -> q.repairs() > 0 || q.toAlongM() - q.fromAlongM() >= 1)
            .toList());
  }

  /** A reason often ends in its own place in brackets; hundreds of those are one reason. */
  private static Map<String, Integer> reasons(Exposure exposure) {
    Map<String, Integer> reasons = new TreeMap<>();
    exposure
        .unused()
        .forEach(u -> reasons.merge(u.why().replaceAll("\\s*\\([^()]*\\)$", ""), 1, Integer::sum));
    return reasons;
  }

  private void questions(List<Exposure.ToAsk> questions) {
    if (questions.isEmpty()) {
      return;
    }
    page.leaf("h3", "To ask someone who knows the road");
    page.open("table", "class", "grid").open("thead").open("tr");
    page.cells("th", "Where", "Repairs waiting", "Question").close().close().open("tbody");
    for (Exposure.ToAsk q : questions) {
      page.open("tr");
      page.cells("td", place(q.routeId(), q.fromAlongM(), q.toAlongM()));
      page.leaf("td", String.valueOf(q.repairs()), "class", "num").leaf("td", q.question());
      page.close();
    }
    page.close().close();
  }

  private String place(String routeId, double fromAlongM, double toAlongM) {
    return routeId + " " + Mileposts.of(context.network(), routeId).range(fromAlongM, toAlongM);
  }
}
