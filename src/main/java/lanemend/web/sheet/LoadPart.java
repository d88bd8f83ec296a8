package lanemend.web.sheet;

import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.crewdays.CrewDay;
import lanemend.measure.Unit;
import lanemend.patching.Equipment;

/** The 'before you leave' box: mix by load, tack, machines, signs and devices, cautions. */
final class LoadPart {
  private final Xhtml page;
  private final CrewDay day;
  private final SheetContext context;
  private final Wording wording;
  private final DayTotals totals;

  LoadPart(Xhtml page, CrewDay day, SheetContext context) {
    this.page = page;
    this.day = day;
    this.context = context;
    this.wording = Wording.of(context);
    this.totals = DayTotals.of(day);
  }

  void write() {
    page.open("div", "class", "box");
    page.leaf("h2", "Before you leave");
    page.open("table", "class", "columns").open("tr");
    page.open("td", "class", "first");
    materials();
    equipment();
    page.close().open("td");
    needs("Devices to load", totals.devices());
    page.close().open("td");
    needs("Signs to load", totals.signs());
    page.close().close().close();
    cautions();
    page.close();
  }

  private void materials() {
    page.leaf("h3", "Materials");
    page.open("ul", "class", "check");
    double payload = context.agency().plan().truckPayloadTonnes();
    if (day.tonnes() > 0) {
      page.leaf("li", "Mix, " + wording.text(day.tonnes(), Unit.TONNE) + " in all");
      int number = 0;
      for (CrewDay.Stop stop : day.stops()) {
        number++;
        if (stop.zone().tonnes() > 0) {
          page.leaf(
              "li",
              "for stop " + number + ": " + loads(stop.zone().tonnes(), payload),
              "class",
              "sub");
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

  /** {@code 2 loads of 14.0 tons and 1 of 3.2 tons}. */
  private String loads(double tonnes, double payload) {
    int full = (int) Math.floor(tonnes / payload + 1e-9);
    double rest = tonnes - full * payload;
    String last = wording.text(rest, Unit.TONNE);
    if (full == 0) {
      return "1 load of " + last;
    }
    String whole =
        full + (full == 1 ? " load of " : " loads of ") + wording.text(payload, Unit.TONNE);
    return rest < 0.005 ? whole : whole + " and 1 of " + last;
  }

  private void equipment() {
    page.leaf("h3", "Machines");
    page.open("ul", "class", "check");
    Set<Equipment> machines = totals.equipment();
    machines.forEach(e -> page.leaf("li", Wording.capital(Wording.words(e))));
    if (day.trucks() > 0) {
      page.leaf("li", "Haul trucks: " + day.trucks());
    }
    if (totals.flaggers() > 0) {
      page.leaf("li", "Flaggers: " + totals.flaggers());
    }
    page.close();
  }

  private void needs(String title, Map<String, DayTotals.Need> needs) {
    page.leaf("h3", title);
    page.open("table", "class", "needs").open("tbody");
    needs.forEach(
        (name, need) -> {
          page.open("tr").leaf("td", String.valueOf(need.atOneStop()), "class", "count");
          page.leaf("td", name).close();
        });
    page.close().close();
    int sum = needs.values().stream().mapToInt(DayTotals.Need::overTheDay).sum();
    page.leaf(
        "p",
        "Most at any one stop; moved from stop to stop, " + sum + " are set out over the day.",
        "class",
        "fine");
  }

  private void cautions() {
    List<String> all = List.copyOf(DayTotals.allDayCautions(day));
    if (!all.isEmpty()) {
      page.leaf("h3", day.stops().size() == 1 ? "Cautions" : "Cautions at every stop");
      page.open("ul", "class", "cautions");
      all.forEach(c -> page.leaf("li", c));
      page.close();
    }
  }
}
