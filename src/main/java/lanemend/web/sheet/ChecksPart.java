package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.crewdays.CrewDay;
import lanemend.patching.Equipment;
import lanemend.patching.PreStart;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** Checks on each machine before it starts, and the cautions that hold all day. */
final class ChecksPart {
  private final Xhtml page;
  private final CrewDay day;

  ChecksPart(Xhtml page, CrewDay day) {
    this.page = page;
    this.day = day;
  }

  void write() {
    Map<Equipment, List<String>> checks = new LinkedHashMap<>();
    DayTotals.of(day).equipment().forEach(e -> checks.put(e, PreStart.checks(e)));
    if (day.trucks() > 0) {
      checks.put(Equipment.HAUL_TRUCK, PreStart.checks(Equipment.HAUL_TRUCK));
    }
    List<String> all = List.copyOf(DayTotals.allDayCautions(day));
    if (checks.isEmpty() && all.isEmpty()) {
      return;
    }
    page.open("div", "class", "checks");
    if (!checks.isEmpty()) {
      page.leaf("h2", "Pre-start checks");
      Set<String> shared = shared(checks);
      if (!shared.isEmpty()) {
        line("Every machine you ride", shared);
      }
      checks.forEach(
          (machine, list) -> {
            List<String> own = new ArrayList<>(list);
            own.removeAll(shared);
            line(Wording.capital(Wording.words(machine)), own);
          });
      page.leaf("p", "The maker's manual and the agency's own list come first.", "class", "fine");
    }
    if (!all.isEmpty()) {
      page.leaf("h2", day.stops().size() == 1 ? "Cautions" : "Cautions at every stop");
      page.open("ul", "class", "cautions");
      all.forEach(c -> page.leaf("li", c));
      page.close();
    }
    page.close();
  }

  /** Checks that more than one machine of the day asks for: said once. */
  private static Set<String> shared(Map<Equipment, List<String>> checks) {
    Set<String> seen = new LinkedHashSet<>();
    Set<String> shared = new LinkedHashSet<>();
    for (List<String> list : checks.values()) {
      for (String check : list) {
        if (!seen.add(check)) {
          shared.add(check);
        }
      }
    }
    return shared;
  }

  private void line(String name, Iterable<String> checks) {
    page.open("p", "class", "machine").leaf("b", name + ": ");
    for (String check : checks) {
      int space = check.indexOf(' ');
      String first = space < 0 ? check : check.substring(0, space);
      page.open("span", "class", "whole").leaf("span", "\u00a0", "class", "tick");
      page.text("\u00a0" + first).close().text(check.substring(first.length()) + "   ");
    }
    page.close();
  }
}
