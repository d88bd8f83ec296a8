package lanemend.web.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import lanemend.measure.Figure;

/**
 * Figures under their rules: each rule is said once with its source, then used wherever it holds
 * with the inputs it had there.
 */
public final class TraceTable {
  private final Wording wording;
  private final Map<Rule, Map<String, List<String>>> uses = new LinkedHashMap<>();

  /** A rule as printed: two figures share it when name, formula and source are the same. */
  private record Rule(String name, String formula, String source) {}

  public TraceTable(Wording wording) {
    this.wording = wording;
  }

  /** Adds a figure that holds at {@code where}; the same result at several places is said once. */
  public void add(String where, Figure figure) {
    Rule rule = new Rule(figure.name(), figure.formula(), figure.source());
    String inputs =
        figure.inputs().stream()
            .map(i -> i.name() + "\u00a0" + wording.precise(i.value(), i.unit()))
            .collect(Collectors.joining("; "));
    String use =
        wording.precise(figure.value(), figure.unit())
            + (inputs.isEmpty() ? "" : "\tfrom " + inputs);
    List<String> places =
        uses.computeIfAbsent(rule, r -> new LinkedHashMap<>())
            .computeIfAbsent(use, u -> new ArrayList<>());
    if (!places.contains(where)) {
      places.add(where);
    }
  }

  /** Writes the rules under a heading; nothing when no figure was added. */
  public void write(Xhtml page, String title) {
    if (uses.isEmpty()) {
      return;
    }
    page.leaf("h3", title);
    page.open("table", "class", "rules");
    uses.forEach(
        (rule, results) -> {
          page.open("tbody").open("tr", "class", "rule").open("td", "colspan", "3");
          page.leaf("b", Wording.capital(rule.name()))
              .text(" = " + Wording.typeset(rule.formula()) + " ");
          page.leaf("span", "[" + Wording.typeset(rule.source()) + "]", "class", "source")
              .close()
              .close();
          results.forEach(
              (use, places) -> {
                String[] parts = use.split("\t", 2);
                page.open("tr").leaf("td", String.join(", ", places), "class", "where");
                page.open("td", "class", "result").leaf("b", parts[0]).close();
                page.leaf("td", parts.length > 1 ? parts[1] : "").close();
              });
          page.close();
        });
    page.close();
  }
}
