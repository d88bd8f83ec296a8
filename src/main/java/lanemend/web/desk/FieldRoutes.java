package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicReference;
import lanemend.county.County;
import lanemend.county.FieldPhotos;
import lanemend.inventory.Defect;
import lanemend.store.Change;
import lanemend.store.EntryReceived;
import lanemend.store.FieldEntry;
import lanemend.store.Photo;
import lanemend.store.Stored;

/**
 * What phones at the roadside need and send. An entry has an id its phone made: sent again it
 * changes nothing and is answered as before. A place that is not clear is not guessed; the entry
 * waits for somebody who looks at it.
 */
final class FieldRoutes implements Area {
  /** Fields of a refusal that say the place is not clear. */
  private static final Set<String> PLACE = Set.of("longitude", "route", "direction", "milepost");

  private static final int MOST_PHOTOS = 12;
  private static final String DEFECT = "defect";
  private static final String ENTRY = "field_entry";

  private final CurrentCounty county;
  private final Clock clock;
  private final FieldCounty.Kept kept = new FieldCounty.Kept();

  FieldRoutes(CurrentCounty county, Clock clock) {
    this.county = county;
    this.clock = clock;
  }

  /**
   * What became of an entry.
   *
   * @param became {@code defect}, {@code finding}, or {@code field_entry}, which waits to be placed
   * @param key the defect's id, or the entry's
   * @param before whether it had arrived already
   */
  record Arrived(String id, String became, String key, boolean before, String said) {}

  /** An entry that waits to be placed. */
  record Waiting(
      String id,
      long version,
      String reason,
      String sentBy,
      LocalDate raisedOn,
      EntryForm entry,
      List<String> photos) {}

  /** Where somebody says it is: a road alone keeps the point that was sent. */
  record PlaceForm(String route, String milepost, String lane) {}

  /** Why it is set aside. */
  record WithdrawForm(String note) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/field/county", c -> kept.answer(c, county.index()));
    api.put("/api/field/entries/{id}", this::receive);
    api.get("/api/field/entries", c -> c.json(waiting()));
    api.post("/api/field/entries/{id}/place", this::place);
    api.post("/api/field/entries/{id}/withdraw", this::withdraw);
  }

  private static String id(Context c) {
    return FieldEntries.id(c.pathParam("id"));
  }

  private LocalDate today() {
    return LocalDate.now(clock);
  }

  private void receive(Context c) {
    String id = id(c);
    EntryForm form = Api.body(c, EntryForm.class);
    String json = FieldEntries.json(form);
    String digest = FieldEntries.digest(json);
    Optional<EntryReceived> before = county.read(s -> s.received(id));
    if (before.isEmpty()) {
      try {
        Arrived arrived = take(id, form, json, digest, Caller.name(c));
        c.status(201).json(arrived);
        return;
      } catch (FieldEntries.CameBefore e) {
        before = Optional.of(e.entry());
      }
    }
    c.json(arrivedBefore(before.get(), digest));
  }

  private Arrived arrivedBefore(EntryReceived entry, String digest) {
    String key = entry.becameKey();
    String became = entry.becameTable();
    if (became.equals(ENTRY)) {
      Optional<FieldEntry> waits =
          county.read(s -> s.fieldEntries().find(entry.becameKey())).map(Stored::value);
      if (waits.isPresent() && waits.get().settled() == FieldEntry.Settled.PLACED) {
        became = DEFECT;
        key = waits.get().becameId();
      }
    }
    if (!entry.digest().equals(digest)) {
      throw new Problem(
              Problem.Kind.NO_LONGER,
              "this entry arrived before it was changed and "
                  + (became.equals(DEFECT) ? "is " + key : "waits to be placed")
                  + "; change it on the desk")
          .with("became", became)
          .with("key", key);
    }
    return new Arrived(
        entry.entryId(),
        became,
        key,
        true,
        became.equals(DEFECT) ? "It arrived before as " + key + "." : "It arrived before.");
  }

  private Arrived take(String id, EntryForm form, String json, String digest, String who) {
    County now = county.get();
    check(form, now);
    AtomicReference<Arrived> arrived = new AtomicReference<>();
    county
        .store()
        .write(
            who,
            "phone: add defect",
            change -> {
              FieldEntries.refuseAgain(change, id);
              Arrived made = placeOrKeep(change, id, form, json, now, who);
              change.receive(new EntryReceived(id, digest, made.became(), made.key()));
              arrived.set(made);
            });
    return arrived.get();
  }

  private static void check(EntryForm form, County now) {
    if (form.photos().size() > MOST_PHOTOS) {
      throw new Problem(
              Problem.Kind.BAD_VALUE,
              form.photos().size() + " photos, expected at most " + MOST_PHOTOS)
          .with("field", "photos");
    }
    String units = DeskWords.code(now.units());
    if (!units.equals(form.units())) {
      throw new Problem(
              Problem.Kind.BAD_VALUE,
              "lengths were entered in '"
                  + form.units()
                  + "', and the agency reads '"
                  + units
                  + "'; enter them again")
          .with("field", "length");
    }
  }

  private Arrived placeOrKeep(
      Change change, String id, EntryForm form, String json, County now, String who) {
    String defectId = NewDefectId.free(change, today());
    boolean byPoint = !form.byMilepost() && form.lon() != null && form.lat() != null;
    boolean roadOpen = form.route() == null || form.route().isBlank();
    Defect defect;
    try {
      defect = form.asForm().make(defectId, now, today());
    } catch (Problem p) {
      if (byPoint && PLACE.contains(String.valueOf(p.member("field")))) {
        return keep(change, id, form, json, p.getMessage(), who);
      }
      throw p;
    }
    if (byPoint && roadOpen) {
      // Whoever stood there was not sure, so neither is the desk, however near one road lies.
      return keep(
          change,
          id,
          form,
          json,
          "the road was left open; it may be " + placeText(defect, now),
          who);
    }
    change.defects().insert(defect);
    photos(change, form, Photo.Of.DEFECT, defectId, who);
    return new Arrived(id, DEFECT, defectId, false, defectId + ", " + placeText(defect, now) + ".");
  }

  private static String placeText(Defect defect, County now) {
    return defect.place().routeId()
        + " milepost "
        + now.network()
            .route(defect.place().routeId())
            .orElseThrow()
            .mileposts()
            .at(defect.place().middleAlongM())
            .text();
  }

  private Arrived keep(
      Change change, String id, EntryForm form, String json, String reason, String who) {
    change.fieldEntries().insert(FieldEntry.waiting(id, json, reason, who, today()));
    photos(change, form, Photo.Of.ENTRY, id, who);
    return new Arrived(
        id, ENTRY, id, false, "It waits for the office to place it, as its road is not clear.");
  }

  private void photos(Change change, EntryForm form, Photo.Of of, String owner, String who) {
    String by = form.foundBy() == null || form.foundBy().isBlank() ? who : form.foundBy();
    LocalDate on = form.foundOn() == null ? today() : form.foundOn();
    for (String hash : form.photos()) {
      FieldPhotos.add(change, of, owner, new FieldPhotos.Taken(hash, on, by));
    }
  }

  private static EntryForm form(FieldEntry entry) {
    try {
      return Api.JSON.readValue(entry.json(), EntryForm.class);
    } catch (JsonProcessingException e) {
      throw new Problem(
          Problem.Kind.FAULT,
          "entry " + entry.entryId() + " cannot be read: " + e.getOriginalMessage());
    }
  }

  private List<Waiting> waiting() {
    return county.read(
        s ->
            s.fieldEntries().stored().stream()
                .filter(row -> row.value().settled() == null)
                .map(
                    row ->
                        new Waiting(
                            row.value().entryId(),
                            row.version(),
                            row.value().reason(),
                            row.value().sentBy(),
                            row.value().raisedOn(),
                            form(row.value()),
                            s.photosOf(Photo.Of.ENTRY, row.value().entryId()).stream()
                                .map(p -> p.value().hash())
                                .toList()))
                .toList());
  }

  private static Stored<FieldEntry> open(Change change, String id) {
    Stored<FieldEntry> row =
        change
            .fieldEntries()
            .find(id)
            .orElseThrow(
                () -> new Problem(Problem.Kind.NOT_FOUND, "there is no entry '" + id + "'"));
    if (row.value().settled() != null) {
      throw new Problem(
          Problem.Kind.NO_LONGER,
          "this entry was settled by "
              + row.value().settledBy()
              + " on "
              + row.value().settledOn()
              + (row.value().becameId().isEmpty() ? "" : " and is " + row.value().becameId()));
    }
    return row;
  }

  private void place(Context c) {
    String id = id(c);
    String who = Caller.name(c);
    PlaceForm where = Api.body(c, PlaceForm.class);
    County now = county.get();
    AtomicReference<Stored<Defect>> made = new AtomicReference<>();
    county
        .store()
        .write(
            who,
            "desk: place a phone's entry",
            change -> {
              Stored<FieldEntry> row = open(change, id);
              EntryForm entry = form(row.value());
              String defectId = NewDefectId.free(change, today());
              boolean sameLane = where.lane() == null || where.lane().isBlank();
              DefectForm form =
                  entry.onRoad(
                      where.route(), where.milepost(), sameLane ? entry.lane() : where.lane());
              made.set(change.defects().insert(form.make(defectId, now, today())));
              FieldPhotos.place(change, id, defectId);
              change.fieldEntries().update(row, row.value().placed(defectId, who, today()));
            });
    c.status(201).json(DefectView.of(made.get(), county.get()));
  }

  private void withdraw(Context c) {
    String id = id(c);
    String who = Caller.name(c);
    String note = Api.body(c, WithdrawForm.class).note();
    if (note == null || note.isBlank()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "say why the entry is set aside")
          .with("field", "note");
    }
    county
        .store()
        .write(
            who,
            "desk: set a phone's entry aside",
            change -> {
              Stored<FieldEntry> row = open(change, id);
              change.fieldEntries().update(row, row.value().withdrawn(note.strip(), who, today()));
            });
    c.json(waiting());
  }
}
