package lanemend.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.exchange.MilepostText;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.Candidate;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.RoadPoint;
import lanemend.network.Route;
import lanemend.network.SnapHint;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code locate}: a milepost's point, or the roads a point may be on. */
@Command(
    name = "locate",
    description = {
      "Find a milepost's place, or every road a point may be on.",
      "  locate --route \"SR 7\" --milepost 12.4",
      "  locate --at -101.25,39.5 --heading 270"
    })
final class LocateCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private DayOption day;

  @Option(names = "--route", paramLabel = "NAME", description = "route; beside --at only a hint")
  private String route;

  @Option(
      names = "--milepost",
      paramLabel = "MILES",
      description = "such as 12.4, or '12.4 back' and '12.4 ahead' where the number occurs twice")
  private String milepost;

  @Mixin private AtOption at;

  @Option(
      names = "--heading",
      paramLabel = "DEG",
      description = "compass heading driven, to tell roadways apart")
  private Double heading;

  @Override
  public Integer call() {
    boolean byMilepost = route != null && milepost != null && !at.given();
    if (!byMilepost && !at.given()) {
      throw new Refusal("give --route and --milepost, or --at LON,LAT");
    }
    try (Store store = work.open()) {
      County county = day.county(store);
      PrintWriter out = spec.commandLine().getOut();
      return byMilepost ? milepost(county, out) : point(county, out);
    }
  }

  private int milepost(County county, PrintWriter out) {
    Milepost wanted =
        MilepostText.parse(milepost)
            .orElseThrow(() -> new Refusal("'" + milepost + "' is not a milepost such as 12.4"));
    List<Route> named = named(county);
    List<Place> places = new ArrayList<>();
    String missing = "";
    for (Route r : named) {
      MilepostLookup found = r.mileposts().find(wanted);
      if (found instanceof MilepostLookup.Found f) {
        places.add(new Place(r, "", f.alongM()));
      } else if (found instanceof MilepostLookup.Ambiguous several) {
        several.choices().forEach(c -> places.add(new Place(r, c.milepost().text(), c.alongM())));
      } else {
        missing = missing.isEmpty() ? ((MilepostLookup.Missing) found).why() : missing;
      }
    }
    if (places.isEmpty()) {
      throw new Refusal(missing);
    }
    if (places.size() == 1) {
      say(county, new Candidate(onRoad(county, places.get(0)), 0, 1), out);
      return ExitCode.DONE;
    }
    out.println("milepost " + milepost + " occurs more than once on " + route + ":");
    for (Place p : places) {
      List<String> write = new ArrayList<>();
      if (named.size() > 1) {
        write.add("--route '" + p.route().id() + "'");
      }
      if (!p.milepost().isEmpty()) {
        write.add("'" + p.milepost() + "'");
      }
      out.println("  write " + String.join(" and ", write) + " for");
      say(county, new Candidate(onRoad(county, p), 0, 1), out);
    }
    return ExitCode.TROUBLE_FOUND;
  }

  /** A place a milepost may mean; its milepost is empty where the number tells it. */
  private record Place(Route route, String milepost, double alongM) {}

  /** The route with this id, else every roadway of the road with this name. */
  private List<Route> named(County county) {
    Optional<Route> one = county.network().route(route);
    List<Route> named = one.map(List::of).orElseGet(() -> county.network().named(route));
    if (named.isEmpty()) {
      named =
          county.network().routes().values().stream()
              .filter(r -> r.id().equalsIgnoreCase(route))
              .toList();
    }
    if (named.isEmpty()) {
      throw new Refusal("there is no route '" + route + "'");
    }
    return named;
  }

  private static RoadPoint onRoad(County county, Place place) {
    return county
        .locator()
        .pointAt(place.route().id(), place.alongM(), 0)
        .orElseThrow(
            () -> new Refusal("there is no road there: it lies in a gap of " + place.route().id()));
  }

  private int point(County county, PrintWriter out) {
    double[] xy = at.in(county.crs());
    SnapHint hint =
        new SnapHint(
            heading == null ? OptionalDouble.empty() : OptionalDouble.of(heading),
            Optional.ofNullable(route),
            SnapHint.NONE.accuracyM());
    List<Candidate> candidates = county.locator().candidates(xy[0], xy[1], AtOption.REACH_M, hint);
    if (candidates.isEmpty()) {
      throw new Refusal("no road lies within " + length(county, AtOption.REACH_M) + " of " + at);
    }
    candidates.forEach(c -> say(county, c, out));
    return ExitCode.DONE;
  }

  private static void say(County county, Candidate c, PrintWriter out) {
    RoadPoint p = c.place();
    double[] lonLat = county.crs().unproject(p.x(), p.y());
    boolean calibrated = county.network().routes().get(p.routeId()).mileposts().calibrated();
    out.printf(
        Locale.ROOT,
        "%s milepost %s%s, %s along, %.7f,%.7f%s%n",
        p.routeId(),
        p.milepost().text(),
        calibrated ? "" : " (uncalibrated)",
        county.units().show(p.alongM(), Unit.METER).text(),
        lonLat[0],
        lonLat[1],
        c.distanceM() == 0
            ? ""
            : String.format(
                Locale.ROOT,
                ", %s to the %s, belief %.0f %%",
                length(county, c.distanceM()),
                p.offsetM() < 0 ? "left" : "right",
                100 * c.confidence()));
  }

  private static String length(County county, double meters) {
    UnitSystem units = county.units();
    return units.show(meters, Unit.METER).text();
  }
}
