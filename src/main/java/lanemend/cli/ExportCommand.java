package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.crewdays.Plan;
import lanemend.exchange.EventExport;
import lanemend.exchange.EventProperties;
import lanemend.exchange.FilterTables;
import lanemend.exchange.Kept;
import lanemend.exchange.PavementExport;
import lanemend.exchange.PlanExport;
import lanemend.exchange.RoadExport;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code export}: hands data on as CSV, GeoJSON or GeoPackage. */
@Command(
    name = "export",
    description = {
      "Write a table as CSV, GeoJSON or GeoPackage (longitude and latitude, WGS 84).",
      "",
      "Without --to it goes to the work folder's exports/. What is exported can be imported again,"
          + " but for the plan's tables."
    })
final class ExportCommand implements Callable<Integer> {

  /** Tables that can be handed on. */
  enum Table {
    ROADS,
    POSTS,
    ATTRIBUTES,
    DEFECTS,
    FINDINGS,
    PATCHES,
    SURVEYS,
    LAYERS,
    CREW_DAYS,
    STOPS,
    TRAFFIC,
    LEFT_OUT,
    ALL;

    boolean ofPlan() {
      return this == CREW_DAYS || this == STOPS || this == TRAFFIC || this == LEFT_OUT;
    }

    String file() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    @Override
    public String toString() {
      return file();
    }
  }

  /** File kinds. */
  enum Kind {
    CSV,
    GEOJSON,
    GPKG;

    @Override
    public String toString() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private DayOption day;

  @Parameters(paramLabel = "TABLE", description = "one of: ${COMPLETION-CANDIDATES}")
  private Table table;

  @Option(
      names = "--as",
      paramLabel = "KIND",
      defaultValue = "csv",
      description = "csv, geojson or gpkg (default: ${DEFAULT-VALUE})")
  private Kind kind;

  @Option(
      names = "--to",
      paramLabel = "FILE",
      description = "file to write, ending in .csv, .geojson or .gpkg; not for 'all'")
  private Path to;

  @Option(
      names = "--where",
      paramLabel = "CQL",
      description = "only defects, findings or patches this is true of: \"severity = 'high'\"")
  private String where;

  @Override
  public Integer call() {
    if (where != null
        && table != Table.DEFECTS
        && table != Table.FINDINGS
        && table != Table.PATCHES) {
      throw new Refusal("--where chooses among defects, findings or patches");
    }
    if (to != null && table == Table.ALL) {
      throw new Refusal("'all' writes several files: leave out --to");
    }
    if (to != null && !ofKnownKind(to)) {
      throw new Refusal(
          "--to '" + to + "': a name that ends in .csv, .geojson or .gpkg is expected");
    }
    try (Store store = work.open()) {
      PrintWriter out = spec.commandLine().getOut();
      if (table != Table.ALL) {
        new Writer(day.county(store), where)
            .write(table, to == null ? file(work, table, kind) : to, out);
        return ExitCode.DONE;
      }
      all(work, day.county(store), kind, out);
    }
    return ExitCode.DONE;
  }

  private static boolean ofKnownKind(Path file) {
    String name = file.toString().toLowerCase(Locale.ROOT);
    return Arrays.stream(Kind.values()).anyMatch(k -> name.endsWith("." + k));
  }

  /** Every table the store has something for, into the work folder. */
  static void all(WorkFolder work, County county, Kind kind, PrintWriter out) {
    Writer writer = new Writer(county, null);
    for (Table t : Table.values()) {
      if (t != Table.ALL && (!t.ofPlan() || writer.hasPlan())) {
        writer.write(t, file(work, t, kind), out);
      }
    }
  }

  private static Path file(WorkFolder work, Table table, Kind kind) {
    return work.folderOf("exports").resolve(table.file() + "." + kind);
  }

  /** Writes tables of one store. */
  private static final class Writer {
    private final County county;
    private final EventExport events;
    private final FilterTables filters;
    private final PavementExport pavement;
    private final String where;

    /** How many rows the filter kept, for the line that names the file. */
    private String told = "";

    /**
     * @param where a filter, or null for every row
     */
    Writer(County county, String where) {
      this.county = county;
      this.where = where;
      events = new EventExport(county.network(), county.locator(), county.units());
      pavement = new PavementExport(county.network(), county.locator(), county.units());
      filters = new FilterTables(county.network(), county.locator());
    }

    private <T> List<T> chosen(List<T> rows, EventProperties<T> known) {
      Kept<T> kept = Kept.where(rows, where, known);
      told = where == null ? "" : ": " + kept.text() + " rows";
      return kept.rows();
    }

    boolean hasPlan() {
      return !county.assignment().days().isEmpty();
    }

    void write(Table table, Path target, PrintWriter out) {
      switch (table) {
        case ROADS ->
            new RoadExport(
                    county.network(),
                    county.locator(),
                    county.attributes(),
                    county.day(),
                    county.units())
                .write(target);
        case POSTS -> events.posts(target);
        // What is known of connectors goes with their lines: they have no mileposts to tell it by.
        case ATTRIBUTES ->
            events.attributes(
                target,
                county.attributes().stream()
                    .filter(a -> county.network().route(a.routeId()).isPresent())
                    .toList());
        case DEFECTS -> events.defects(target, chosen(county.defects(), filters.defects()));
        case FINDINGS -> events.findings(target, chosen(county.findings(), filters.findings()));
        case PATCHES ->
            events.patches(
                target, chosen(county.patches(), filters.patches()), county.plannedWork());
        case SURVEYS -> pavement.surveys(target, county.pavement().survey());
        case LAYERS -> pavement.layers(target, county.pavement().layers());
        default -> plan(table, target);
      }
      out.printf("export     %s%s%n", target, told);
    }

    private void plan(Table table, Path target) {
      Plan plan = county.plan();
      PlanExport export = new PlanExport(county.network(), county.locator(), county.units());
      switch (table) {
        case CREW_DAYS -> export.crewDays(target, plan);
        case STOPS -> export.stops(target, plan);
        case TRAFFIC -> export.traffic(target, plan, county.haulGraph()::sideRoads);
        default -> export.leftOut(target, plan, county.defects());
      }
    }
  }
}
