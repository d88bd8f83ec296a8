package lanemend.web.sheet;

import java.util.Optional;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayFigureName;
import lanemend.crewdays.DayNeeds;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** The 'before you leave' box: mix by load, tack, machines, signs and devices, cautions. */
final class LoadPart {
  private final Xhtml page;
  private final CrewDay day;
  private final Wording wording;
  private final DayTotals totals;
  private final DayNeeds needs;

  LoadPart(Xhtml page, CrewDay day, SheetContext context) {
    this.page = page;
    this.day = day;
    this.wording = Wording.of(context.agency());
    this.totals = DayTotals.of(day);
    this.needs = DayNeeds.of(day, context.haul()::sideRoads);
  }

  void write() {
    page.open("div", "class", "box");
    page.leaf("h2", "Before you leave");
    page.open("table", "class", "columns load").open("tr");
    page.open("td");
    materials();
    page.close().open("td");
    equipment();
    page.close().close().open("tr").open("td");
    needs("Devices to load", DayNeeds.Kind.DEVICE);
    page.close().open("td");
    needs("Signs to load", DayNeeds.Kind.SIGN);
    page.close().close().close();
    page.leaf(
        "p",
        "First count: the most at any one stop, for zones are set up one after another and devices"
            + " and signs move on. In all: over the stops of the day.",
        "class",
        "fine");
    page.close();
  }

  private void materials() {
    page.leaf("h3", "Materials");
    page.open("ul", "class", "check");
    if (day.tonnes() > 0) {
      page.leaf("li", "Mix, " + wording.text(day.tonnes(), Unit.TONNE) + " in all");
      int number = 0;
      for (CrewDay.Stop stop : day.stops()) {
        number++;
        if (stop.zone().tonnes() > 0) {
          page.leaf("li", "for stop " + number + ": " + loads(stop), "class", "sub");
        }
      }
    }
    if (totals.tackLiters() > 0) {
      String residual =
          totals.residualLiters() > 0
              ? " (" + wording.text(totals.residualLiters(), Unit.LITER) + " residual)"
              : "";
      page.leaf(
          "li",
          "Tack, " + wording.text(totals.tackLiters(), Unit.LITER) + " as sprayed" + residual);
    }
    if (day.tonnes() <= 0 && totals.tackLiters() <= 0) {
      page.leaf("li", "No mix or tack today");
    }
    page.close();
  }

  /** As the planner hauls it: {@code 2 loads of 8.6 tons}. */
  private String loads(CrewDay.Stop stop) {
    Optional<Figure> loads = figure(stop, DayFigureName.LOADS);
    Optional<Figure> each = figure(stop, DayFigureName.LOAD);
    String all = wording.text(stop.zone().tonnes(), Unit.TONNE);
    if (loads.isEmpty() || each.isEmpty()) {
      return all;
    }
    String count = wording.text(loads.get());
    String word = loads.get().value() == 1 ? " load of " : " loads of ";
    return all + " in " + count + word + wording.text(each.get());
  }

  private static Optional<Figure> figure(CrewDay.Stop stop, String name) {
    return stop.figures().stream().filter(f -> f.name().equals(name)).findFirst();
  }

  private void equipment() {
    page.leaf("h3", "Machines and people");
    page.open("p", "class", "machine");
    totals.equipment().forEach(e -> tick(Wording.words(e)));
    if (day.trucks() > 0) {
      tick(day.trucks() + (day.trucks() == 1 ? " haul truck" : " haul trucks"));
    }
    needs.of(DayNeeds.Kind.PERSON).forEach(n -> tick(n.atOneStop() + " " + n.what()));
    page.close();
  }

  private void tick(String what) {
    page.open("span", "class", "whole").leaf("span", "\u00a0", "class", "tick");
    page.text("\u00a0" + what).close().text("   ");
  }

  private void needs(String title, DayNeeds.Kind kind) {
    page.leaf("h3", title);
    page.open("table", "class", "needs").open("tbody");
    for (DayNeeds.Need need : needs.of(kind)) {
      page.open("tr").leaf("td", String.valueOf(need.atOneStop()), "class", "count");
      page.leaf("td", need.text());
      page.leaf("td", need.overTheDay() + " in all", "class", "num").close();
    }
    page.close().close();
  }
}
