package lanemend.web.sheet;

import java.util.List;
import lanemend.crewdays.CrewDay;
import lanemend.measure.Figure;
import lanemend.patching.PatchDesign;
import lanemend.patching.WorkStep;
import lanemend.web.page.TraceTable;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/**
 * 'How each number was reached': every figure of the day under its rule, which is said once with
 * its source, then used for each repair or stop with the inputs it had there.
 */
final class TracePart {
  private final Xhtml page;
  private final Wording wording;

  TracePart(Xhtml page, SheetContext context) {
    this.page = page;
    this.wording = Wording.of(context.agency());
  }

  void write(CrewDay day) {
    TraceTable repairs = new TraceTable(wording);
    TraceTable traffic = new TraceTable(wording);
    TraceTable hours = new TraceTable(wording);
    int number = 0;
    for (CrewDay.Stop stop : day.stops()) {
      number++;
      List<PatchDesign> designs = stop.zone().repairs();
      for (int i = 0; i < designs.size(); i++) {
        String id = Wording.repairId(number, i);
        PatchDesign design = designs.get(i);
        design.figures().forEach(f -> repairs.add(id, f));
        design.layDown().ifPresent(plan -> plan.figures().forEach(f -> repairs.add(id, f)));
        for (WorkStep step : design.steps()) {
          repairs.add(id, step.minutes());
        }
      }
      String where = "stop " + number;
      stop.zone().traffic().figures().forEach(f -> traffic.add(where, f));
      stop.figures().forEach(f -> hours.add(where, f));
    }
    day.figures().forEach(f -> hours.add("day", f));
    page.open("div", "class", "trace");
    page.leaf("h2", "How each number was reached");
    page.leaf(
        "p",
        "Each rule once, with its source; below it each repair (1A is the first repair of stop 1)"
            + " or stop it was used for, with the result and what went in. '"
            + Figure.COMMON_PRACTICE
            + "' and 'from memory' mean just that.");
    repairs.write(page, "Repairs: quantities, minutes, lay-down");
    traffic.write(page, "Traffic control");
    hours.write(page, "Drive, haul, trucks, hours and cost");
    page.close();
  }
}
