package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.Plant;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.Yard;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.CenterlinePart;
import lanemend.network.Connector;
import lanemend.network.HaulPlace;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.web.page.Drawing;
import lanemend.web.page.LabelRoom;
import lanemend.web.page.Xhtml;

/** The day's map: yard, plant, numbered zones, the roads between and around them. */
final class RoadMap {
  static final double WIDTH = 534;
  private static final double LOWEST = 220;
  private static final double HIGHEST = 300;

  /** Past this many vertices the smallest roads are left out: they would only grey the paper. */
  private static final int VERTEX_BUDGET = 12_000;

  private static final double LABEL = 8;

  private final Drawing drawing;
  private final SheetContext context;
  private final CrewDay day;
  private final MapView view;
  private final LabelRoom room;
  private final Set<String> dayRoutes = new HashSet<>();

  private RoadMap(Xhtml page, CrewDay day, SheetContext context) {
    this.context = context;
    this.day = day;
    this.view = MapView.around(places(day, context), WIDTH, LOWEST, HIGHEST);
    this.room = new LabelRoom(view.width(), view.height());
    this.drawing =
        new Drawing(page, view.width(), view.height(), "Map of the day's roads and work zones");
    day.stops().forEach(s -> dayRoutes.add(s.zone().routeId()));
  }

  static void draw(Xhtml page, CrewDay day, SheetContext context) {
    RoadMap map = new RoadMap(page, day, context);
    map.drawing.clip("map-frame", 0, 0, map.view.width(), map.view.height());
    map.drawHaul();
    map.drawConnectorsAndRoutes();
    map.drawDrive();
    map.drawZones();
    map.drawYardAndPlant();
    map.drawNorthAndScale();
    map.drawStopNumbers();
    map.drawRouteNames();
    map.drawing.endClip();
    map.drawing.rect(0.5, 0.5, map.view.width() - 1, map.view.height() - 1, "none", 0.8);
    map.drawing.end();
  }

  static Optional<Yard> yard(CrewDay day, SheetContext context) {
    return context.agency().yards().stream()
        .filter(y -> y.id().equals(day.crew().yardId()))
        .findFirst();
  }

  static Optional<Plant> plant(CrewDay day, SheetContext context) {
    return context.agency().plants().stream().filter(p -> p.id().equals(day.plantId())).findFirst();
  }

  private static List<double[]> places(CrewDay day, SheetContext context) {
    List<double[]> places = new ArrayList<>();
    yard(day, context).ifPresent(y -> places.add(new double[] {y.x(), y.y()}));
    plant(day, context).ifPresent(p -> places.add(new double[] {p.x(), p.y()}));
    for (CrewDay.Stop stop : day.stops()) {
      WorkZone zone = stop.zone();
      places.add(new double[] {zone.x(), zone.y()});
      for (double[][] line :
          context.locator().shape(zone.routeId(), zone.fromAlongM(), zone.toAlongM())) {
        places.addAll(List.of(line));
      }
    }
    return places;
  }

  private void drawConnectorsAndRoutes() {
    List<List<double[]>> small = new ArrayList<>();
    for (Connector connector : context.network().connectors()) {
      small.addAll(view.visible(connector.line()));
    }
    List<Route> byClass =
        context.network().routes().values().stream()
            .sorted(Comparator.comparing(Route::roadClass).reversed())
            .toList();
    for (Route route : byClass) {
      if (route.roadClass() == RoadClass.LOCAL) {
        small.addAll(visible(route));
      }
    }
    if (small.stream().mapToInt(List::size).sum() <= VERTEX_BUDGET) {
      small.forEach(line -> drawing.polyline(line, Drawing.LIGHT, 0.6, ""));
    }
    for (Route route : byClass) {
      boolean worked = dayRoutes.contains(route.id());
      double width =
          switch (route.roadClass()) {
            case FREEWAY -> 2.0;
            case ARTERIAL -> 1.4;
            case COLLECTOR -> 1.0;
            case LOCAL -> 0.6;
          };
      if (worked || route.roadClass() != RoadClass.LOCAL) {
        String color = worked ? Drawing.DARK : Drawing.LIGHT;
        visible(route).forEach(line -> drawing.polyline(line, color, worked ? 1.1 : width, ""));
      }
    }
  }

  private List<List<double[]>> visible(Route route) {
    List<List<double[]>> runs = new ArrayList<>();
    for (CenterlinePart part : route.parts()) {
      runs.addAll(view.visible(part));
    }
    return runs;
  }

  /** A broad grey band where trucks haul, below the roads. */
  private void drawHaul() {
    plant(day, context)
        .map(p -> HaulPlace.near(p.name(), p.x(), p.y()))
        .ifPresent(
            plant ->
                day.stops().stream()
                    .map(CrewDay.Stop::zone)
                    .filter(z -> z.tonnes() > 0)
                    .forEach(z -> haulBand(plant, place(z))));
  }

  private void haulBand(HaulPlace plant, HaulPlace zone) {
    List<double[]> path = context.haul().path(plant, zone);
    if (path.size() > 1) {
      drawing.polyline(view.line(path), Drawing.LIGHT, 6, "");
    }
  }

  /** A double line where the crew drives: unlike dashes it reads the same driven twice. */
  private void drawDrive() {
    List<HaulPlace> places = new ArrayList<>();
    Optional<HaulPlace> yard = yard(day, context).map(y -> HaulPlace.near(y.name(), y.x(), y.y()));
    yard.ifPresent(places::add);
    day.stops().forEach(s -> places.add(place(s.zone())));
    yard.ifPresent(places::add);
    List<List<double[]>> ways = new ArrayList<>();
    for (int i = 1; i < places.size(); i++) {
      ways.add(view.line(context.haul().path(places.get(i - 1), places.get(i))));
    }
    ways.removeIf(way -> way.size() < 2);
    ways.forEach(way -> drawing.polyline(way, Drawing.BLACK, 3.4, ""));
    ways.forEach(way -> drawing.polyline(way, Drawing.WHITE, 1.6, ""));
  }

  private static HaulPlace place(WorkZone zone) {
    return HaulPlace.on(zone.id(), zone.routeId(), (zone.fromAlongM() + zone.toAlongM()) / 2);
  }

  private void drawZones() {
    for (CrewDay.Stop stop : day.stops()) {
      WorkZone zone = stop.zone();
      for (double[][] line :
          context.locator().shape(zone.routeId(), zone.fromAlongM(), zone.toAlongM())) {
        drawing.polyline(view.line(List.of(line)), Drawing.BLACK, 4.5, "");
      }
    }
  }

  private void drawYardAndPlant() {
    yard(day, context)
        .ifPresent(
            yard -> {
              double[] p = view.toPaper(yard.x(), yard.y());
              drawing.rect(p[0] - 5, p[1] - 5, 10, 10, Drawing.BLACK, 1);
              room.take(new double[] {p[0] - 6, p[1] - 6, p[0] + 6, p[1] + 6});
              name("Yard: " + yard.name(), p);
            });
    plant(day, context)
        .ifPresent(
            plant -> {
              double[] p = view.toPaper(plant.x(), plant.y());
              drawing.polygon(
                  List.of(
                      new double[] {p[0], p[1] - 7},
                      new double[] {p[0] + 7, p[1] + 5},
                      new double[] {p[0] - 7, p[1] + 5}),
                  Drawing.BLACK,
                  1);
              room.take(new double[] {p[0] - 8, p[1] - 8, p[0] + 8, p[1] + 6});
              name("Plant: " + plant.name(), p);
            });
  }

  /** Puts a name at the first free place around a symbol. */
  private void name(String text, double[] p) {
    double[][] tries = {{11, 3}, {-11, 3}, {0, -11}, {0, 18}, {11, -9}, {-11, -9}, {11, 15}};
    for (double[] shift : tries) {
      String anchor = shift[0] == 0 ? "middle" : shift[0] > 0 ? "start" : "end";
      double x = p[0] + shift[0];
      double y = p[1] + shift[1];
      if (room.tryTake(Drawing.textBox(x, y, LABEL + 0.5, anchor, text))) {
        drawing.labelOnWhite(x, y, LABEL + 0.5, anchor, Drawing.BLACK, text);
        return;
      }
    }
    drawing.labelOnWhite(p[0] + 11, p[1] + 3, LABEL + 0.5, "start", Drawing.BLACK, text);
  }

  /** A number beside each zone, tied to it by a line, never over another number. */
  private void drawStopNumbers() {
    int number = 0;
    for (CrewDay.Stop stop : day.stops()) {
      number++;
      double[] p = view.toPaper(stop.zone().x(), stop.zone().y());
      double[] best = {p[0] + 16, p[1] - 16};
      search:
      for (double reach = 17; reach < 70; reach += 9) {
        for (int k = 0; k < 12; k++) {
          double angle = Math.toRadians(-60 + k * 30.0);
          double x = p[0] + reach * Math.cos(angle);
          double y = p[1] + reach * Math.sin(angle);
          if (room.tryTake(new double[] {x - 10, y - 10, x + 10, y + 10})) {
            best = new double[] {x, y};
            break search;
          }
        }
      }
      room.take(new double[] {p[0] - 3, p[1] - 3, p[0] + 3, p[1] + 3});
      drawing.line(p[0], p[1], best[0], best[1], Drawing.BLACK, 0.8);
      drawing.circle(p[0], p[1], 3, Drawing.BLACK, 0.5);
      drawing.circle(best[0], best[1], 9, Drawing.WHITE, 1.4);
      drawing.label(best[0], best[1] + 4, 11.5, "middle", Drawing.BLACK, String.valueOf(number));
    }
  }

  /** The day's routes first, then the larger roads, each once where its longest run has room. */
  private void drawRouteNames() {
    List<Route> order =
        context.network().routes().values().stream()
            .sorted(
                Comparator.comparing((Route r) -> !dayRoutes.contains(r.id()))
                    .thenComparing(Route::roadClass))
            .toList();
    Set<String> named = new HashSet<>();
    for (Route route : order) {
      if (named.contains(route.name())) {
        continue;
      }
      boolean worked = dayRoutes.contains(route.id());
      for (double[] p : namePlaces(visible(route))) {
        double[] box = Drawing.textBox(p[0], p[1] + 3, LABEL, "middle", route.name());
        if (room.tryTake(box)) {
          drawing.labelOnWhite(
              p[0], p[1] + 3, LABEL, "middle", worked ? Drawing.BLACK : Drawing.DARK, route.name());
          named.add(route.name());
          break;
        }
      }
    }
  }

  /** Points along the longest visible run, its middle first; none on a run too short to name. */
  private List<double[]> namePlaces(List<List<double[]>> runs) {
    List<double[]> places = new ArrayList<>();
    List<double[]> longest =
        runs.stream().max(Comparator.comparingDouble(RoadMap::length)).orElse(List.of());
    double total = length(longest);
    if (total < 40) {
      return places;
    }
    for (double share : new double[] {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88}) {
      double left = total * share;
      for (int i = 1; i < longest.size(); i++) {
        double[] a = longest.get(i - 1);
        double[] b = longest.get(i);
        double step = Math.hypot(b[0] - a[0], b[1] - a[1]);
        if (left <= step) {
          double t = step == 0 ? 0 : left / step;
          places.add(new double[] {a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])});
          break;
        }
        left -= step;
      }
    }
    return places;
  }

  private static double length(List<double[]> line) {
    double sum = 0;
    for (int i = 1; i < line.size(); i++) {
      sum += Math.hypot(line.get(i)[0] - line.get(i - 1)[0], line.get(i)[1] - line.get(i - 1)[1]);
    }
    return sum;
  }

  private void drawNorthAndScale() {
    double x = view.width() - 18;
    drawing.rect(x - 13, 5, 26, 40, Drawing.WHITE, 0);
    drawing.polygon(
        List.of(new double[] {x, 18}, new double[] {x + 6, 42}, new double[] {x, 36}),
        Drawing.BLACK,
        0.8);
    drawing.polygon(
        List.of(new double[] {x, 18}, new double[] {x - 6, 42}, new double[] {x, 36}),
        Drawing.WHITE,
        0.8);
    drawing.label(x, 15, 10, "middle", Drawing.BLACK, "N");
    room.take(new double[] {x - 13, 4, x + 13, 46});

    boolean us = context.agency().units() == UnitSystem.US_CUSTOMARY;
    double unitM = us ? Conversion.M_PER_MILE : 1000;
    double round = roundBelow(130 / view.pointsPerM() / unitM);
    double bar = round * unitM * view.pointsPerM();
    double y = view.height() - 10;
    drawing.rect(6, y - 18, bar + 22, 26, Drawing.WHITE, 0);
    drawing.rect(12, y - 4, bar / 2, 4, Drawing.BLACK, 0.8);
    drawing.rect(12 + bar / 2, y - 4, bar / 2, 4, Drawing.WHITE, 0.8);
    drawing.label(12, y - 7, LABEL, "start", Drawing.BLACK, "0");
    String end = plain(round) + (us ? " mi" : " km");
    drawing.label(12 + bar, y - 7, LABEL, "end", Drawing.BLACK, end);
    room.take(new double[] {4, y - 20, bar + 30, view.height()});
  }

  /** The largest of 1, 2 or 5 times a power of ten that is not above the value. */
  static double roundBelow(double value) {
    double power = Math.pow(10, Math.floor(Math.log10(value)));
    double lead = value / power;
    return (lead >= 5 ? 5 : lead >= 2 ? 2 : 1) * power;
  }

  private static String plain(double value) {
    return new java.math.BigDecimal(value)
        .round(new java.math.MathContext(1))
        .stripTrailingZeros()
        .toPlainString();
  }
}
