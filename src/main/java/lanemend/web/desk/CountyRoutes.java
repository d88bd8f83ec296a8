package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import lanemend.county.County;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Severity;
import lanemend.network.Route;

/** What every page needs to know of the county. */
final class CountyRoutes implements Area {
  private final CurrentCounty county;
  private final Filters filters;
  private final DeskSettings settings;
  private Written written;

  CountyRoutes(CurrentCounty county, Filters filters, DeskSettings settings) {
    this.county = county;
    this.filters = filters;
    this.settings = settings;
  }

  /**
   * The county in short.
   *
   * @param drawing stands for what the map draws; part of the address of its tiles
   * @param tiles address of background tiles, or null
   */
  record InShort(
      String name,
      LocalDate today,
      String units,
      long version,
      String drawing,
      double[] bounds,
      List<RouteInShort> routes,
      Map<String, Integer> defectsByStatus,
      List<String> kinds,
      List<String> severities,
      List<String> statuses,
      String tiles) {}

  /**
   * A route for a list.
   *
   * @param open defects that wait for repair
   * @param high those of them of high severity
   * @param medium those of medium severity
   */
  record RouteInShort(
      String id,
      String name,
      String direction,
      String roadClass,
      double lengthM,
      int open,
      int high,
      int medium) {}

  /** The county in short as it is sent. */
  private record Written(MapIndex of, LocalDate on, byte[] json) {}

  /** A wish in words as a filter, and how many defects it chooses. */
  record Read(String where, int chosen, int of) {}

  @Override
  public void addTo(Api api) {
    // Each page asks for it first: ready before anybody does.
    try {
      json();
    } catch (RuntimeException e) {
      // Settings that cannot be read must not keep the desk from starting: who asks is told.
    }
    api.get("/api/county", c -> c.contentType("application/json").result(json()));
    api.get(
        "/api/filter",
        c -> {
          String words = c.queryParam("words");
          String where = c.queryParam("where");
          County now = county.get();
          if (words != null) {
            where =
                FilterWords.read(
                    words,
                    now.network().routes().values().stream().map(Route::name).distinct().toList());
          }
          java.util.BitSet chosen = filters.chosen(now, where);
          int all = now.defects().size();
          c.json(
              new Read(
                  where == null ? "" : where, chosen == null ? all : chosen.cardinality(), all));
        });
  }

  /** Counted and written once for each state of the county; the date in it is today's. */
  @SuppressWarnings("ReferenceEquality") // an index never changes: another state is another one
  private synchronized byte[] json() {
    MapIndex index = county.index();
    LocalDate today = LocalDate.now(ZoneId.systemDefault());
    if (written == null || written.of() != index || !written.on().equals(today)) {
      try {
        written = new Written(index, today, Api.JSON.writeValueAsBytes(inShort(index, today)));
      } catch (JsonProcessingException e) {
        throw new IllegalStateException("the county cannot be written", e);
      }
    }
    return written.json();
  }

  private InShort inShort(MapIndex index, LocalDate today) {
    County now = index.county();
    Map<String, Integer> byStatus = new TreeMap<>();
    Map<String, Map<Severity, Integer>> open = new TreeMap<>();
    now.defects()
        .forEach(
            d -> {
              byStatus.merge(DeskWords.code(d.status()), 1, Integer::sum);
              if (d.status() == DefectStatus.OPEN || d.status() == DefectStatus.PLANNED) {
                open.computeIfAbsent(d.place().routeId(), r -> new EnumMap<>(Severity.class))
                    .merge(d.severity(), 1, Integer::sum);
              }
            });
    List<RouteInShort> routes =
        now.network().routes().values().stream()
            .map(r -> inShort(r, open.getOrDefault(r.id(), Map.of())))
            .toList();
    return new InShort(
        now.hasAgency() ? now.agency().name() : "",
        today,
        DeskWords.code(now.units()),
        now.lastChange(),
        index.drawing(),
        index.roads().bounds(index.roads().lines()),
        routes,
        byStatus,
        codes(DefectKind.values()),
        codes(Severity.values()),
        codes(DefectStatus.values()),
        settings.tiles().orElse(null));
  }

  private static RouteInShort inShort(Route r, Map<Severity, Integer> open) {
    return new RouteInShort(
        r.id(),
        r.name(),
        r.direction(),
        DeskWords.code(r.roadClass()),
        r.lengthM(),
        open.values().stream().mapToInt(Integer::intValue).sum(),
        open.getOrDefault(Severity.HIGH, 0),
        open.getOrDefault(Severity.MEDIUM, 0));
  }

  private static List<String> codes(Enum<?>[] values) {
    return java.util.Arrays.stream(values).map(DeskWords::code).toList();
  }
}
