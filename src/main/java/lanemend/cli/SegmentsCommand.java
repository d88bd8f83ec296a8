package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lanemend.county.County;
import lanemend.exchange.FilterTables;
import lanemend.exchange.Kept;
import lanemend.exchange.SegmentExport;
import lanemend.inventory.EventConflict;
import lanemend.inventory.EventTable;
import lanemend.inventory.LinearEvent;
import lanemend.inventory.LinearEvents;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.Segment;
import lanemend.inventory.Segmentation;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code segments}: what is known of the roads, cut where any of it changes. */
@Command(
    name = "segments",
    description = {
      "Lay what is known of the roads over each other: pieces by route and milepost over which"
          + " nothing changes, and conflicts where one table says two things.",
      "  segments --route \"SR 7\" --of posted_speed_kmh,lanes,surface",
      "  segments --of aadt,patches --where \"aadt > 4000 AND patches IS NULL\"",
      "",
      "Prints the pieces; with --as or --to it writes them. --where chooses among the pieces;"
          + " conflicts are listed all the same and end the command with 1."
    })
final class SegmentsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private DayOption day;

  @Option(
      names = "--route",
      paramLabel = "NAME",
      description = "only this route, or both roadways of a divided road")
  private String route;

  @Option(
      names = "--of",
      paramLabel = "TABLE",
      split = ",",
      description =
          "attributes by name, and 'defects' and 'patches' (default: every attribute known)")
  private List<String> of = new ArrayList<>();

  @Option(
      names = "--where",
      paramLabel = "CQL",
      description = "only pieces this is true of, such as \"lanes = 2 AND length_ft > 500\"")
  private String where;

  @Option(names = "--as", paramLabel = "KIND", description = "csv or geojson")
  private ExportCommand.Kind kind;

  @Option(names = "--to", paramLabel = "FILE", description = "file to write, .csv or .geojson")
  private Path to;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      County county = day.county(store);
      Network roads = chosen(county.network());
      List<EventTable> tables = tables(county, roads);
      Segmentation found = Segmentation.of(roads, tables, events(county, roads, tables));
      List<Segment> pieces = where(county, tables, found.segments());
      PrintWriter out = spec.commandLine().getOut();
      if (kind == null && to == null) {
        pieces.forEach(p -> out.println(line(county, p)));
      } else {
        Path target = target();
        new SegmentExport(county.network(), county.locator(), county.units())
            .write(target, tables, pieces);
        out.printf(Locale.ROOT, "export     %s%n", target);
      }
      return finish(county, pieces, found, out);
    }
  }

  private Path target() {
    return to == null ? work.folderOf("exports").resolve("segments." + kind) : to;
  }

  private Network chosen(Network all) {
    if (route == null) {
      return all;
    }
    List<Route> named = all.route(route).map(List::of).orElseGet(() -> all.named(route));
    if (named.isEmpty()) {
      throw new Refusal("there is no route '" + route + "'");
    }
    Map<String, Route> routes = new LinkedHashMap<>();
    named.forEach(r -> routes.put(r.id(), r));
    return new Network(all.crsWkt(), routes, List.of());
  }

  private List<EventTable> tables(County county, Network roads) {
    Set<String> known =
        county.attributes().stream()
            .filter(a -> roads.route(a.routeId()).isPresent())
            .map(RoadAttribute::name)
            .collect(Collectors.toCollection(TreeSet::new));
    if (of.isEmpty()) {
      return known.stream().map(EventTable::one).toList();
    }
    Set<EventTable> tables = new LinkedHashSet<>();
    for (String written : of) {
      tables.add(table(SegmentExport.keptName(written.strip().toLowerCase(Locale.ROOT)), known));
    }
    return List.copyOf(tables);
  }

  private static EventTable table(String name, Set<String> known) {
    if (name.equals(LinearEvents.DEFECTS.name())) {
      return LinearEvents.DEFECTS;
    }
    if (name.equals(LinearEvents.PATCHES.name())) {
      return LinearEvents.PATCHES;
    }
    if (!known.contains(name)) {
      throw new Refusal(
          "nothing is known of '"
              + name
              + "' on these roads; known: "
              + String.join(", ", known)
              + ", defects, patches");
    }
    return EventTable.one(name);
  }

  /** Events of the chosen roads only: those of the others have nowhere to lie. */
  private static Map<String, List<LinearEvent>> events(
      County county, Network roads, List<EventTable> tables) {
    LinearEvents events =
        new LinearEvents()
            .attributes(
                county.attributes(),
                tables.stream().map(EventTable::name).collect(Collectors.toSet()),
                county.day());
    if (tables.contains(LinearEvents.DEFECTS)) {
      events.defects(county.defects());
    }
    if (tables.contains(LinearEvents.PATCHES)) {
      events.patches(county.patches());
    }
    events.byRoute().keySet().removeIf(id -> roads.route(id).isEmpty());
    return events.byRoute();
  }

  private List<Segment> where(County county, List<EventTable> tables, List<Segment> pieces) {
    FilterTables filters = new FilterTables(county.network(), county.locator());
    return Kept.where(pieces, where, filters.segments(tables)).rows();
  }

  private static String line(County county, Segment s) {
    String known =
        s.known().entrySet().stream()
            .map(
                e ->
                    SegmentExport.shownName(e.getKey(), county.units())
                        + "="
                        + SegmentExport.shownValue(e.getKey(), e.getValue(), county.units()))
            .collect(Collectors.joining(" "));
    return stretch(county, s.routeId(), s.fromAlongM(), s.toAlongM())
        + "  "
        + (known.isEmpty() ? "nothing known" : known);
  }

  private static String stretch(County county, String routeId, double from, double to) {
    Route onRoute = county.network().route(routeId).orElseThrow();
    String start = onRoute.mileposts().at(from).text();
    return routeId
        + "  "
        + (from == to ? start : start + " - " + onRoute.mileposts().at(to).text());
  }

  private int finish(County county, List<Segment> pieces, Segmentation found, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "segments   %,d%s, %,d conflicts%n",
        pieces.size(),
        where == null ? "" : " of " + String.format(Locale.ROOT, "%,d", found.segments().size()),
        found.conflicts().size());
    for (EventConflict c : found.conflicts()) {
      out.println(
          "  conflict: "
              + stretch(county, c.routeId(), c.fromAlongM(), c.toAlongM())
              + "  "
              + SegmentExport.shownName(c.table(), county.units())
              + " is "
              + c.values().stream()
                  .map(v -> SegmentExport.shownValue(c.table(), v, county.units()))
                  .collect(Collectors.joining(" and ")));
    }
    for (Segmentation.OffRoad o : found.offRoad()) {
      out.printf(
          Locale.ROOT,
          "  off the road: %s  %s %s, %.1f m to %.1f m along%n",
          o.routeId(),
          o.event().table(),
          o.event().value(),
          o.event().fromAlongM(),
          o.event().toAlongM());
    }
    boolean clean = found.conflicts().isEmpty() && found.offRoad().isEmpty();
    return clean ? ExitCode.DONE : ExitCode.TROUBLE_FOUND;
  }
}
