package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import lanemend.county.County;
import lanemend.county.DoneWork;
import lanemend.county.NotReady;
import lanemend.crewdays.CrewDay;
import lanemend.inventory.PastPatch;
import lanemend.measure.Unit;
import lanemend.patching.RepairPart;
import lanemend.store.Change;
import lanemend.store.EntryReceived;
import lanemend.store.Photo;
import lanemend.web.page.Wording;
import lanemend.web.sheet.SheetContext;
import lanemend.web.sheet.SheetIndex;
import lanemend.web.sheet.SheetWriter;

/** Crew sheets, drawn when they are asked for, and the record of what was done. */
final class SheetRoutes implements Area {
  /** A sheet has its style inside it and neither scripts nor anything from elsewhere. */
  private static final String SHEET_POLICY =
      "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'none';"
          + " base-uri 'none'; form-action 'none'";

  private static final int RECENT = 60;
  static final double MOST_MIX = 10_000;
  static final double MOST_HOURS = 1_000;
  static final double MOST_COST = 10_000_000;

  private final CurrentCounty county;
  private final PlanAtHand plan;
  private final RecordRoutes records;

  SheetRoutes(CurrentCounty county) {
    this.county = county;
    this.plan = new PlanAtHand(county, Clock.system(ZoneId.systemDefault()));
    this.records = new RecordRoutes(county);
  }

  /**
   * Sheets of the plan.
   *
   * @param next the date whose sheets are wanted first: today, or the next with work
   * @param recorded what was recorded last, the latest first
   */
  record Sheets(
      String state,
      LocalDate today,
      LocalDate next,
      List<PlanView.CrewView> crews,
      List<PlanView.Day> days,
      List<Recorded> recorded) {}

  /**
   * A repair that was recorded done.
   *
   * @param photos hashes of its photos
   */
  record Recorded(
      String id,
      String repair,
      LocalDate on,
      String work,
      String place,
      String mix,
      String hours,
      List<String> photos) {}

  /**
   * The sheet of one crew day to work by.
   *
   * @param day null when all its work is done
   * @param partsDone parts of it that are recorded although their defect still waits
   * @param unit the unit mix is entered in
   */
  record Sheet(CrewDayView day, Set<String> partsDone, List<Recorded> recorded, String unit) {}

  /**
   * What a crew reports.
   *
   * @param entry the phone's own id of the report, so that sent twice it arrives once; or null
   */
  record DoneForm(String entry, LocalDate on, List<Done> repairs) {}

  /**
   * One repair, mix in the agency's unit; what was not measured is null.
   *
   * @param photos hashes of photos that were sent before, or null
   * @param cost in the agency's currency, or null
   */
  record Done(
      String repair, Double mix, Double hours, String note, List<String> photos, BigDecimal cost) {}

  /** What became of it. */
  record Kept(String said, int repairs) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/sheets", c -> c.json(sheets()));
    api.get("/api/sheets/{date}/{crew}", this::sheet);
    api.get("/api/sheets/{date}/{crew}/page", c -> page(c, false));
    api.get("/api/sheets/{date}/{crew}/numbers", c -> page(c, true));
    api.get("/api/sheets/{date}/{crew}/pdf", this::pdf);
    api.post("/api/sheets/{date}/{crew}/done", this::done);
    records.addTo(api);
  }

  private Sheets sheets() {
    County now = county.get();
    PlanView view = plan.view();
    LocalDate next =
        view.days().stream()
            .map(PlanView.Day::date)
            .filter(d -> !d.isBefore(view.today()))
            .min(Comparator.naturalOrder())
            .orElse(null);
    List<PastPatch> last =
        now.patches().stream()
            .filter(DoneWork::isRecord)
            .sorted(Comparator.comparing(PastPatch::doneOn).reversed())
            .limit(RECENT)
            .toList();
    return new Sheets(
        view.state(), view.today(), next, view.crews(), view.days(), recorded(now, last));
  }

  private List<Recorded> recorded(County now, List<PastPatch> patches) {
    Map<String, List<String>> photos = new HashMap<>();
    county.read(
        s -> {
          patches.forEach(
              p ->
                  photos.put(
                      p.id(),
                      s.photosOf(Photo.Of.PATCH, p.id()).stream()
                          .map(row -> row.value().hash())
                          .toList()));
          return photos;
        });
    return patches.stream().map(p -> recorded(now, p, photos.get(p.id()))).toList();
  }

  private static Recorded recorded(County now, PastPatch p, List<String> photos) {
    Wording words = Wording.of(now.agency());
    return new Recorded(
        p.id(),
        RepairPart.label(p.id().substring(DoneWork.patchId("").length())),
        p.doneOn(),
        p.work().replace('_', ' '),
        p.place().routeId()
            + " "
            + PlanView.milepost(now, p.place().routeId(), p.place().fromAlongM()),
        p.tonnes() == null ? "" : words.text(p.tonnes(), Unit.TONNE),
        p.crewHours() == null ? "" : words.text(p.crewHours(), Unit.HOUR),
        photos);
  }

  private void sheet(Context c) {
    County now = county.get();
    String date = c.pathParam("date");
    String crew = c.pathParam("crew");
    boolean planned =
        !now.assignment().days().isEmpty()
            && now.plan().days().stream()
                .anyMatch(d -> d.date().toString().equals(date) && d.crew().id().equals(crew));
    List<Recorded> recorded =
        recorded(
            now,
            now.patches().stream()
                .filter(p -> DoneWork.isRecord(p) && p.doneOn().toString().equals(date))
                .toList());
    if (!planned && recorded.isEmpty()) {
      plan.day(now, date, crew);
    }
    CrewDayView day =
        planned ? CrewDayView.of(plan.day(now, date, crew), now, plan.state(now)) : null;
    c.json(
        new Sheet(
            day,
            DoneWork.partsDone(now),
            recorded,
            Wording.of(now.agency()).unitLabel(Unit.TONNE)));
  }

  private CrewDay day(Context c, County now) {
    return plan.day(now, c.pathParam("date"), c.pathParam("crew"));
  }

  private static SheetWriter writer(County now) {
    return new SheetWriter(
        new SheetContext(now.agency(), now.network(), now.locator(), now.haulGraph()));
  }

  private void page(Context c, boolean numbers) {
    County now = county.get();
    CrewDay day = day(c, now);
    SheetWriter writer = writer(now);
    c.html(withWayBack(numbers ? writer.numbersHtml(day) : writer.html(day), day))
        .header("Content-Security-Policy", SHEET_POLICY)
        .header("Cache-Control", "no-cache");
  }

  /** On the screen a line above the sheet says how to print it and leads back; paper has none. */
  private static String withWayBack(String sheet, CrewDay day) {
    String crew = URLEncoder.encode(day.crew().id(), StandardCharsets.UTF_8).replace("+", "%20");
    String work = "/sheets?date=" + day.date() + "&amp;crew=" + crew;
    return sheet
        .replaceFirst(
            "</head>", "<style>@media print { .way-back { display: none } }</style></head>")
        .replaceFirst(
            "<body>",
            Matcher.quoteReplacement(
                "<body><p class=\"way-back\"><a href=\""
                    + work
                    + "\">Back to this day</a> · <a href=\"/sheets\">All sheets</a> · <a href=\""
                    + "/api/sheets/"
                    + day.date()
                    + "/"
                    + crew
                    + "/pdf\">PDF</a> · to print: Ctrl+P, or Cmd+P on a Mac</p>"));
  }

  private void pdf(Context c) {
    County now = county.get();
    CrewDay day = day(c, now);
    SheetWriter writer = writer(now);
    try {
      Path folder = Files.createTempDirectory("lanemend-sheet");
      Path file = folder.resolve("sheet.pdf");
      try {
        writer.pdf(writer.html(day), file);
        c.contentType("application/pdf")
            .header(
                "Content-Disposition", "inline; filename=\"" + SheetIndex.fileName(day) + ".pdf\"")
            .result(Files.readAllBytes(file));
      } finally {
        Files.deleteIfExists(file);
        Files.deleteIfExists(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void done(Context c) {
    DoneForm form = Api.body(c, DoneForm.class);
    String entry = form.entry();
    if (entry == null) {
      try {
        keep(c, form, change -> {});
      } catch (NotReady e) {
        throw records.recordedMeanwhile(e, form);
      }
      return;
    }
    EntryReceived report = FieldEntries.of(entry, form, "patch", c.path());
    if (arrived(c, report)) {
      return;
    }
    try {
      keep(c, form, change -> change.receive(report));
    } catch (NotReady e) {
      // The same report sent twice at once: the other one has done it.
      if (!arrived(c, report)) {
        throw records.recordedMeanwhile(e, form);
      }
    }
  }

  /** Answers a report that came before; false when it has not. */
  private boolean arrived(Context c, EntryReceived report) {
    Optional<EntryReceived> before = county.read(s -> s.received(report.entryId()));
    before.ifPresent(
        e -> {
          if (!e.digest().equals(report.digest())) {
            throw new Problem(
                Problem.Kind.NO_LONGER,
                "this report arrived before it was changed; look at what is recorded");
          }
          c.json(new Kept("It arrived before and is history.", 0));
        });
    return before.isPresent();
  }

  private void keep(Context c, DoneForm form, Consumer<Change> beside) {
    County now = county.get();
    LocalDate on = form.on();
    if (on == null) {
      on = day(c, now).date();
    }
    if (form.repairs() == null || form.repairs().isEmpty()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "no repair was named").with("field", "repairs");
    }
    double perTonne = now.units().show(1, Unit.TONNE).value();
    List<DoneWork.Report> reports = new ArrayList<>();
    for (Done d : form.repairs()) {
      if (d.repair() == null || d.repair().isBlank()) {
        throw new Problem(Problem.Kind.BAD_VALUE, "a repair has no name").with("field", "repair");
      }
      Double mix = within("mix", d, d.mix(), MOST_MIX);
      reports.add(
          new DoneWork.Report(
              d.repair(),
              on,
              mix == null ? null : mix / perTonne,
              within("hours", d, d.hours(), MOST_HOURS),
              d.note() == null ? "" : d.note(),
              d.photos() == null ? List.of() : d.photos(),
              c.pathParam("crew"),
              cost(d)));
    }
    String why = "desk: done " + c.pathParam("date") + ", crew " + c.pathParam("crew");
    new DoneWork(now).record(county.store(), Caller.name(c), why, reports, beside);
    int n = reports.size();
    c.json(new Kept(n + (n == 1 ? " repair is" : " repairs are") + " recorded as done.", n));
  }

  private static BigDecimal cost(Done d) {
    if (d.cost() == null) {
      return null;
    }
    within("cost", d, d.cost().doubleValue(), MOST_COST);
    return d.cost().setScale(2, RoundingMode.HALF_UP);
  }

  static Double within(String field, Done of, Double value, double most) {
    if (value != null && !(value >= 0 && value <= most)) {
      throw new Problem(
              Problem.Kind.BAD_VALUE,
              field + " of " + of.repair() + " is " + value + ", expected 0 to " + most)
          .with("field", field)
          .with("repair", of.repair());
    }
    return value;
  }
}
