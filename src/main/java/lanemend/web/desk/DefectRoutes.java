package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicReference;
import lanemend.county.County;
import lanemend.inventory.Defect;
import lanemend.store.LoggedChange;
import lanemend.store.Store;
import lanemend.store.Stored;

/** Defects: the list, one of them with its repair and history, and changes to it. */
final class DefectRoutes implements Area {
  private static final int MOST_ROWS = 500;
  private static final Set<String> NOT_TOLD =
      Set.of("fid", "geom", "version", "entered_route", "entered_longitude_deg");

  private final CurrentCounty county;
  private final Filters filters;
  private final Store store;
  private final Clock clock;

  DefectRoutes(CurrentCounty county, Filters filters, Clock clock) {
    this.county = county;
    this.filters = filters;
    this.store = county.store();
    this.clock = clock;
  }

  /** Rows of a list from {@code from}, of {@code total} the filter chooses. */
  record Rows(long version, int total, int from, List<DefectView> rows) {}

  /** One change of one row. */
  record Past(long edit, Instant at, String who, String why, String action, List<Field> fields) {}

  /** A column that changed. */
  record Field(String name, String before, String after) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/defects", c -> c.json(list(c)));
    api.post("/api/defects", this::add);
    api.get(
        "/api/defects/{id}",
        c -> answer(c, DefectRows.of(county.get(), c.pathParam("id")), county.get()));
    api.put("/api/defects/{id}", this::change);
    api.get("/api/defects/{id}/history", c -> c.json(history(c.pathParam("id"))));
  }

  private static void answer(Context c, Stored<Defect> row, County now) {
    c.header("ETag", "\"" + row.version() + "\"").json(DefectView.of(row, now));
  }

  private Rows list(Context c) {
    County now = county.get();
    BitSet chosen = filters.chosen(now, c.queryParam("where"));
    List<Stored<Defect>> rows = new ArrayList<>();
    for (int i = 0; i < now.defectRows().size(); i++) {
      if (chosen == null || chosen.get(i)) {
        rows.add(now.defectRows().get(i));
      }
    }
    String sort = c.queryParam("sort");
    if (sort != null && !sort.isBlank()) {
      rows.sort(order(sort));
    }
    Slice<Stored<Defect>> shown = Slice.of(c, rows, MOST_ROWS);
    return new Rows(
        now.lastChange(),
        rows.size(),
        shown.from(),
        shown.rows().stream().map(r -> DefectView.of(r, now)).toList());
  }

  /** A column's order; a minus before its name turns it round. Ties go by road and place. */
  private static Comparator<Stored<Defect>> order(String sort) {
    boolean down = sort.startsWith("-");
    String column = down ? sort.substring(1) : sort;
    Comparator<Defect> place =
        Comparator.comparing((Defect d) -> d.place().routeId())
            .thenComparingDouble(d -> d.place().fromAlongM());
    Comparator<Defect> by =
        switch (column) {
          case "id" -> Comparator.comparing(Defect::id);
          case "place" -> place;
          case "lane" -> Comparator.comparing(d -> d.lane().code());
          case "kind" -> Comparator.comparing(d -> DeskWords.code(d.kind()));
          case "severity" -> Comparator.comparing(Defect::severity);
          case "status" -> Comparator.comparing(d -> DeskWords.code(d.status()));
          case "size" -> Comparator.comparingDouble(Defect::areaM2);
          case "foundOn" -> Comparator.comparing(Defect::foundOn);
          case "foundBy" -> Comparator.comparing(Defect::foundBy);
          default ->
              throw new Problem(
                  Problem.Kind.BAD_REQUEST,
                  "'"
                      + column
                      + "' is no column to sort by; there are id, place, lane, kind, severity,"
                      + " status, size, foundOn and foundBy");
        };
    Comparator<Defect> whole = (down ? by.reversed() : by).thenComparing(place);
    return Comparator.comparing(Stored::value, whole);
  }

  private List<Past> history(String id) {
    DefectRows.of(county.get(), id);
    List<Past> past = new ArrayList<>();
    for (LoggedChange change : county.read(s -> s.history("defect", id))) {
      past.add(
          new Past(
              change.edit(),
              change.at(),
              change.who(),
              change.why(),
              change.action(),
              fields(change)));
    }
    return past;
  }

  private static List<Field> fields(LoggedChange change) {
    if (change.before() == null || change.after() == null) {
      return List.of();
    }
    try {
      JsonNode before = Api.JSON.readTree(change.before());
      JsonNode after = Api.JSON.readTree(change.after());
      List<Field> fields = new ArrayList<>();
      Iterator<String> names = after.fieldNames();
      while (names.hasNext()) {
        String name = names.next();
        String was = before.path(name).asText();
        String is = after.path(name).asText();
        if (!NOT_TOLD.contains(name) && !was.equals(is)) {
          fields.add(new Field(name, was, is));
        }
      }
      return fields;
    } catch (JsonProcessingException e) {
      throw new Problem(Problem.Kind.FAULT, "the change log cannot be read: " + e.getMessage());
    }
  }

  private void add(Context c) {
    DefectForm form = Api.body(c, DefectForm.class);
    County now = county.get();
    AtomicReference<Stored<Defect>> made = new AtomicReference<>();
    store.write(
        Caller.name(c),
        "desk: add defect",
        change -> {
          String id = NewDefectId.free(change, today());
          made.set(change.defects().insert(form.make(id, now, today())));
        });
    c.status(201).header("Location", "/api/defects/" + made.get().value().id());
    answer(c, made.get(), county.get());
  }

  private LocalDate today() {
    return LocalDate.now(clock);
  }

  private void change(Context c) {
    DefectForm form = Api.body(c, DefectForm.class);
    String id = c.pathParam("id");
    long version = version(c);
    County now = county.get();
    AtomicReference<Stored<Defect>> made = new AtomicReference<>();
    store.write(
        Caller.name(c),
        "desk: change defect",
        change -> {
          Stored<Defect> row = DefectRows.of(change, id);
          if (row.version() != version) {
            throw new Problem(
                    Problem.Kind.STALE,
                    "defect " + id + " was changed by somebody else while you had it open")
                .with("yours", form)
                .with("theirs", DefectView.of(row, now));
          }
          made.set(change.defects().update(row, form.change(row.value(), now, today())));
        });
    answer(c, made.get(), county.get());
  }

  /** The version in {@code If-Match}, as the ETag of the answer before gave it. */
  static long version(Context c) {
    String given = c.header("If-Match");
    if (given == null || !given.matches("\"?\\d{1,18}\"?")) {
      throw new Problem(
          Problem.Kind.VERSION_MISSING,
          "a change needs the version that was read, as If-Match: \"3\"");
    }
    return Long.parseLong(given.replace("\"", ""));
  }
}
