package lanemend.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lanemend.crewdays.learning.SeasonReport;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.Network;
import lanemend.network.Route;

/** A season's plan against what was done, for a spreadsheet. It is not read back. */
public final class SeasonExport {
  private static final double CENTS = 100;

  private final Network network;
  private final boolean us;

  /**
   * @param units of the mix
   */
  public SeasonExport(Network network, UnitSystem units) {
    this.network = network;
    this.us = units == UnitSystem.US_CUSTOMARY;
  }

  private record GroupLine(SeasonReport.By by, SeasonReport.Line line) {}

  /**
   * Writes every grouping one below the other, and what is not done into a file beside it.
   *
   * @throws ExchangeException when a file cannot be written
   */
  public void write(Path target, SeasonReport report) {
    lines(target, report);
    notDone(notDone(target), report.notDone());
  }

  /** The file of what is not done beside a report's. */
  public static Path notDone(Path target) {
    String name = RowSource.nameOf(target);
    String stem =
        name.toLowerCase(Locale.ROOT).endsWith(".csv")
            ? name.substring(0, name.length() - 4)
            : name;
    return target.resolveSibling(stem + "-not-done.csv");
  }

  /**
   * Writes every grouping one below the other.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void lines(Path target, SeasonReport report) {
    List<GroupLine> rows = new ArrayList<>();
    for (Map.Entry<SeasonReport.By, List<SeasonReport.Line>> of : report.lines().entrySet()) {
      of.getValue().forEach(line -> rows.add(new GroupLine(of.getKey(), line)));
    }
    rows.add(new GroupLine(null, report.total()));
    ExportTable<GroupLine> table =
        new ExportTable<GroupLine>()
            .column("from", r -> report.from())
            .column("to", r -> report.to())
            .column("by", r -> r.by() == null ? "total" : r.by().name().toLowerCase(Locale.ROOT))
            .column("group", this::group)
            .column("repairs", r -> r.line().repairs())
            .column("crew_days_planned", r -> r.line().crewDaysPlanned())
            .column("crew_days", r -> r.line().crewDays());
    String mix = us ? "tons" : "tonnes";
    double ton = us ? Conversion.T_PER_SHORT_TON : 1;
    held(table, mix, 1 / ton, SeasonReport.Line::tonnes);
    held(table, "hours", 1, SeasonReport.Line::hours);
    held(table, "cost", 1, SeasonReport.Line::cost);
    table.write(target, rows);
  }

  private String group(GroupLine r) {
    return r.by() == SeasonReport.By.ROUTE
        ? network.route(r.line().group()).map(Route::name).orElse(r.line().group())
        : r.line().group();
  }

  private static void held(
      ExportTable<GroupLine> table,
      String name,
      double by,
      java.util.function.Function<SeasonReport.Line, SeasonReport.Held> of) {
    table
        .column(name + "_planned", r -> rounded(of.apply(r.line()).planned() * by))
        .column(name + "_actual", r -> rounded(of.apply(r.line()).actual() * by))
        .column(name + "_difference", r -> rounded(of.apply(r.line()).difference() * by))
        .column(name + "_compared_repairs", r -> of.apply(r.line()).repairs())
        .column(name + "_without_plan", r -> rounded(of.apply(r.line()).unplanned() * by));
  }

  private static double rounded(double v) {
    return Math.rint(v * CENTS) / CENTS;
  }

  /**
   * Writes what is not done.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void notDone(Path target, List<SeasonReport.NotDone> rows) {
    new ExportTable<SeasonReport.NotDone>()
        .column("repair", SeasonReport.NotDone::repairId)
        .column("crew", SeasonReport.NotDone::crewId)
        .column("planned_on", SeasonReport.NotDone::plannedOn)
        .column("reason", SeasonReport.NotDone::reason)
        .write(target, rows);
  }
}
