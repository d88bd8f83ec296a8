package lanemend.web.sheet;

import java.util.List;
import lanemend.crewdays.CrewDay;
import lanemend.measure.Unit;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** Room to write down what was really done, repair by repair. */
final class RecordPart {
  private final Xhtml page;
  private final CrewDay day;
  private final Wording wording;

  RecordPart(Xhtml page, CrewDay day, SheetContext context) {
    this.page = page;
    this.day = day;
    this.wording = Wording.of(context.agency());
  }

  void write() {
    page.open("div", "class", "record");
    page.leaf("h2", "Record of the day");
    String tons = wording.unitLabel(Unit.TONNE);
    page.open("table", "class", "grid write").open("thead").open("tr");
    page.cells(
        "th",
        "Repair",
        "Done",
        "Planned " + tons,
        "Placed " + tons,
        "Planned min",
        "Start",
        "Finish",
        "Crew hours",
        "Notes: what differed, what was found");
    page.close().close().open("tbody");
    int number = 0;
    for (CrewDay.Stop stop : day.stops()) {
      number++;
      List<PatchDesign> repairs = stop.zone().repairs();
      for (int i = 0; i < repairs.size(); i++) {
        PatchDesign repair = repairs.get(i);
        page.open("tr").open("td").leaf("b", Wording.repairId(number, i)).empty("br");
        page.leaf("span", RepairPart.label(repair.defect().id()), "class", "fine").close();
        page.open("td").leaf("span", "\u00a0", "class", "tick").close();
        page.leaf("td", wording.number(repair.tonnes(), Unit.TONNE), "class", "num");
        page.leaf("td", "");
        page.leaf("td", wording.number(repair.minutes(), Unit.MINUTE), "class", "num");
        page.cells("td", "", "", "", "").close();
      }
    }
    page.close().close();
    page.open("table", "class", "sign").open("tr");
    for (String line :
        new String[] {"Load tickets", "Air and surface temperature", "Foreman", "Date"}) {
      page.open("td").leaf("div", "\u00a0", "class", "line").leaf("div", line, "class", "name");
      page.close();
    }
    page.close().close().close();
  }
}
