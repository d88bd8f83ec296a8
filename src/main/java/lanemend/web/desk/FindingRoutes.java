package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import lanemend.county.County;
import lanemend.exchange.CqlFilter;
import lanemend.exchange.FilterTables;
import lanemend.inventory.Finding;
import lanemend.inventory.FindingKind;

/** What patrols noted that is not asphalt, for whoever owns it. */
final class FindingRoutes implements Area {
  private final CurrentCounty county;

  FindingRoutes(CurrentCounty county) {
    this.county = county;
  }

  /** A finding as a page shows it. */
  record View(
      String id,
      String kind,
      String route,
      String milepost,
      String side,
      double lon,
      double lat,
      LocalDate foundOn,
      String foundBy,
      String note) {

    static View of(Finding f, County now) {
      double[] lonLat = now.crs().unproject(f.place().x(), f.place().y());
      return new View(
          f.id(),
          DeskWords.code(f.kind()),
          f.place().routeId(),
          PlanView.milepost(now, f.place().routeId(), f.place().fromAlongM()),
          f.side() == null ? "" : DeskWords.code(f.side()),
          DeskNumbers.degrees(lonLat[0]),
          DeskNumbers.degrees(lonLat[1]),
          f.foundOn(),
          f.foundBy(),
          f.note());
    }
  }

  /**
   * Rows from {@code from}, of {@code total} that are chosen of {@code all}.
   *
   * @param kinds there are
   */
  record Rows(long version, int total, int all, int from, List<String> kinds, List<View> rows) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/findings", c -> c.json(list(c)));
  }

  private Rows list(Context c) {
    County now = county.get();
    List<Finding> rows = new ArrayList<>(chosen(now, c));
    String sort = c.queryParam("sort");
    if (sort != null && !sort.isBlank()) {
      rows.sort(order(sort));
    }
    Slice<Finding> shown = Slice.of(c, rows, 5_000);
    return new Rows(
        now.lastChange(),
        rows.size(),
        now.findings().size(),
        shown.from(),
        java.util.Arrays.stream(FindingKind.values()).map(DeskWords::code).toList(),
        shown.rows().stream().map(f -> View.of(f, now)).toList());
  }

  /** By a filter in CQL, by kind, by road, and by words of the note. */
  static List<Finding> chosen(County now, Context c) {
    String where = c.queryParam("where");
    String kind = c.queryParam("kind");
    String route = c.queryParam("route");
    String words = c.queryParam("words");
    FindingKind wanted =
        kind == null || kind.isBlank() ? null : DeskWords.read(FindingKind.class, "kind", kind);
    CqlFilter<Finding> filter =
        where == null || where.isBlank()
            ? null
            : CqlFilter.parse(where, new FilterTables(now.network(), now.locator()).findings());
    return now.findings().stream()
        .filter(f -> wanted == null || f.kind() == wanted)
        .filter(f -> route == null || route.isBlank() || f.place().routeId().equals(route))
        .filter(f -> words == null || says(f, words))
        .filter(f -> filter == null || filter.test(f))
        .toList();
  }

  private static boolean says(Finding f, String words) {
    String line =
        (f.id() + " " + f.note() + " " + f.foundBy() + " " + DeskWords.plain(f.kind()))
            .toLowerCase(Locale.ROOT);
    return line.contains(words.strip().toLowerCase(Locale.ROOT));
  }

  private static Comparator<Finding> order(String sort) {
    boolean down = sort.startsWith("-");
    String column = down ? sort.substring(1) : sort;
    Comparator<Finding> place =
        Comparator.comparing((Finding f) -> f.place().routeId())
            .thenComparingDouble(f -> f.place().fromAlongM());
    Comparator<Finding> by =
        switch (column) {
          case "id" -> Comparator.comparing(Finding::id);
          case "place" -> place;
          case "kind" -> Comparator.comparing(f -> DeskWords.code(f.kind()));
          case "side" -> Comparator.comparing(f -> f.side() == null ? "" : f.side().name());
          case "foundOn" -> Comparator.comparing(Finding::foundOn);
          case "foundBy" -> Comparator.comparing(Finding::foundBy);
          case "note" -> Comparator.comparing(Finding::note);
          default ->
              throw new Problem(
                  Problem.Kind.BAD_REQUEST,
                  "'"
                      + column
                      + "' is no column to sort by; there are id, place, kind, side, foundOn, foundBy"
                      + " and note");
        };
    return (down ? by.reversed() : by).thenComparing(place);
  }
}
