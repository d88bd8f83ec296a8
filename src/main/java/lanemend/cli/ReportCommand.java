package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.CountySeason;
import lanemend.county.LearnedWork;
import lanemend.crewdays.learning.SeasonReport;
import lanemend.exchange.SeasonExport;
import lanemend.measure.Unit;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code report}: a season's plan against what was done. */
@Command(
    name = "report",
    description = {
      "Hold a season's plan against what was done: crew days, mix, hours and cost, planned, actual"
          + " and the difference, by crew, treatment, route or month; and what was not done, with"
          + " the reason.",
      "",
      "Planned and actual are summed over the repairs that have both.",
      "  report --from 2026-04-01 --to 2026-10-31 --by treatment"
    })
final class ReportCommand implements Callable<Integer> {
  private static final int LISTED = 40;

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(
      names = "--from",
      paramLabel = "DATE",
      description = "first day, YYYY-MM-DD (default: the last year with planned work done)")
  private LocalDate from;

  @Option(names = "--to", paramLabel = "DATE", description = "last day, YYYY-MM-DD")
  private LocalDate to;

  @Option(
      names = "--by",
      paramLabel = "GROUP",
      defaultValue = "crew",
      description = "one of: ${COMPLETION-CANDIDATES} (default: ${DEFAULT-VALUE})")
  private SeasonReport.By by;

  @Option(
      names = "--to-csv",
      paramLabel = "FILE",
      description = "write every grouping as CSV; what is not done beside it as FILE-not-done.csv")
  private Path csv;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      County county = County.read(store);
      LearnedWork done = new LearnedWork(county);
      LocalDate[] season = done.lastSeason();
      LocalDate first = from == null ? season[0] : from;
      LocalDate last = to != null ? to : from == null ? season[1] : from.plusYears(1).minusDays(1);
      if (last.isBefore(first)) {
        throw new Refusal("--to " + last + " lies before --from " + first);
      }
      SeasonReport report =
          CountySeason.report(county, done, first, last, LocalDate.now(ZoneId.systemDefault()));
      PrintWriter out = spec.commandLine().getOut();
      say(report, county, out);
      if (csv != null) {
        new SeasonExport(county.network(), county.units()).write(csv, report);
        out.println("export     " + csv + ", " + SeasonExport.notDone(csv));
      }
      return ExitCode.DONE;
    }
  }

  private void say(SeasonReport report, County county, PrintWriter out) {
    String tons = county.units().show(1, Unit.TONNE).label();
    double perTonne = county.units().show(1, Unit.TONNE).value();
    out.printf("season     %s to %s%n", report.from(), report.to());
    out.printf(
        Locale.ROOT,
        "%-22s %7s %9s %28s %28s %36s%n",
        by.name().toLowerCase(Locale.ROOT),
        "repairs",
        "crew days",
        tons + " plan/actual/diff",
        "hours plan/actual/diff",
        "cost plan/actual/diff");
    for (SeasonReport.Line line : report.lines().get(by)) {
      say(line, perTonne, out);
    }
    say(report.total(), perTonne, out);
    SeasonReport.Line t = report.total();
    out.printf(
        Locale.ROOT,
        "           compared: mix of %,d, hours of %,d, cost of %,d of %,d repairs; without a plan on"
            + " record %,.0f %s, %,.0f hours, %,.0f of cost%n",
        t.tonnes().repairs(),
        t.hours().repairs(),
        t.cost().repairs(),
        t.repairs(),
        t.tonnes().unplanned() * perTonne,
        tons,
        t.hours().unplanned(),
        t.cost().unplanned());
    out.printf(Locale.ROOT, "not done   %,d%n", report.notDone().size());
    report.notDone().stream()
        .limit(LISTED)
        .forEach(
            n ->
                out.printf(
                    "           %s%s: %s%n",
                    n.repairId(),
                    n.plannedOn() == null
                        ? ""
                        : " (crew " + n.crewId() + ", " + n.plannedOn() + ")",
                    n.reason()));
    if (report.notDone().size() > LISTED) {
      out.printf(
          Locale.ROOT,
          "           and %,d more: --to-csv FILE lists all%n",
          report.notDone().size() - LISTED);
    }
  }

  private static void say(SeasonReport.Line line, double perTonne, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "%-22s %,7d %4d/%4d %,9.1f/%,9.1f/%+,8.1f %,9.1f/%,9.1f/%+,8.1f %,11.0f/%,11.0f/%+,12.0f%n",
        line.group(),
        line.repairs(),
        line.crewDaysPlanned(),
        line.crewDays(),
        line.tonnes().planned() * perTonne,
        line.tonnes().actual() * perTonne,
        line.tonnes().difference() * perTonne,
        line.hours().planned(),
        line.hours().actual(),
        line.hours().difference(),
        line.cost().planned(),
        line.cost().actual(),
        line.cost().difference());
  }
}
