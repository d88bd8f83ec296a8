package lanemend.web.desk;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import lanemend.county.County;
import lanemend.exchange.MilepostText;
import lanemend.inventory.Defect;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.measure.Unit;
import lanemend.network.CalibrationPost;
import lanemend.network.Candidate;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.Route;
import lanemend.network.SnapHint;

/** Where things are: routes, mileposts, points; and a route with all that lies along it. */
final class RoadRoutes implements Area {
  /** As far from a click as a road is looked for. */
  private static final double REACH_M = 60;

  private final CurrentCounty county;
  private final Filters filters;

  RoadRoutes(CurrentCounty county, Filters filters) {
    this.county = county;
    this.filters = filters;
  }

  /**
   * One place on a road.
   *
   * @param milepost as to be written to lead back here
   * @param along from the start of the road, as the agency reads it
   * @param distance from the point asked for, as the agency reads it
   * @param belief 0 to 1
   */
  record Spot(
      String route,
      String milepost,
      boolean calibrated,
      double alongM,
      String along,
      double lon,
      double lat,
      double distanceM,
      String distance,
      String side,
      double belief) {}

  /** What was found: one place, several to choose from, or none with the reason. */
  record Found(List<Spot> spots, String said) {}

  /** A road's line: degrees and along, one list for each unbroken part. */
  record RoadLine(
      String id,
      String name,
      String direction,
      String roadClass,
      double lengthM,
      boolean calibrated,
      double[] bounds,
      List<Part> parts,
      List<Post> posts) {}

  /** An unbroken part, by columns. */
  record Part(double[] lon, double[] lat, double[] along) {}

  /** A post: the milepost before it and after it, which differ at an equation. */
  record Post(double alongM, double back, double ahead) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/locate", c -> c.json(byName(c)));
    api.get("/api/nearest", c -> c.json(byPoint(c)));
    api.get("/api/routes/{route}", c -> c.json(line(route(c))));
    api.get("/api/routes/{route}/strip", this::strip);
    api.get("/api/measure", c -> c.json(measure(c)));
  }

  private Route route(Context c) {
    String id = c.pathParam("route");
    return county
        .get()
        .network()
        .route(id)
        .orElseThrow(() -> new Problem(Problem.Kind.NOT_FOUND, "there is no route '" + id + "'"));
  }

  private RoadLine line(Route route) {
    MapIndex index = county.index();
    List<RoadLines.Line> lines = index.roads().of(route.id());
    List<Part> parts = new ArrayList<>();
    for (RoadLines.Line line : lines) {
      int n = line.x().length;
      double[] lon = new double[n];
      double[] lat = new double[n];
      double[] along = new double[n];
      for (int i = 0; i < n; i++) {
        lon[i] = DeskNumbers.degrees(Mercator.lon(line.x()[i]));
        lat[i] = DeskNumbers.degrees(Mercator.lat(line.y()[i]));
        along[i] = DeskNumbers.centimetres(line.along()[i]);
      }
      parts.add(new Part(lon, lat, along));
    }
    List<Post> posts =
        route.mileposts().posts().stream()
            .map((CalibrationPost p) -> new Post(p.alongM(), p.backMiles(), p.aheadMiles()))
            .toList();
    return new RoadLine(
        route.id(),
        route.name(),
        route.direction(),
        DeskWords.code(route.roadClass()),
        route.lengthM(),
        route.mileposts().calibrated(),
        index.roads().bounds(lines),
        parts,
        posts);
  }

  /** {@code SR 7 12.4}: the longest name of a road that stands first, then a milepost. */
  private Found byName(Context c) {
    String text = Api.wanted(c, "q").strip();
    County now = county.get();
    List<Route> routes = RouteText.routes(text, now.network().routes().values());
    if (routes.isEmpty()) {
      throw new Problem(
              Problem.Kind.BAD_PLACE,
              "'"
                  + text
                  + "' does not begin with a road there is; write a road and a milepost, such"
                  + " as "
                  + RouteText.example(now.network()))
          .with("found", text);
    }
    String rest = text.substring(RouteText.lengthOf(text, routes.get(0))).strip();
    if (rest.isEmpty()) {
      return new Found(
          routes.stream().map(r -> spot(now, r.id(), 0, r.mileposts().at(0))).toList(),
          "begins at");
    }
    String milepost = rest.replaceFirst("(?i)^(mileposts?|mile|mp)\\s+", "");
    Milepost wanted =
        MilepostText.parse(milepost)
            .orElseThrow(
                () ->
                    new Problem(
                            Problem.Kind.BAD_PLACE,
                            "'"
                                + milepost
                                + "' is no milepost; write a number such as 12.4, with 'back' or"
                                + " 'ahead' where it occurs twice")
                        .with("found", milepost));
    List<Spot> spots = new ArrayList<>();
    List<String> why = new ArrayList<>();
    for (Route r : routes) {
      MilepostLookup found = r.mileposts().find(wanted);
      if (found instanceof MilepostLookup.Found f) {
        spots.add(spot(now, r.id(), f.alongM(), r.mileposts().at(f.alongM())));
      } else if (found instanceof MilepostLookup.Ambiguous several) {
        several.choices().forEach(x -> spots.add(spot(now, r.id(), x.alongM(), x.milepost())));
      } else if (found instanceof MilepostLookup.Missing missing) {
        why.add(missing.why());
      }
    }
    if (spots.isEmpty()) {
      throw new Problem(Problem.Kind.BAD_PLACE, String.join("; ", why)).with("found", milepost);
    }
    return new Found(spots, spots.size() == 1 ? "found" : "occurs more than once");
  }

  private static Spot spot(County now, String routeId, double alongM, Milepost milepost) {
    double[] lonLat =
        now.locator()
            .pointAt(routeId, alongM, 0)
            .map(p -> now.crs().unproject(p.x(), p.y()))
            .orElseThrow(
                () ->
                    new Problem(
                        Problem.Kind.BAD_PLACE,
                        "milepost " + milepost.text() + " lies in a gap of " + routeId));
    return new Spot(
        routeId,
        milepost.text(),
        now.network().routes().get(routeId).mileposts().calibrated(),
        alongM,
        now.units().show(alongM, Unit.ROAD_METER).text(),
        DeskNumbers.degrees(lonLat[0]),
        DeskNumbers.degrees(lonLat[1]),
        0,
        "",
        "",
        1);
  }

  private Found byPoint(Context c) {
    County now = county.get();
    double lon = Api.number(c, "lon");
    double lat = Api.number(c, "lat");
    double reach = Math.min(2_000, Api.whole(c, "within", (int) REACH_M, 1, 2_000));
    double[] xy = project(now, lon, lat);
    SnapHint hint =
        new SnapHint(
            c.queryParam("heading") == null
                ? OptionalDouble.empty()
                : OptionalDouble.of(Api.number(c, "heading")),
            Optional.ofNullable(c.queryParam("route")),
            SnapHint.NONE.accuracyM());
    List<Spot> spots = new ArrayList<>();
    for (Candidate k : now.locator().candidates(xy[0], xy[1], reach, hint)) {
      String routeId = k.place().routeId();
      Spot on = spot(now, routeId, k.place().alongM(), k.place().milepost());
      spots.add(
          new Spot(
              on.route(),
              on.milepost(),
              on.calibrated(),
              on.alongM(),
              on.along(),
              on.lon(),
              on.lat(),
              k.distanceM(),
              now.units().show(k.distanceM(), Unit.METER).text(),
              k.place().offsetM() < 0 ? "left" : "right",
              k.confidence()));
    }
    String said =
        spots.isEmpty()
            ? "no road lies within " + now.units().show(reach, Unit.METER).text()
            : spots.size() == 1 ? "found" : "more than one road is near";
    return new Found(spots, said);
  }

  private static double[] project(County now, double lon, double lat) {
    try {
      return now.crs().project(lon, lat);
    } catch (IllegalArgumentException e) {
      throw new Problem(Problem.Kind.BAD_PLACE, e.getMessage());
    }
  }

  /** A length along a road, in the agency's reading. */
  record Length(String route, double metres, String length, String from, String to) {}

  private Length measure(Context c) {
    County now = county.get();
    String id = Api.wanted(c, "route");
    Route route =
        now.network()
            .route(id)
            .orElseThrow(
                () -> new Problem(Problem.Kind.NOT_FOUND, "there is no route '" + id + "'"));
    double from = onRoute(route, "from", Api.number(c, "from"));
    double to = onRoute(route, "to", Api.number(c, "to"));
    double metres = Math.abs(to - from);
    return new Length(
        id,
        metres,
        now.units().show(metres, Unit.ROAD_METER).text()
            + " ("
            + now.units().show(metres, Unit.METER).text()
            + ")",
        route.mileposts().at(from).text(),
        route.mileposts().at(to).text());
  }

  private static double onRoute(Route route, String name, double alongM) {
    if (alongM < -0.01 || alongM > route.lengthM() + 0.01) {
      throw new Problem(
          Problem.Kind.BAD_PLACE,
          "'"
              + name
              + "' lies off the ends of "
              + route.id()
              + ", which is "
              + route.lengthM()
              + " m long");
    }
    return Math.max(0, Math.min(route.lengthM(), alongM));
  }

  /** All that lies along a route, by columns where there may be many. */
  record Strip(
      String route,
      double lengthM,
      StripDefects defects,
      double[] patches,
      List<StripStretch> zones,
      List<StripStretch> sections) {}

  /** Defects by columns: from, to, lane, severity (0 to 2). */
  record StripDefects(
      List<String> id,
      List<Double> from,
      List<Double> to,
      List<String> lane,
      List<Integer> severity,
      List<String> kind,
      List<String> status) {}

  /** A zone or section; {@code state} of a section only. */
  record StripStretch(String id, String text, String state, double from, double to) {}

  private void strip(Context c) {
    Route route = route(c);
    MapIndex index = county.index();
    BitSet chosen = filters.chosen(index.county(), c.queryParam("where"));
    StripDefects d =
        new StripDefects(
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>());
    List<Defect> defects = index.county().defects();
    for (int i = 0; i < defects.size(); i++) {
      Defect one = defects.get(i);
      Place place = one.place();
      if (place.routeId().equals(route.id()) && (chosen == null || chosen.get(i))) {
        d.id().add(one.id());
        d.from().add(DeskNumbers.centimetres(place.fromAlongM()));
        d.to().add(DeskNumbers.centimetres(place.toAlongM()));
        d.lane().add(one.lane().code());
        d.severity().add(DeskWords.rank(one.severity()));
        d.kind().add(DeskWords.code(one.kind()));
        d.status().add(DeskWords.code(one.status()));
      }
    }
    double[] patches =
        index.county().patches().stream()
            .map(PastPatch::place)
            .filter(p -> p.routeId().equals(route.id()))
            .mapToDouble(p -> DeskNumbers.centimetres(p.middleAlongM()))
            .toArray();
    c.json(
        new Strip(
            route.id(),
            route.lengthM(),
            d,
            patches,
            on(route, index.zones()),
            on(route, index.sections())));
  }

  private static List<StripStretch> on(Route route, List<MapIndex.Stretch> all) {
    return all.stream()
        .filter(s -> s.routeId().equals(route.id()))
        .map(s -> new StripStretch(s.id(), s.text(), s.state(), s.fromAlongM(), s.toAlongM()))
        .toList();
  }
}
