package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import lanemend.crewdays.CrewDay;
import lanemend.measure.Figure;
import lanemend.patching.PatchDesign;
import lanemend.patching.WorkStep;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/**
 * 'How each number was reached': every figure of the day under its rule, which is said once with
 * its source, then used for each repair or stop with the inputs it had there.
 */
final class TracePart {
  private final Xhtml page;
  private final Wording wording;

  /** A rule as printed: two figures share it when name, formula and source are the same. */
  private record Rule(String name, String formula, String source) {}

  /** A section's uses of its rules: for each rule, for each result with inputs, where it holds. */
  private static final class Section {
    private final Map<Rule, Map<String, List<String>>> uses = new LinkedHashMap<>();
  }

  TracePart(Xhtml page, SheetContext context) {
    this.page = page;
    this.wording = Wording.of(context.agency());
  }

  void write(CrewDay day) {
    Section repairs = new Section();
    Section traffic = new Section();
    Section hours = new Section();
    int number = 0;
    for (CrewDay.Stop stop : day.stops()) {
      number++;
      List<PatchDesign> designs = stop.zone().repairs();
      for (int i = 0; i < designs.size(); i++) {
        String id = Wording.repairId(number, i);
        PatchDesign design = designs.get(i);
        design.figures().forEach(f -> add(repairs, id, f));
        design.layDown().ifPresent(plan -> plan.figures().forEach(f -> add(repairs, id, f)));
        for (WorkStep step : design.steps()) {
          add(repairs, id, step.minutes());
        }
      }
      String where = "stop " + number;
      stop.zone().traffic().figures().forEach(f -> add(traffic, where, f));
      stop.figures().forEach(f -> add(hours, where, f));
    }
    day.figures().forEach(f -> add(hours, "day", f));
    page.open("div", "class", "trace");
    page.leaf("h2", "How each number was reached");
    page.leaf(
        "p",
        "Each rule once, with its source; below it each repair (1A is the first repair of stop 1)"
            + " or stop it was used for, with the result and what went in. '"
            + Figure.COMMON_PRACTICE
            + "' and 'from memory' mean just that.");
    section("Repairs: quantities, minutes, lay-down", repairs);
    section("Traffic control", traffic);
    section("Drive, haul, trucks, hours and cost", hours);
    page.close();
  }

  private void add(Section section, String where, Figure figure) {
    Rule rule = new Rule(figure.name(), figure.formula(), figure.source());
    String inputs =
        figure.inputs().stream()
            .map(i -> i.name() + "\u00a0" + wording.precise(i.value(), i.unit()))
            .collect(Collectors.joining("; "));
    String use =
        wording.precise(figure.value(), figure.unit())
            + (inputs.isEmpty() ? "" : "\tfrom " + inputs);
    List<String> places =
        section
            .uses
            .computeIfAbsent(rule, r -> new LinkedHashMap<>())
            .computeIfAbsent(use, u -> new ArrayList<>());
    if (!places.contains(where)) {
      places.add(where);
    }
  }

  private void section(String title, Section section) {
    if (section.uses.isEmpty()) {
      return;
    }
    page.leaf("h3", title);
    page.open("table", "class", "rules");
    section.uses.forEach(
        (rule, uses) -> {
          page.open("tbody").open("tr", "class", "rule").open("td", "colspan", "3");
          page.leaf("b", Wording.capital(rule.name()))
              .text(" = " + Wording.typeset(rule.formula()) + " ");
          page.leaf("span", "[" + Wording.typeset(rule.source()) + "]", "class", "source")
              .close()
              .close();
          uses.forEach(
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
