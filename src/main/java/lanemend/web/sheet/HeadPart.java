package lanemend.web.sheet;

import java.time.Duration;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayFigureName;
import lanemend.crewdays.Forecast;
import lanemend.crewdays.Plant;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.Yard;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.patching.FigureName;
import lanemend.patching.Treatment;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** Top of the sheet: whose day it is, its limits, and its run from yard to yard. */
final class HeadPart {
  private static final Set<Treatment> DRY_WORK =
      Set.of(
          Treatment.HAND_PATCH,
          Treatment.BLADE_PATCH,
          Treatment.DIG_OUT_AND_REBUILD,
          Treatment.EDGE_REPAIR);

  private final Xhtml page;
  private final CrewDay day;
  private final SheetContext context;
  private final Wording wording;
  private final Whereabouts where;

  HeadPart(Xhtml page, CrewDay day, SheetContext context) {
    this.page = page;
    this.day = day;
    this.context = context;
    this.wording = Wording.of(context.agency());
    this.where = Whereabouts.of(context);
  }

  void write() {
    page.open("table", "class", "head").open("tr");
    page.open("td").leaf("div", context.agency().name(), "class", "agency");
    page.leaf("h1", day.crew().name()).close();
    page.open("td", "class", "right").leaf("div", "Crew sheet", "class", "agency");
    page.leaf("div", Wording.longDate(day.date()), "class", "date").close();
    page.close().close();
    facts();
    weather();
    runOfDay();
  }

  private void facts() {
    page.open("table", "class", "facts").open("tr");
    fact("Leave yard", wording.time(day.leaveYard()));
    fact("Back at yard", wording.time(day.backAtYard()));
    LocalTime end = day.crew().shiftStart().plusMinutes(day.crew().shiftMinutes());
    fact("Shift", wording.time(day.crew().shiftStart()) + " to " + wording.time(end));
    fact("Drive, yard to yard", wording.text(day.driveKm() * 1000, Unit.ROAD_METER));
    fact("Chance, back inside the shift", inTime(day, wording));
    page.close().open("tr");
    fact("Yard", RoadMap.yard(day, context).map(Yard::name).orElse(day.crew().yardId()));
    fact("Plant", RoadMap.plant(day, context).map(this::plant).orElse("no mix needed"));
    fact("Mix to order", wording.text(day.tonnes(), Unit.TONNE));
    fact(
        "Haul trucks",
        day.trucks() == 0
            ? "none"
            : day.trucks()
                + " of "
                + wording.text(context.agency().plan().truckPayloadTonnes(), Unit.TONNE));
    fact("Chance asked for", asked());
    page.close().close();
  }

  private String asked() {
    double asked = context.agency().plan().finish().probability();
    return asked > 0 ? wording.text(100 * asked, Unit.PERCENT) : "none";
  }

  /** The chance of being back inside the shift, or a dash. */
  static String inTime(CrewDay day, Wording wording) {
    return day.finishProbability().isPresent()
        ? wording.text(100 * day.finishProbability().getAsDouble(), Unit.PERCENT)
        : "-";
  }

  private String plant(Plant plant) {
    if (plant.isStockpile()) {
      return plant.name() + ", stockpile";
    }
    return plant.name()
        + ", open "
        + wording.time(plant.opens())
        + " to "
        + wording.time(plant.closes());
  }

  private void fact(String name, String value) {
    page.open("td").leaf("div", name, "class", "name").leaf("div", value, "class", "value");
    page.close();
  }

  private void weather() {
    Map<String, Figure> least = leastTemperatures();
    List<String> limits = new ArrayList<>();
    least.forEach((what, f) -> limits.add(what + " below " + wording.text(f)));
    boolean lays =
        day.stops().stream()
            .flatMap(s -> s.zone().treatments().stream())
            .anyMatch(DRY_WORK::contains);
    String text =
        (lays
                ? "Mix and tack go on a clean, dry surface only: not in rain, not on standing water"
                    + " or frost."
                : "Sealant and seals go on a clean, dry surface only: not in rain, not on frost.")
            + (limits.isEmpty() ? "" : " Air and surface: no " + String.join(", no ", limits) + ".")
            + told(least)
            + " The mix supplier, the maker and the agency's specification go first.";
    String window =
        RoadMap.plant(day, context)
            .filter(p -> day.tonnes() > 0 && !p.isStockpile())
            .map(
                p ->
                    " Lay each load within "
                        + wording.text(window(p), Unit.MINUTE)
                        + " of loading.")
            .orElse("");
    page.open("p", "class", "weather").leaf("b", "Weather limits. ").text(text + window).close();
  }

  /** The warmest limit of each thing laid today, in the order first met. */
  private Map<String, Figure> leastTemperatures() {
    Map<String, Figure> least = new LinkedHashMap<>();
    day.stops().stream()
        .flatMap(s -> s.zone().repairs().stream())
        .flatMap(r -> r.figures().stream())
        .filter(f -> f.name().startsWith(FigureName.LEAST_TEMPERATURE))
        .forEach(
            f ->
                least.merge(
                    f.name().substring(FigureName.LEAST_TEMPERATURE.length()),
                    f,
                    (a, b) -> a.value() >= b.value() ? a : b));
    return least;
  }

  /** What is forecast for the day, and which limit it stays below. */
  private String told(Map<String, Figure> least) {
    Optional<Forecast.Day> told = context.agency().forecast().on(day.date());
    if (told.isEmpty()) {
      return "";
    }
    Forecast.Day sky = told.get();
    String text =
        " Forecast: "
            + wording.text(sky.minC(), Unit.DEGREE_CELSIUS)
            + " to "
            + wording.text(sky.maxC(), Unit.DEGREE_CELSIUS)
            + ", "
            + Math.round(100 * sky.rainChance())
            + " % chance of rain.";
    List<String> tooCold =
        least.entrySet().stream()
            .filter(e -> sky.maxC() < e.getValue().value())
            .map(Map.Entry::getKey)
            .toList();
    return tooCold.isEmpty()
        ? text
        : text + " Too cold for " + String.join(", ", tooCold) + ": ask before you load.";
  }

  /** The supplier's window, shortened where the day is cold or windy. */
  private double window(Plant plant) {
    return day.figures().stream()
        .filter(f -> f.name().equals(DayFigureName.MIX_WINDOW))
        .mapToDouble(Figure::value)
        .findFirst()
        .orElse(plant.mixWindowMinutes());
  }

  private void runOfDay() {
    page.leaf("h2", "Run of the day");
    page.open("table", "class", "grid run").open("thead").open("tr");
    page.cells("th", "Time", "Stop", "Where", "Drive", "Mix", "First load leaves plant");
    page.close().close().open("tbody");
    page.open("tr").leaf("td", wording.time(day.leaveYard())).leaf("td", "");
    page.leaf("td", "Leave the yard", "colspan", "4").close();
    List<CrewDay.Stop> stops = day.stops();
    for (int i = 0; i < stops.size(); i++) {
      CrewDay.Stop stop = stops.get(i);
      WorkZone zone = stop.zone();
      page.open("tr");
      page.leaf("td", wording.time(stop.arrive()) + " to " + wording.time(stop.depart()));
      page.open("td").leaf("span", String.valueOf(i + 1), "class", "stop").close();
      page.leaf(
          "td",
          where.route(zone.routeId()).id()
              + ", milepost "
              + where.mileposts(zone.routeId(), zone.fromAlongM(), zone.toAlongM()));
      page.leaf("td", wording.text(stop.driveMinutes(), Unit.MINUTE));
      page.leaf("td", zone.tonnes() > 0 ? wording.text(zone.tonnes(), Unit.TONNE) : "none");
      page.leaf(
          "td",
          stop.firstLoadLeavesPlant() == null ? "-" : wording.time(stop.firstLoadLeavesPlant()));
      page.close();
    }
    page.open("tr").leaf("td", wording.time(day.backAtYard())).leaf("td", "");
    page.leaf("td", "Back at the yard, " + hours() + " after leaving", "colspan", "4").close();
    page.close().close();
  }

  private String hours() {
    return wording.text(hours(day), Unit.HOUR);
  }

  /** Hours from leaving the yard to being back. */
  static double hours(CrewDay day) {
    return Duration.between(day.leaveYard(), day.backAtYard()).toMinutes() / 60.0;
  }
}
