package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lanemend.county.County;
import lanemend.county.CountySeason;
import lanemend.county.LearnedWork;
import lanemend.crewdays.Crew;
import lanemend.crewdays.learning.SeasonReport;
import lanemend.exchange.SeasonExport;
import lanemend.measure.Unit;
import lanemend.network.Route;
import lanemend.patching.RepairPart;
import lanemend.web.page.Wording;

/** A season's plan held against what was done. */
final class SeasonRoutes implements Area {
  private final CurrentCounty county;
  private final Clock clock;

  SeasonRoutes(CurrentCounty county, Clock clock) {
    this.county = county;
    this.clock = clock;
  }

  /**
   * The report.
   *
   * @param lines by {@code crew}, {@code treatment}, {@code route} and {@code month}
   */
  record Season(
      LocalDate from,
      LocalDate to,
      String mixUnit,
      String currency,
      Map<String, List<Line>> lines,
      Line total,
      List<NotDone> notDone) {}

  /** One group; numbers as the agency reads them. */
  record Line(
      String group,
      int repairs,
      int crewDaysPlanned,
      int crewDays,
      Held mix,
      Held hours,
      Held cost) {}

  /**
   * Planned against actual of the repairs that have both.
   *
   * @param difference signed
   * @param repairs how many have both
   */
  record Held(String planned, String actual, String difference, int repairs) {}

  /** A repair that was to be done and is not. */
  record NotDone(String repair, String crew, LocalDate plannedOn, String reason) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/season", c -> c.json(season(c)));
    api.get("/api/season/csv", this::csv);
    api.get("/api/season/not-done/csv", this::notDoneCsv);
  }

  /** A day in the query, or null. */
  static LocalDate day(Context c, String name) {
    String text = c.queryParam(name);
    try {
      return text == null || text.isBlank() ? null : LocalDate.parse(text);
    } catch (DateTimeException e) {
      throw new Problem(
              Problem.Kind.BAD_VALUE, name + " is '" + text + "', expected a day as 2026-05-31")
          .with("field", name);
    }
  }

  private SeasonReport report(Context c, County now) {
    LearnedWork work = new LearnedWork(now);
    LocalDate[] last = work.lastSeason();
    LocalDate from = day(c, "from");
    LocalDate to = day(c, "to");
    LocalDate first = from == null ? last[0] : from;
    LocalDate end = to != null ? to : from == null ? last[1] : from.plusYears(1).minusDays(1);
    if (end.isBefore(first)) {
      throw new Problem(Problem.Kind.BAD_VALUE, "the season would end before it begins")
          .with("field", "to");
    }
    return CountySeason.report(now, work, first, end, LocalDate.now(clock));
  }

  private Season season(Context c) {
    County now = county.get();
    SeasonReport report = report(c, now);
    Map<String, List<Line>> lines = new LinkedHashMap<>();
    report
        .lines()
        .forEach(
            (by, of) ->
                lines.put(
                    DeskWords.code(by),
                    of.stream().map(l -> line(name(now, by, l.group()), l, now)).toList()));
    return new Season(
        report.from(),
        report.to(),
        Wording.of(now.agency()).unitLabel(Unit.TONNE),
        now.agency().plan().currency(),
        lines,
        line("All", report.total(), now),
        report.notDone().stream()
            .map(
                n ->
                    new NotDone(
                        RepairPart.label(n.repairId()),
                        name(now, SeasonReport.By.CREW, n.crewId()),
                        n.plannedOn(),
                        n.reason()))
            .toList());
  }

  /** The group as people call it. */
  private static String name(County now, SeasonReport.By by, String group) {
    return switch (by) {
      case CREW ->
          now.agency().crews().stream()
              .filter(crew -> crew.id().equals(group))
              .map(Crew::name)
              .findFirst()
              .orElse(group);
      case ROUTE -> now.network().route(group).map(Route::name).orElse(group);
      case TREATMENT -> group.replace('_', ' ');
      case MONTH -> group;
    };
  }

  private static Line line(String name, SeasonReport.Line l, County now) {
    double perTonne = now.units().show(1, Unit.TONNE).value();
    return new Line(
        name,
        l.repairs(),
        l.crewDaysPlanned(),
        l.crewDays(),
        held(l.tonnes(), perTonne, 1),
        held(l.hours(), 1, 1),
        held(l.cost(), 1, 0));
  }

  private static Held held(SeasonReport.Held h, double by, int decimals) {
    String plain = "%,." + decimals + "f";
    String signed = "%+,." + decimals + "f";
    return new Held(
        String.format(Locale.ROOT, plain, h.planned() * by),
        String.format(Locale.ROOT, plain, h.actual() * by),
        String.format(Locale.ROOT, signed, h.difference() * by),
        h.repairs());
  }

  private void csv(Context c) throws IOException {
    County now = county.get();
    SeasonReport report = report(c, now);
    send(c, "season.csv", file -> export(now).lines(file, report));
  }

  private void notDoneCsv(Context c) throws IOException {
    County now = county.get();
    SeasonReport report = report(c, now);
    send(c, "season-not-done.csv", file -> export(now).notDone(file, report.notDone()));
  }

  private static SeasonExport export(County now) {
    return new SeasonExport(now.network(), now.units());
  }

  /** Writes a file. */
  private interface Writing {
    void to(Path file);
  }

  private static void send(Context c, String name, Writing writing) throws IOException {
    Path folder = Files.createTempDirectory("lanemend-season");
    Path file = folder.resolve(name);
    try {
      writing.to(file);
      c.header("Content-Disposition", "attachment; filename=\"" + name + "\"");
      c.contentType("text/csv; charset=utf-8").result(Files.readAllBytes(file));
    } finally {
      Files.deleteIfExists(file);
      Files.deleteIfExists(folder);
    }
  }
}
