package lanemend.store;

import java.sql.ResultSet;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.FactsInTime;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.SurveyedDistress;
import lanemend.network.Edition;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;

/**
 * Roads and events as they are on a day: the editions in force, each event where it lies on them.
 * Events that lie on no road of that day are not among them. Use it only inside the call the
 * snapshot was given to.
 */
public final class DayView {
  private final Session session;
  private final Snapshot snapshot;
  private final LocalDate day;
  private final Network network;
  private final Map<String, RoadLine> lines = new HashMap<>();
  private final Map<String, Map<Long, List<FormerPlace>>> formerByTable = new HashMap<>();

  DayView(Session session, Snapshot snapshot, LocalDate day) {
    this.session = session;
    this.snapshot = snapshot;
    this.day = day;
    this.network = readNetwork();
    network.routes().values().forEach(r -> lines.put(r.id(), new RoadLine(r.parts())));
    for (Stored<FormerPlace> f : new Rows<>(session, EditShapes.FORMER).stored()) {
      formerByTable
          .computeIfAbsent(f.value().table(), t -> new HashMap<>())
          .computeIfAbsent(f.value().row(), r -> new ArrayList<>())
          .add(f.value());
    }
    // The order they were written in tells those of one day apart.
    formerByTable
        .values()
        .forEach(
            rows -> rows.values().forEach(l -> l.sort(Comparator.comparing(FormerPlace::validTo))));
  }

  private Network readNetwork() {
    Map<String, Route> routes = new LinkedHashMap<>();
    String when = day.toString();
    for (Stored<Route> r :
        snapshot
            .routeRows()
            .select(
                " WHERE (valid_from IS NULL OR valid_from <= ?)"
                    + " AND (valid_to IS NULL OR valid_to > ?)",
                when,
                when)) {
      routes.put(r.value().id(), r.value());
    }
    return new Network(snapshot.crsWkt(), routes, snapshot.connectors().all());
  }

  public LocalDate day() {
    return day;
  }

  /** The editions in force, and every connector. */
  public Network network() {
    return network;
  }

  /** Defects on these roads, whenever they were found. */
  public List<Defect> defects() {
    return values(defectRows());
  }

  /** As {@link #defects}, with their rows and versions. */
  public List<Stored<Defect>> defectRows() {
    return placedRows(snapshot.defects(), Tables.DEFECT, Defect::place, RoadEditing::at);
  }

  /** Defects that had been found by that day, with the status they had at its end (UTC). */
  public List<Stored<Defect>> defectRowsKnown() {
    Map<String, DefectStatus> then = statusThen();
    List<Stored<Defect>> known = new ArrayList<>();
    for (Stored<Defect> row : defectRows()) {
      Defect d = row.value();
      if (!d.foundOn().isAfter(day)) {
        Defect asThen = d.withStatus(then.getOrDefault(d.id(), d.status()));
        known.add(new Stored<>(row.row(), row.version(), asThen));
      }
    }
    return known;
  }

  private Map<String, DefectStatus> statusThen() {
    String sql =
        "SELECT row_key, json_extract(before_json, '$.status') FROM change_log"
            + " WHERE table_name = 'defect' AND action = 'update' AND date(at) > ?"
            + " ORDER BY fid DESC";
    return session.run(
        () -> {
          Map<String, DefectStatus> then = new HashMap<>();
          try (ResultSet r = session.statement(sql, day.toString()).executeQuery()) {
            while (r.next()) {
              // Newest first, so what stays is what stood before the first later change.
              then.put(
                  r.getString(1), DefectStatus.valueOf(r.getString(2).toUpperCase(Locale.ROOT)));
            }
          }
          return then;
        });
  }

  /** Findings on these roads. */
  public List<Finding> findings() {
    return placed(snapshot.findings(), Tables.FINDING, Finding::place, RoadEditing::at);
  }

  /** Past repairs on these roads; none of pavement that has been given up. */
  public List<PastPatch> patches() {
    return placed(snapshot.patches(), Tables.PATCH, PastPatch::place, RoadEditing::at);
  }

  /** Facts in force, older ones cut where a later one stands. */
  public List<RoadAttribute> attributes() {
    return FactsInTime.on(facts(), day);
  }

  /**
   * Every fact that holds at some time while these editions of the roads are in force: also those
   * that have ended or are to come.
   */
  public List<RoadAttribute> facts() {
    Set<String> everRoutes = snapshot.lastEditions().keySet();
    List<RoadAttribute> facts = new ArrayList<>();
    for (RoadAttribute a : snapshot.attributes().all()) {
      Route route = network.routes().get(a.routeId());
      if (route == null ? !everRoutes.contains(a.routeId()) : during(a, route.edition())) {
        facts.add(a);
      }
    }
    return facts;
  }

  private static boolean during(RoadAttribute a, Edition edition) {
    boolean over =
        a.validTo() != null
            && edition.validFrom() != null
            && !a.validTo().isAfter(edition.validFrom());
    boolean toCome =
        a.validFrom() != null
            && edition.validTo() != null
            && !a.validFrom().isBefore(edition.validTo());
    return !over && !toCome;
  }

  /** Decisions on sections of these roads. */
  public List<DecidedSection> decisions() {
    List<DecidedSection> decisions = new ArrayList<>();
    for (Stored<DecidedSection> row : snapshot.decisions().stored()) {
      DecidedSection s = row.value();
      EngineerDecision d = s.decision();
      Place now = bare(s.routeId(), d.fromAlongM(), d.toAlongM());
      placeThen(Tables.RENEWAL_DECISION, row.row(), now)
          .map(
              p ->
                  new DecidedSection(
                      p.routeId(), d.between(p.fromAlongM(), p.toAlongM()), s.overlayYear()))
          .ifPresent(decisions::add);
    }
    return decisions;
  }

  /** Surveyed distress of these roads. */
  public List<SurveyedDistress> surveys() {
    return placed(
        snapshot.surveys(),
        PavementTables.SURVEYED_DISTRESS,
        d -> bare(d.unit().routeId(), d.unit().fromAlongM(), d.unit().toAlongM()),
        (d, p, turned) -> RoadEditing.at(d, p.routeId(), p.fromAlongM(), p.toAlongM()));
  }

  /** Layers of the pavement of these roads. */
  public List<PavementLayer> layers() {
    return placed(
        snapshot.layers(),
        PavementTables.PAVEMENT_LAYER,
        l -> bare(l.routeId(), l.fromAlongM(), l.toAlongM()),
        (l, p, turned) -> RoadEditing.at(l, p.routeId(), p.fromAlongM(), p.toAlongM()));
  }

  private static Place bare(String routeId, double fromM, double toM) {
    return new Place(routeId, fromM, toM, 0, 0, new Entered(null, null, null, null, null));
  }

  /** Where an event lies on its day, turned or not. */
  private interface Placing<T> {
    T at(T event, Place place, boolean turned);
  }

  private static <T> List<T> values(List<Stored<T>> rows) {
    return rows.stream().map(Stored::value).toList();
  }

  private <T> List<T> placed(
      Rows<T> rows, Table table, Function<T, Place> place, Placing<T> placing) {
    return values(placedRows(rows, table, place, placing));
  }

  private <T> List<Stored<T>> placedRows(
      Rows<T> rows, Table table, Function<T, Place> place, Placing<T> placing) {
    List<Stored<T>> events = new ArrayList<>();
    for (Stored<T> row : rows.stored()) {
      T event = row.value();
      Place is = place.apply(event);
      placeThen(table, row.row(), is)
          .map(p -> p.equals(is) ? event : placing.at(event, p, turned(table, row.row())))
          .ifPresent(e -> events.add(new Stored<>(row.row(), row.version(), e)));
    }
    return events;
  }

  private List<FormerPlace> former(Table table, long row) {
    return formerByTable.getOrDefault(table.name(), Map.of()).getOrDefault(row, List.of());
  }

  /** Left and right changed places an odd number of times since that day. */
  private boolean turned(Table table, long row) {
    return former(table, row).stream().filter(f -> f.turned() && f.validTo().isAfter(day)).count()
            % 2
        == 1;
  }

  private Optional<Place> placeThen(Table table, long row, Place is) {
    List<FormerPlace> former = former(table, row);
    for (FormerPlace f : former) {
      if (f.validTo().isAfter(day)) {
        return at(f.at(), is);
      }
    }
    boolean left = former.stream().anyMatch(FormerPlace::leftRoad);
    return left || !network.routes().containsKey(is.routeId()) ? Optional.empty() : Optional.of(is);
  }

  private Optional<Place> at(FormerPlace.Stretch at, Place is) {
    RoadLine line = lines.get(at.routeId());
    if (line == null) {
      return Optional.empty();
    }
    double[] xy = line.at((at.fromAlongM() + at.toAlongM()) / 2);
    return Optional.of(
        new Place(at.routeId(), at.fromAlongM(), at.toAlongM(), xy[0], xy[1], is.entered()));
  }
}
