package lanemend.store;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import lanemend.inventory.Defect;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.SurveyedDistress;
import lanemend.inventory.edit.EventFate;
import lanemend.inventory.edit.EventKind;
import lanemend.inventory.edit.EventRules;
import lanemend.inventory.edit.RoadEvent;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;
import lanemend.network.edit.RoadEdit;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;

/** Every event of the edited roads with what becomes of it. Reads only. */
final class EventsOnEdit {
  /** An event that lies on no road is left alone until somebody places it. */
  private static final String ON_ROAD =
      " AND NOT EXISTS (SELECT 1 FROM former_place f WHERE f.table_name = '%s' AND f.row_fid ="
          + " t.fid AND f.left_road = 1)";

  /** A row and what becomes of it. */
  record Fated<T>(Stored<T> row, EventFate fate) {}

  /** What becomes of all rows that something becomes of. */
  record All(
      List<Fated<Defect>> defects,
      List<Fated<Finding>> findings,
      List<Fated<PastPatch>> patches,
      List<Fated<RoadAttribute>> attributes,
      List<Fated<DecidedSection>> decisions,
      List<Fated<SurveyedDistress>> surveys,
      List<Fated<PavementLayer>> layers) {

    List<EventFate> fates() {
      List<EventFate> all = new ArrayList<>();
      defects.forEach(f -> all.add(f.fate()));
      findings.forEach(f -> all.add(f.fate()));
      patches.forEach(f -> all.add(f.fate()));
      attributes.forEach(f -> all.add(f.fate()));
      decisions.forEach(f -> all.add(f.fate()));
      surveys.forEach(f -> all.add(f.fate()));
      layers.forEach(f -> all.add(f.fate()));
      return all;
    }
  }

  private final Session session;
  private final RoadEdit edit;
  private final EventRules rules;

  private EventsOnEdit(Session session, RoadEdit edit, EventRules rules) {
    this.session = session;
    this.edit = edit;
    this.rules = rules;
  }

  static All of(Session session, Snapshot snapshot, RoadEdit edit, String crsWkt) {
    EventRules rules = new EventRules(edit, snapshot.network(), ProjectedCrs.fromWkt(crsWkt));
    EventsOnEdit events = new EventsOnEdit(session, edit, rules);
    return new All(
        events.of(EventShapes.DEFECT, "", RoadEvent::of),
        events.of(EventShapes.FINDING, "", RoadEvent::of),
        events.of(EventShapes.PATCH, "", RoadEvent::of),
        events.of(
            EventShapes.ATTRIBUTE,
            " AND (t.valid_to IS NULL OR t.valid_to > '" + edit.on() + "')",
            RoadEvent::of),
        events.of(RenewalShapes.DECISION, "", EventsOnEdit::event),
        events.of(PavementShapes.DISTRESS, "", EventsOnEdit::event),
        events.of(PavementShapes.LAYER, "", EventsOnEdit::event));
  }

  private static RoadEvent event(SurveyedDistress d) {
    SurveyedDistress.Unit u = d.unit();
    return record(d.id(), u.routeId(), u.fromAlongM(), u.toAlongM());
  }

  private static RoadEvent event(PavementLayer l) {
    return record(l.id(), l.routeId(), l.fromAlongM(), l.toAlongM());
  }

  private static RoadEvent record(String id, String routeId, double fromM, double toM) {
    return new RoadEvent(EventKind.RECORD, id, "", routeId, fromM, toM, null);
  }

  private static RoadEvent event(DecidedSection section) {
    EngineerDecision d = section.decision();
    return new RoadEvent(
        EventKind.DECISION,
        d.sectionId(),
        "",
        section.routeId(),
        d.fromAlongM(),
        d.toAlongM(),
        null);
  }

  private <T> List<Fated<T>> of(RowShape<T> shape, String further, Function<T, RoadEvent> event) {
    List<Route> routes = edit.before();
    String marks = String.join(", ", Collections.nCopies(routes.size(), "?"));
    String where =
        " WHERE t.route_id IN (" + marks + ")" + ON_ROAD.formatted(shape.table().name()) + further;
    Object[] ids = routes.stream().map(Route::id).toArray();
    List<Fated<T>> fated = new ArrayList<>();
    for (Stored<T> row : new Rows<>(session, shape).select(where, ids)) {
      Optional<EventFate> fate = rules.fate(event.apply(row.value()));
      fate.ifPresent(f -> fated.add(new Fated<>(row, f)));
    }
    return fated;
  }
}
