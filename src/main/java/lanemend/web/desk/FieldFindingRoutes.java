package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import lanemend.inventory.Finding;
import lanemend.store.EntryReceived;

/**
 * Findings phones at the roadside send; one sent again changes nothing and is answered as before.
 */
final class FieldFindingRoutes implements Area {
  private static final String FINDING = "finding";

  private final CurrentCounty county;
  private final Clock clock;

  FieldFindingRoutes(CurrentCounty county, Clock clock) {
    this.county = county;
    this.clock = clock;
  }

  @Override
  public void addTo(Api api) {
    api.put("/api/field/findings/{id}", this::receive);
  }

  private void receive(Context c) {
    String id = FieldEntries.id(c.pathParam("id"));
    FindingForm form = Api.body(c, FindingForm.class);
    String digest = FieldEntries.digest(FieldEntries.json(form));
    Optional<EntryReceived> before = county.read(s -> s.received(id));
    if (before.isEmpty()) {
      try {
        c.status(201).json(take(id, form, digest, Caller.name(c)));
        return;
      } catch (FieldEntries.CameBefore e) {
        before = Optional.of(e.entry());
      }
    }
    String key = before.get().becameKey();
    if (!before.get().digest().equals(digest)) {
      throw new Problem(
              Problem.Kind.NO_LONGER, "this entry arrived before it was changed and is " + key)
          .with("became", before.get().becameTable())
          .with("key", key);
    }
    c.json(
        new FieldRoutes.Arrived(
            id, before.get().becameTable(), key, true, "It arrived before as " + key + "."));
  }

  private FieldRoutes.Arrived take(String id, FindingForm form, String digest, String who) {
    LocalDate today = LocalDate.now(clock);
    var now = county.get();
    AtomicReference<FieldRoutes.Arrived> arrived = new AtomicReference<>();
    county
        .store()
        .write(
            who,
            "phone: add finding",
            change -> {
              FieldEntries.refuseAgain(change, id);
              Finding made = form.make(NewDefectId.freeFinding(change, today), now, today);
              change.findings().insert(made);
              change.receive(new EntryReceived(id, digest, FINDING, made.id()));
              String at =
                  made.place().routeId()
                      + " milepost "
                      + PlanView.milepost(now, made.place().routeId(), made.place().fromAlongM());
              arrived.set(
                  new FieldRoutes.Arrived(
                      id, FINDING, made.id(), false, made.id() + ", " + at + "."));
            });
    return arrived.get();
  }
}
