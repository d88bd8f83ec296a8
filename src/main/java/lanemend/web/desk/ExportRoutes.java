package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import lanemend.county.County;
import lanemend.exchange.EventExport;
import lanemend.exchange.PlanExport;
import lanemend.inventory.Defect;

/** Tables handed on as files. */
final class ExportRoutes implements Area {

  /** Tables there are. */
  enum Table {
    DEFECTS,
    PATCHES,
    FINDINGS,
    POSTS,
    CREW_DAYS,
    STOPS,
    TRAFFIC,
    LEFT_OUT
  }

  /** Files there are. */
  enum As {
    CSV("csv", "text/csv; charset=utf-8"),
    GEOJSON("geojson", "application/geo+json"),
    GEOPACKAGE("gpkg", "application/geopackage+sqlite3");

    final String ending;
    final String type;

    As(String ending, String type) {
      this.ending = ending;
      this.type = type;
    }
  }

  private final CurrentCounty county;
  private final Filters filters;

  ExportRoutes(CurrentCounty county, Filters filters) {
    this.county = county;
    this.filters = filters;
  }

  @Override
  public void addTo(Api api) {
    api.get("/api/exports/{table}/{as}", this::export);
  }

  private void export(Context c) throws IOException {
    Table table = DeskWords.read(Table.class, "table", c.pathParam("table").replace('-', '_'));
    As as = DeskWords.read(As.class, "file", c.pathParam("as"));
    send(
        c,
        table.name().toLowerCase(Locale.ROOT).replace('_', '-'),
        as,
        file -> write(table, file, c));
  }

  /** Has a file written and sends it by its name. */
  static void send(Context c, String table, As as, Consumer<Path> write) throws IOException {
    String name = table + "." + as.ending;
    Path folder = Files.createTempDirectory("lanemend-export");
    Path file = folder.resolve(name);
    try {
      write.accept(file);
      c.header("Content-Disposition", "attachment; filename=\"" + name + "\"");
      c.contentType(as.type).result(Files.readAllBytes(file));
    } finally {
      Files.deleteIfExists(file);
      Files.deleteIfExists(folder);
    }
  }

  private void write(Table table, Path file, Context c) {
    County now = county.get();
    EventExport events = new EventExport(now.network(), now.locator(), now.units());
    PlanExport plan = new PlanExport(now.network(), now.locator(), now.units());
    String where = c.queryParam("where");
    if (where != null && !where.isBlank() && table != Table.DEFECTS && table != Table.FINDINGS) {
      throw new Problem(
          Problem.Kind.BAD_REQUEST, "only defects and findings can be chosen by 'where'");
    }
    switch (table) {
      case DEFECTS -> events.defects(file, chosen(now, where));
      case PATCHES -> events.patches(file, now.patches(), now.plannedWork());
      case FINDINGS -> events.findings(file, FindingRoutes.chosen(now, c));
      case POSTS -> events.posts(file);
      case CREW_DAYS -> plan.crewDays(file, PlanLists.days(now.plan(), c));
      case STOPS -> plan.stops(file, now.plan());
      case TRAFFIC -> plan.traffic(file, now.plan(), now.haulGraph()::sideRoads);
      case LEFT_OUT -> plan.leftOut(file, PlanLists.leftOut(now, c), now.defects());
      default -> throw new IllegalStateException("table " + table);
    }
  }

  private List<Defect> chosen(County now, String where) {
    BitSet chosen = filters.chosen(now, where);
    return chosen == null
        ? now.defects()
        : IntStream.range(0, now.defects().size())
            .filter(chosen::get)
            .mapToObj(now.defects()::get)
            .toList();
  }
}
