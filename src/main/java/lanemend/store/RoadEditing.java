package lanemend.store;

import java.time.LocalDate;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Function;
import lanemend.inventory.Defect;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.SurveyedDistress;
import lanemend.inventory.edit.EventFate;
import lanemend.inventory.edit.RoadEvent;
import lanemend.network.Lane;
import lanemend.network.Route;
import lanemend.network.Side;
import lanemend.network.edit.Image;
import lanemend.network.edit.RoadEdit;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;

/** Writes an edit of roads: ends editions, adds new ones, and carries every event over. */
final class RoadEditing {
  private final Change change;
  private final Session session;
  private final RoadEdit edit;

  RoadEditing(Change change, Session session, RoadEdit edit) {
    this.change = change;
    this.session = session;
    this.edit = edit;
  }

  List<EventFate> apply(String crsWkt) {
    EventsOnEdit.All events = EventsOnEdit.of(session, change.soFar(), edit, crsWkt);
    for (Route old : edit.before()) {
      Stored<Route> read = change.soFar().route(old.id()).orElseThrow();
      if (read.value().edition().number() != old.edition().number()) {
        throw new StoreException(old.id() + " was edited by somebody else meanwhile");
      }
      change.endEdition(read, edit.on());
    }
    edit.after().forEach(change::addEdition);
    events
        .defects()
        .forEach(
            f -> {
              Defect d = f.row().value();
              moved(change.defects(), f, d.place(), (p, turn) -> defect(d, p, turn));
            });
    events
        .findings()
        .forEach(
            f -> {
              Finding was = f.row().value();
              moved(change.findings(), f, was.place(), (p, turn) -> finding(was, p, turn));
            });
    events
        .patches()
        .forEach(
            f -> {
              PastPatch was = f.row().value();
              moved(change.patches(), f, was.place(), (p, turn) -> patch(was, p, turn));
            });
    events.attributes().forEach(this::attribute);
    events.decisions().forEach(this::decision);
    events
        .surveys()
        .forEach(
            f ->
                record(
                    change.surveys(),
                    f,
                    now -> at(f.row().value(), now.routeId(), now.fromM(), now.toM())));
    events
        .layers()
        .forEach(
            f ->
                record(
                    change.layers(),
                    f,
                    now -> at(f.row().value(), now.routeId(), now.fromM(), now.toM())));
    new PlannedZones(change, session).follow(edit);
    return events.fates();
  }

  private <T> void moved(
      EditableRows<T> rows,
      EventsOnEdit.Fated<T> f,
      Place was,
      BiFunction<Place, Boolean, T> moved) {
    String table = rows.shape.table().name();
    String key = f.fate().event().key();
    if (f.fate().changed()) {
      boolean turned = !f.fate().leavesRoad() && f.fate().now().get(0).turned();
      former(table, f, was.routeId(), was.fromAlongM(), was.toAlongM(), turned);
    }
    if (f.fate().changed() && !f.fate().leavesRoad()) {
      Image now = f.fate().now().get(0);
      double[] xy = change.line(now.routeId()).at((now.fromM() + now.toM()) / 2);
      Place place = new Place(now.routeId(), now.fromM(), now.toM(), xy[0], xy[1], was.entered());
      rows.update(f.row(), moved.apply(place, now.turned()));
    }
    look(table, f.row().row(), key, f.fate());
  }

  private void former(
      String table,
      EventsOnEdit.Fated<?> f,
      String routeId,
      double fromM,
      double toM,
      boolean turned) {
    int edition = edit.before(routeId).orElseThrow().edition().number();
    change
        .formerPlaces()
        .insert(
            new FormerPlace(
                table,
                f.row().row(),
                f.fate().event().key(),
                new FormerPlace.Stretch(routeId, edition, fromM, toM),
                edit.on(),
                turned,
                f.fate().leavesRoad()));
  }

  private void look(String table, long row, String key, EventFate fate) {
    if (fate.needsLook()) {
      change
          .review()
          .insert(
              new ReviewEntry(
                  table, row, key, fate.look(), edit.on(), !fate.leavesRoad(), null, "", null, ""));
    }
  }

  private static Defect defect(Defect d, Place place, boolean turned) {
    return d.withPlace(place).withLane(turned ? other(d.lane()) : d.lane());
  }

  private static Finding finding(Finding f, Place place, boolean turned) {
    Side side = turned ? other(f.side()) : f.side();
    return new Finding(f.id(), f.kind(), place, side, f.foundOn(), f.foundBy(), f.note());
  }

  private static PastPatch patch(PastPatch p, Place place, boolean turned) {
    return new PastPatch(
        p.id(),
        p.work(),
        place,
        turned && p.lane() != null ? other(p.lane()) : p.lane(),
        p.doneOn(),
        p.tonnes(),
        p.crewHours(),
        p.cost());
  }

  static Defect at(Defect d, Place place, boolean turned) {
    return defect(d, place, turned);
  }

  static Finding at(Finding f, Place place, boolean turned) {
    return finding(f, place, turned);
  }

  static PastPatch at(PastPatch p, Place place, boolean turned) {
    return patch(p, place, turned);
  }

  private static Lane other(Lane lane) {
    return new Lane(other(lane.side()), lane.number());
  }

  static Side other(Side side) {
    return side == Side.LEFT ? Side.RIGHT : Side.LEFT;
  }

  /**
   * A fact keeps its time by its own days: it ends on the old edition and goes on, in as many
   * pieces as it has now, on the new one.
   */
  private void attribute(EventsOnEdit.Fated<RoadAttribute> f) {
    Stored<RoadAttribute> row = f.row();
    String table = Tables.ATTRIBUTE.name();
    if (!f.fate().changed()) {
      look(table, row.row(), f.fate().event().key(), f.fate());
      return;
    }
    RoadAttribute was = row.value();
    LocalDate since = was.validFrom();
    boolean begun = since == null || since.isBefore(edit.on());
    if (begun) {
      change.endAttribute(row, edit.on());
    } else {
      change.attributes().delete(row);
    }
    for (Image now : f.fate().now()) {
      RoadAttribute piece =
          was.over(now.routeId(), now.fromM(), now.toM())
              .during(begun ? edit.on() : since, was.validTo());
      Stored<RoadAttribute> added = change.attributes().insert(piece);
      look(table, added.row(), piece.routeId() + " " + piece.name(), f.fate());
    }
  }

  private <T> void record(EditableRows<T> rows, EventsOnEdit.Fated<T> f, Function<Image, T> moved) {
    String table = rows.shape.table().name();
    RoadEvent was = f.fate().event();
    if (f.fate().changed()) {
      former(table, f, was.routeId(), was.fromAlongM(), was.toAlongM(), false);
    }
    if (f.fate().changed() && !f.fate().leavesRoad()) {
      rows.update(f.row(), moved.apply(f.fate().now().get(0)));
    }
    look(table, f.row().row(), was.key(), f.fate());
  }

  static SurveyedDistress at(SurveyedDistress d, String routeId, double fromM, double toM) {
    SurveyedDistress.Unit u = d.unit();
    return new SurveyedDistress(
        d.id(),
        d.sample(),
        new SurveyedDistress.Unit(
            routeId, fromM, toM, u.areaM2(), u.additional(), u.surveyedOn(), u.surveyedBy()),
        d.kind(),
        d.severity(),
        d.quantity());
  }

  static PavementLayer at(PavementLayer l, String routeId, double fromM, double toM) {
    return new PavementLayer(
        l.id(), routeId, fromM, toM, l.course(), l.thicknessM(), l.year(), l.source());
  }

  private void decision(EventsOnEdit.Fated<DecidedSection> f) {
    DecidedSection was = f.row().value();
    EngineerDecision d = was.decision();
    String table = Tables.RENEWAL_DECISION.name();
    if (f.fate().changed()) {
      former(table, f, was.routeId(), d.fromAlongM(), d.toAlongM(), false);
    }
    if (f.fate().changed() && !f.fate().leavesRoad()) {
      Image now = f.fate().now().get(0);
      EngineerDecision moved = d.between(now.fromM(), now.toM());
      change
          .decisions()
          .update(f.row(), new DecidedSection(now.routeId(), moved, was.overlayYear()));
    }
    look(table, f.row().row(), d.sectionId(), f.fate());
  }
}
