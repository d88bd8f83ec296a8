package lanemend.store;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRule;
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
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.network.edit.RoadEdit;
import lanemend.patching.ChosenTreatment;
import lanemend.patching.LearnedFactor;
import lanemend.renewal.DecidedSection;

/**
 * The store as it was at one moment: what one {@link Store#read} sees, whatever is written
 * meanwhile. Use it only inside the call it was given to.
 */
public final class Snapshot {
  private final Session session;
  private final String crsWkt;

  Snapshot(Session session, String crsWkt) {
    this.session = session;
    this.crsWkt = crsWkt;
  }

  /** All current roads: routes whose edition has no end, and connectors. */
  public Network network() {
    Map<String, Route> routes = new LinkedHashMap<>();
    for (Stored<Route> r : routeRows().select(" WHERE valid_to IS NULL")) {
      routes.put(r.value().id(), r.value());
    }
    return new Network(crsWkt, routes, connectors().all());
  }

  /** Number of the last edition of every route that ever was, by id. */
  public Map<String, Integer> lastEditions() {
    return session.run(
        () -> {
          Map<String, Integer> last = new HashMap<>();
          String sql = "SELECT id, max(edition) FROM route GROUP BY id";
          try (ResultSet r = session.statement(sql).executeQuery()) {
            while (r.next()) {
              last.put(r.getString(1), r.getInt(2));
            }
          }
          return last;
        });
  }

  /** Roads, and what lies on them, as they are on a day. */
  public DayView onDay(LocalDate day) {
    return new DayView(session, this, day);
  }

  /** What an edit would do to every event it touches; nothing is written. */
  public List<EventFate> foresee(RoadEdit edit) {
    return EventsOnEdit.of(session, this, edit, crsWkt).fates();
  }

  /** Events to look at after an edit of their road, settled ones too. */
  public Rows<ReviewEntry> review() {
    return new Rows<>(session, EditShapes.REVIEW);
  }

  /** Every write of this program, oldest first. */
  public List<WriteDone> writes() {
    return writesSince(0);
  }

  /**
   * Writes of this program since a line of the change log, oldest first.
   *
   * @param lastChange as {@link #lastChange} gave it
   */
  public List<WriteDone> writesSince(long lastChange) {
    return session.run(() -> WriteHistory.read(session, lastChange));
  }

  /** The last so many writes of this program, oldest first. */
  public List<WriteDone> writes(int last) {
    long before =
        session.run(
            () -> {
              // By the index of writes, however long the log is.
              String sql =
                  "SELECT coalesce(min(fid), 1) - 1 FROM change_log WHERE edit >"
                      + " (SELECT max(edit) FROM change_log) - ?";
              try (ResultSet r = session.statement(sql, last).executeQuery()) {
                r.next();
                return r.getLong(1);
              }
            });
    List<WriteDone> writes = writesSince(before);
    return writes.subList(Math.max(0, writes.size() - last), writes.size());
  }

  String crsWkt() {
    return crsWkt;
  }

  /** The current edition of one route. */
  public Optional<Stored<Route>> route(String id) {
    return routeRows(new Rows<>(session, NetworkShapes.POST).values(" WHERE route_id = ?", id))
        .select(" WHERE valid_to IS NULL AND id = ?", id)
        .stream()
        .findFirst();
  }

  Rows<Route> routeRows() {
    return routeRows(new Rows<>(session, NetworkShapes.POST).all());
  }

  private Rows<Route> routeRows(List<NetworkShapes.Post> posts) {
    Map<NetworkShapes.RouteEdition, List<CalibrationPost>> byRoute = new HashMap<>();
    for (NetworkShapes.Post p : posts) {
      byRoute.computeIfAbsent(p.on(), k -> new ArrayList<>()).add(p.post());
    }
    byRoute.values().forEach(l -> l.sort(Comparator.comparingDouble(CalibrationPost::alongM)));
    return new Rows<>(session, new NetworkShapes.RouteShape(byRoute));
  }

  public Rows<Connector> connectors() {
    return new Rows<>(session, NetworkShapes.CONNECTOR);
  }

  public Rows<Defect> defects() {
    return new Rows<>(session, EventShapes.DEFECT);
  }

  public Rows<Finding> findings() {
    return new Rows<>(session, EventShapes.FINDING);
  }

  public Rows<PastPatch> patches() {
    return new Rows<>(session, EventShapes.PATCH);
  }

  /** Attributes of routes and, under their own ids, of connectors. */
  public Rows<RoadAttribute> attributes() {
    return new Rows<>(session, EventShapes.ATTRIBUTE);
  }

  /** Engineers' decisions on sections that may be overlaid. */
  public Rows<DecidedSection> decisions() {
    return new Rows<>(session, RenewalShapes.DECISION);
  }

  /** Defects that planning set aside for an agreed overlay. */
  public Rows<HeldDefect> held() {
    return new Rows<>(session, RenewalShapes.HELD);
  }

  /** Distress that condition surveys measured. */
  public Rows<SurveyedDistress> surveys() {
    return new Rows<>(session, PavementShapes.DISTRESS);
  }

  /** What is known of the pavement's layers. */
  public Rows<PavementLayer> layers() {
    return new Rows<>(session, PavementShapes.LAYER);
  }

  /** Treatments chosen by hand. */
  public Rows<ChosenTreatment> chosenTreatments() {
    return new Rows<>(session, ChosenTreatmentShape.CHOSEN);
  }

  /** What was planned of past patches. */
  public Rows<PlannedWork> plannedWork() {
    return new Rows<>(session, LearningShapes.PLANNED);
  }

  /** Factors learned from done work, as accepted. */
  public Rows<LearnedFactor> learnedFactors() {
    return new Rows<>(session, LearningShapes.FACTOR);
  }

  public Rows<Setting> settings() {
    return new Rows<>(session, SettingShape.SETTING);
  }

  /** A setting's JSON text. */
  public Optional<String> setting(String key) {
    return settings().find(key).map(s -> s.value().json());
  }

  /** The planned crew days; no days when nothing is planned. */
  public Assignment assignment() {
    return session.run(() -> PlanRows.read(session));
  }

  /** The plan that was kept before this one; no days when there was none. */
  public Assignment assignmentBefore() {
    return session.run(() -> PlanBefore.read(session));
  }

  /** What people settled about the plan. */
  public Rows<HandRule> handRules() {
    return new Rows<>(session, HandRuleShape.HAND_RULE);
  }

  /** Which photos show what. */
  public Rows<Photo> photos() {
    return new Rows<>(session, FieldShapes.PHOTO);
  }

  /** Photos of one defect, patch or entry, in the order they came. */
  public List<Stored<Photo>> photosOf(Photo.Of what, String id) {
    return photos().select(" WHERE t." + Column.code(what) + "_id = ?", id);
  }

  /** A photo's file. */
  public Optional<PhotoContent> photoContent(String hash) {
    return session.run(() -> FieldShapes.content(session, hash));
  }

  /** Whether a photo's file has arrived. */
  public boolean hasPhotoContent(String hash) {
    return session.run(() -> FieldShapes.hasContent(session, hash));
  }

  /** Entries of phones whose place was not clear, settled ones too. */
  public Rows<FieldEntry> fieldEntries() {
    return new Rows<>(session, FieldShapes.ENTRY);
  }

  /** What became of an entry that arrived before; empty when it has not. */
  public Optional<EntryReceived> received(String entryId) {
    return session.run(() -> FieldShapes.received(session, entryId));
  }

  /** Import runs, oldest first. */
  public List<ImportRun> imports() {
    return session.run(() -> ImportRows.read(session));
  }

  /**
   * What happened to one row, oldest first.
   *
   * @param table for instance {@code defect}
   * @param key the row's own key, for instance a defect's id
   */
  public List<LoggedChange> history(String table, String key) {
    return changes("table_name = ? AND row_key = ?", table, key);
  }

  /** Everything written since this edit number, oldest first; 0 for all. */
  public List<LoggedChange> changesSince(long edit) {
    return changes("coalesce(edit, 0) > ? OR (edit IS NULL AND ? = 0)", edit, edit);
  }

  /** Number of the latest line of the change log, by whatever program; 0 when there is none. */
  public long lastChange() {
    return session.run(
        () -> {
          try (ResultSet r =
              session.statement("SELECT coalesce(max(fid), 0) FROM change_log").executeQuery()) {
            r.next();
            return r.getLong(1);
          }
        });
  }

  /**
   * Stands for the store as far as a line of its change log: only this store, and copies that have
   * the line, give the same. Empty where there is no such line.
   *
   * @param change as {@link #lastChange} gave it
   */
  public Optional<String> stamp(long change) {
    String sql =
        "SELECT (SELECT min(made_at) FROM lanemend_store) || ' ' || at || ' ' || table_name || ' '"
            + " || row_fid || ' ' || action FROM change_log WHERE fid = ?";
    return session.run(
        () -> {
          try (ResultSet r = session.statement(sql, change).executeQuery()) {
            return r.next() ? Optional.ofNullable(r.getString(1)) : Optional.<String>empty();
          }
        });
  }

  /**
   * Keys of the rows that came, changed or went since a line of the change log, by table.
   *
   * @param lastChange as {@link #lastChange} gave it
   */
  public Map<String, Set<String>> touchedSince(long lastChange) {
    return session.run(
        () -> {
          PreparedStatement p =
              session.statement(
                  "SELECT DISTINCT table_name, row_key FROM change_log WHERE fid > ?", lastChange);
          Map<String, Set<String>> touched = new HashMap<>();
          try (ResultSet r = p.executeQuery()) {
            while (r.next()) {
              touched.computeIfAbsent(r.getString(1), k -> new HashSet<>()).add(r.getString(2));
            }
          }
          return touched;
        });
  }

  private List<LoggedChange> changes(String where, Object... parameters) {
    return session.run(
        () -> {
          PreparedStatement p =
              session.statement(
                  "SELECT * FROM change_log WHERE " + where + " ORDER BY fid", parameters);
          List<LoggedChange> changes = new ArrayList<>();
          try (ResultSet r = p.executeQuery()) {
            while (r.next()) {
              changes.add(logged(r));
            }
          }
          return changes;
        });
  }

  private static LoggedChange logged(ResultSet r) throws SQLException {
    return new LoggedChange(
        r.getLong("edit"),
        Instant.parse(r.getString("at")),
        r.getString("who"),
        r.getString("why"),
        r.getString("table_name"),
        r.getLong("row_fid"),
        r.getString("row_key"),
        r.getString("action"),
        r.getString("before_json"),
        r.getString("after_json"));
  }
}
