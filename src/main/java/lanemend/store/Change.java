package lanemend.store;

import java.sql.SQLException;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.Plant;
import lanemend.crewdays.Yard;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.inventory.Defect;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.SurveyedDistress;
import lanemend.inventory.edit.EventFate;
import lanemend.network.CalibrationPost;
import lanemend.network.Connector;
import lanemend.network.Edition;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.network.edit.RoadEdit;
import lanemend.patching.ChosenTreatment;
import lanemend.patching.LearnedFactor;
import lanemend.renewal.DecidedSection;

/**
 * One write in the making: everything done to it lands together when the call it was given to
 * returns, or nothing does when that call throws. Use it only inside that call.
 */
public final class Change {
  private final Session session;
  private final Snapshot snapshot;
  private final String who;
  private final String at;
  private final Extents extents = new Extents();
  private final Map<String, RoadLine> lines = new HashMap<>();
  private final Roads roads =
      new Roads() {
        @Override
        public int srsId() {
          return session.srsId();
        }

        @Override
        public RoadLine line(String roadId) {
          return lines.computeIfAbsent(roadId, Change.this::readLine);
        }
      };

  Change(Session session, String crsWkt, String who, String at) {
    this.session = session;
    this.snapshot = new Snapshot(session, crsWkt);
    this.who = who;
    this.at = at;
  }

  Session session() {
    return session;
  }

  /** The store as this change has made it so far. */
  public Snapshot soFar() {
    return snapshot;
  }

  /**
   * Adds routes (with their posts) and connectors.
   *
   * @throws StoreException when an id is already there; ids are shared by routes and connectors
   */
  public void addNetwork(Network network) {
    for (Route r : network.routes().values()) {
      addRoute(r);
    }
    EditableRows<Connector> connectors = rows(NetworkShapes.CONNECTOR);
    for (Connector c : network.connectors()) {
      session.insert(Tables.ROADWAY, c.id(), c.id());
      connectors.insert(c);
      lines.put(c.id(), new RoadLine(List.of(c.line())));
    }
  }

  /** Adds one route with its posts. */
  public void addRoute(Route route) {
    session.insert(Tables.ROADWAY, route.id(), route.id());
    rows(routeShape()).insert(route);
    lines.put(route.id(), new RoadLine(route.parts()));
    addPosts(route);
  }

  /**
   * Writes a route's line and posts over the same edition as read before; events stay as they are.
   *
   * @throws StaleRowException when somebody else changed it since
   */
  public Stored<Route> updateRoute(Stored<Route> read, Route now) {
    Route was = read.value();
    if (!was.id().equals(now.id()) || was.edition().number() != now.edition().number()) {
      throw new IllegalArgumentException(
          "an update keeps id and edition: " + was.id() + ", " + now.id());
    }
    session.run(
        () ->
            session
                .statement(
                    "DELETE FROM calibration_post WHERE route_id = ? AND edition = ?",
                    was.id(),
                    was.edition().number())
                .executeUpdate());
    extents.shrink(Tables.POST);
    Stored<Route> stored = rows(routeShape()).update(read, now);
    lines.put(now.id(), new RoadLine(now.parts()));
    addPosts(now);
    return stored;
  }

  private NetworkShapes.RouteShape routeShape() {
    return new NetworkShapes.RouteShape(Map.of());
  }

  private void addPosts(Route route) {
    NetworkShapes.RouteEdition on =
        new NetworkShapes.RouteEdition(route.id(), route.edition().number());
    EditableRows<NetworkShapes.Post> posts = rows(NetworkShapes.POST);
    for (CalibrationPost p : route.mileposts().posts()) {
      double[] xy = roads.line(route.id()).at(p.alongM());
      posts.insert(new NetworkShapes.Post(on, p, xy[0], xy[1]));
    }
  }

  public EditableRows<Defect> defects() {
    return rows(EventShapes.DEFECT);
  }

  public EditableRows<Finding> findings() {
    return rows(EventShapes.FINDING);
  }

  public EditableRows<PastPatch> patches() {
    return rows(EventShapes.PATCH);
  }

  /** Attributes of routes and, under their own ids, of connectors. */
  public EditableRows<RoadAttribute> attributes() {
    return rows(EventShapes.ATTRIBUTE);
  }

  /** Engineers' decisions on sections that may be overlaid. */
  public EditableRows<DecidedSection> decisions() {
    return rows(RenewalShapes.DECISION);
  }

  /** Defects that planning set aside for an agreed overlay. */
  public EditableRows<HeldDefect> held() {
    return rows(RenewalShapes.HELD);
  }

  /** Distress that condition surveys measured. */
  public EditableRows<SurveyedDistress> surveys() {
    return rows(PavementShapes.DISTRESS);
  }

  /** What is known of the pavement's layers. */
  public EditableRows<PavementLayer> layers() {
    return rows(PavementShapes.LAYER);
  }

  /** Treatments chosen by hand. */
  public EditableRows<ChosenTreatment> chosenTreatments() {
    return rows(ChosenTreatmentShape.CHOSEN);
  }

  /** What was planned of past patches. */
  public EditableRows<PlannedWork> plannedWork() {
    return rows(LearningShapes.PLANNED);
  }

  /** Factors learned from done work, as accepted. */
  public EditableRows<LearnedFactor> learnedFactors() {
    return rows(LearningShapes.FACTOR);
  }

  public EditableRows<Setting> settings() {
    return rows(SettingShape.SETTING);
  }

  /** Sets a setting, whatever it was before. */
  public void putSetting(String key, String json) {
    Optional<Stored<Setting>> before = settings().find(key);
    if (before.isPresent()) {
      settings().update(before.get(), new Setting(key, json));
    } else {
      settings().insert(new Setting(key, json));
    }
  }

  /** What people settled about the plan. */
  public EditableRows<HandRule> handRules() {
    return rows(HandRuleShape.HAND_RULE);
  }

  /** Puts this plan in place of the one before, which stays to be compared with. */
  public void replaceAssignment(Assignment plan) {
    PlanBefore.keep(session, extents);
    PlanRows.replace(session, roads, extents, plan);
  }

  /** Puts these yards and plants on the map layers in place of those before. */
  public void replacePlaces(List<Yard> yards, List<Plant> plants) {
    PlanRows.replacePlaces(session, extents, yards, plants);
  }

  /**
   * Edits roads: ends the editions of before, adds those of after and carries every event over.
   *
   * @return what became of each event of which anything became
   */
  public List<EventFate> edit(RoadEdit edit) {
    return new RoadEditing(this, session, edit).apply(snapshot.crsWkt());
  }

  /** Events to look at after an edit of their road. */
  public EditableRows<ReviewEntry> review() {
    return rows(EditShapes.REVIEW);
  }

  EditableRows<FormerPlace> formerPlaces() {
    return rows(EditShapes.FORMER);
  }

  /** The line of a road as this change has made it so far. */
  RoadLine line(String roadId) {
    return roads.line(roadId);
  }

  /** Says that rows of this table are written by hand-made SQL. */
  void touch(Table table) {
    extents.shrink(table);
  }

  void endEdition(Stored<Route> read, LocalDate on) {
    Route r = read.value();
    rows(routeShape())
        .update(
            read, r.withEdition(new Edition(r.edition().number(), r.edition().validFrom(), on)));
    lines.remove(r.id());
  }

  /** Adds a road under an id that is new, or under that of a road that was given up. */
  public void addNextEdition(Route route) {
    if (snapshot.route(route.id()).isPresent()) {
      throw new StoreException("route '" + route.id() + "' is already in the store");
    }
    addEdition(route);
  }

  /** A further edition of a route, or the first under an id. */
  void addEdition(Route route) {
    if (rows(NetworkShapes.ROADWAY).find(route.id()).isEmpty()) {
      session.insert(Tables.ROADWAY, route.id(), route.id());
    }
    rows(routeShape()).insert(route);
    lines.put(route.id(), new RoadLine(route.parts()));
    addPosts(route);
  }

  /** Ends a fact and leaves it drawn where it was, on the edition it was true of. */
  void endAttribute(Stored<RoadAttribute> read, LocalDate on) {
    touch(Tables.ATTRIBUTE);
    session.run(
        () ->
            session
                .statement(
                    "UPDATE road_attribute SET valid_to = ? WHERE fid = ?",
                    on.toString(),
                    read.row())
                .executeUpdate());
  }

  /** Which photos show what. */
  public EditableRows<Photo> photos() {
    return rows(FieldShapes.PHOTO);
  }

  /** Keeps a photo's file; one that is there already stays as it is. */
  public void keepPhoto(PhotoContent photo) {
    FieldShapes.keep(session, photo, at);
  }

  /** Entries of phones whose place was not clear. */
  public EditableRows<FieldEntry> fieldEntries() {
    return rows(FieldShapes.ENTRY);
  }

  /**
   * Notes that an entry arrived and what became of it.
   *
   * @throws StoreException when one with its id arrived before
   */
  public void receive(EntryReceived entry) {
    FieldShapes.receive(session, entry, at, who);
  }

  /** Keeps what an imported file gave. */
  public void recordImport(ImportRun run) {
    ImportRows.write(session, run, at, who);
  }

  void finish() throws SQLException {
    extents.write(session, at);
  }

  private <T> EditableRows<T> rows(RowShape<T> shape) {
    return new EditableRows<>(session, shape, roads, extents);
  }

  private RoadLine readLine(String roadId) {
    Optional<Stored<Route>> route = snapshot.route(roadId);
    if (route.isPresent()) {
      return new RoadLine(route.get().value().parts());
    }
    return snapshot
        .connectors()
        .find(roadId)
        .map(c -> new RoadLine(List.of(c.value().line())))
        .orElseThrow(
            () -> new StoreException("no route or connector '" + roadId + "' is in the store"));
  }
}
