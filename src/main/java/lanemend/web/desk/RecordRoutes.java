package lanemend.web.desk;

import io.javalin.http.Context;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicReference;
import lanemend.county.County;
import lanemend.county.DoneWork;
import lanemend.county.NotReady;
import lanemend.inventory.PastPatch;
import lanemend.measure.Unit;
import lanemend.store.LoggedChange;
import lanemend.store.Stored;

/** Records of work done, one by one: to correct what was entered, whoever entered it first. */
final class RecordRoutes implements Area {
  private final CurrentCounty county;

  RecordRoutes(CurrentCounty county) {
    this.county = county;
  }

  /**
   * A record as a form has it.
   *
   * @param version to be given back with a change
   * @param mix in the agency's unit, or null when not recorded
   * @param cost in the agency's currency, or null
   * @param who entered or corrected it last
   */
  record Entry(
      String id,
      long version,
      String repair,
      LocalDate on,
      Double mix,
      Double hours,
      BigDecimal cost,
      String who) {}

  /** A correction. */
  record Correction(LocalDate on, Double mix, Double hours, BigDecimal cost) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/records/{id}", c -> answer(c, row(c.pathParam("id")), county.get()));
    api.put("/api/records/{id}", this::correct);
  }

  private Stored<PastPatch> row(String id) {
    return county
        .read(s -> s.patches().find(id))
        .filter(r -> DoneWork.isRecord(r.value()))
        .orElseThrow(() -> missing(id));
  }

  private static Problem missing(String id) {
    return new Problem(Problem.Kind.NOT_FOUND, "there is no record '" + id + "'");
  }

  private void answer(Context c, Stored<PastPatch> row, County now) {
    c.header("ETag", "\"" + row.version() + "\"").json(entry(row, now));
  }

  private Entry entry(Stored<PastPatch> row, County now) {
    PastPatch p = row.value();
    double perTonne = perTonne(now);
    List<LoggedChange> past = county.read(s -> s.history("patch", p.id()));
    return new Entry(
        p.id(),
        row.version(),
        p.id().substring(DoneWork.patchId("").length()),
        p.doneOn(),
        p.tonnes() == null ? null : Math.rint(p.tonnes() * perTonne * 1_000) / 1_000,
        p.crewHours(),
        p.cost(),
        past.isEmpty() ? "" : past.get(past.size() - 1).who());
  }

  private static double perTonne(County now) {
    return now.units().show(1, Unit.TONNE).value();
  }

  private void correct(Context c) {
    Correction form = Api.body(c, Correction.class);
    String id = c.pathParam("id");
    long version = DefectRoutes.version(c);
    County now = county.get();
    if (form.on() == null || form.on().isAfter(LocalDate.now(ZoneId.systemDefault()))) {
      throw new Problem(
              Problem.Kind.BAD_VALUE, "done on " + form.on() + ", expected today or a day before")
          .with("field", "on");
    }
    Double mix = within("mix", form.mix(), SheetRoutes.MOST_MIX);
    Double hours = within("hours", form.hours(), SheetRoutes.MOST_HOURS);
    within("cost", form.cost() == null ? null : form.cost().doubleValue(), SheetRoutes.MOST_COST);
    AtomicReference<Stored<PastPatch>> made = new AtomicReference<>();
    county
        .store()
        .write(
            Caller.name(c),
            "desk: correct " + id,
            change -> {
              Stored<PastPatch> row =
                  change
                      .patches()
                      .find(id)
                      .filter(r -> DoneWork.isRecord(r.value()))
                      .orElseThrow(() -> missing(id));
              if (row.version() != version) {
                throw new Problem(
                        Problem.Kind.STALE,
                        "the record of "
                            + id.substring(DoneWork.patchId("").length())
                            + " was changed by somebody else while you had it open")
                    .with("yours", form)
                    .with("theirs", entry(row, now));
              }
              PastPatch p = row.value();
              made.set(
                  change
                      .patches()
                      .update(
                          row,
                          new PastPatch(
                              p.id(),
                              p.work(),
                              p.place(),
                              p.lane(),
                              form.on(),
                              mix == null ? null : mix / perTonne(now),
                              hours,
                              form.cost() == null
                                  ? null
                                  : form.cost().setScale(2, RoundingMode.HALF_UP))));
            });
    answer(c, made.get(), county.get());
  }

  private static Double within(String field, Double value, double most) {
    if (value != null && !(value >= 0 && value <= most)) {
      throw new Problem(Problem.Kind.BAD_VALUE, field + " is " + value + ", expected 0 to " + most)
          .with("field", field);
    }
    return value;
  }

  /**
   * Why work cannot be recorded: where somebody else has recorded it, with both entries by repair,
   * so that whoever comes second can choose.
   */
  RuntimeException recordedMeanwhile(NotReady why, SheetRoutes.DoneForm yours) {
    County now = county.get();
    Map<String, Entry> theirs = new TreeMap<>();
    List<SheetRoutes.Done> twice = new ArrayList<>();
    for (SheetRoutes.Done d : yours.repairs()) {
      county
          .read(s -> s.patches().find(DoneWork.patchId(d.repair())))
          .ifPresent(
              row -> {
                theirs.put(d.repair(), entry(row, now));
                twice.add(d);
              });
    }
    if (theirs.isEmpty()) {
      return why;
    }
    return new Problem(
            Problem.Kind.STALE,
            theirs.size() == 1
                ? "somebody else has recorded this repair already"
                : "somebody else has recorded " + theirs.size() + " of these repairs already")
        .with("yours", twice)
        .with("theirs", theirs);
  }
}
