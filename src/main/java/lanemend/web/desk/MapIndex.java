package lanemend.web.desk;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.county.County;
import lanemend.county.CountyRenewal;
import lanemend.crewdays.Assignment;
import lanemend.inventory.Defect;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.network.Lane;
import lanemend.network.RoadPoint;
import lanemend.network.Side;
import lanemend.renewal.DecidedSection;
import lanemend.store.Stored;

/** What the map draws, in the map's plane, ready to be cut into tiles. */
final class MapIndex {
  /** Half of a lane, for a mark to lie in it: the usual 12 ft. */
  private static final double HALF_LANE_M = 1.83;

  private final County county;
  private final int studyNumber;
  private final RoadLines roads;
  private final Dots defects;
  private final Dots patches;
  private final List<Stretch> zones;
  private final List<Stretch> sections;

  /**
   * A stretch of a route that belongs to something.
   *
   * @param state of a section, {@link SectionState} as a code; empty for a zone
   */
  record Stretch(
      String id, String text, String state, String routeId, double fromAlongM, double toAlongM) {}

  /**
   * @param before of the same roads, or null
   */
  @SuppressWarnings("ReferenceEquality") // see of()
  private MapIndex(
      County county,
      RoadLines roads,
      MapIndex before,
      Optional<CountyRenewal> study,
      int studyNumber) {
    this.county = county;
    this.studyNumber = studyNumber;
    this.roads = roads;
    this.defects = defects(county, before);
    boolean samePatches = before != null && before.county.patches() == county.patches();
    this.patches = samePatches ? before.patches : patches(county);
    this.zones = zones(county);
    this.sections =
        study.map(MapIndex::studied).orElseGet(() -> MapIndex.decided(county.decisions()));
  }

  /**
   * @param study the last renewal study, whose flagged sections are shown beside the decided ones
   * @param studyNumber its number, which grows when it changes
   * @param before an index of the county as it was, or null; what has not changed is shared
   */
  @SuppressWarnings(
      "ReferenceEquality") // the same lists, not equal ones: comparing all would cost more
  static MapIndex of(
      County county, Optional<CountyRenewal> study, int studyNumber, MapIndex before) {
    boolean sameRoads = before != null && before.county.network() == county.network();
    RoadLines roads = sameRoads ? before.roads : new RoadLines(county.network(), county.crs());
    return new MapIndex(county, roads, sameRoads ? before : null, study, studyNumber);
  }

  boolean isOf(County other, int otherStudy) {
    return county == other && studyNumber == otherStudy;
  }

  /** Stands for what is drawn: another one whenever that may be different. */
  String drawing() {
    return county.lastChange() + "-" + studyNumber;
  }

  County county() {
    return county;
  }

  RoadLines roads() {
    return roads;
  }

  /** In the order of {@link County#defectRows}. */
  Dots defects() {
    return defects;
  }

  /** In the order of {@link County#patches}. */
  Dots patches() {
    return patches;
  }

  List<Stretch> zones() {
    return zones;
  }

  List<Stretch> sections() {
    return sections;
  }

  /** A change moves one dot of tens of thousands: the others are taken over. */
  @SuppressWarnings("ReferenceEquality") // see of()
  private static Dots defects(County county, MapIndex before) {
    List<Stored<Defect>> rows = county.defectRows();
    List<Stored<Defect>> old = before == null ? List.of() : before.county.defectRows();
    Dots dots = new Dots(rows.size());
    int at = 0;
    for (Stored<Defect> row : rows) {
      // Both lists are in the order of their rows.
      while (at < old.size() && old.get(at).row() < row.row()) {
        at++;
      }
      if (at < old.size() && old.get(at) == row) {
        dots.add(before.defects.x(at), before.defects.y(at));
      } else {
        add(dots, county, row.value().place(), row.value().lane());
      }
    }
    return dots;
  }

  private static Dots patches(County county) {
    List<PastPatch> rows = county.patches();
    Dots dots = new Dots(rows.size());
    for (PastPatch p : rows) {
      add(dots, county, p.place(), p.lane());
    }
    return dots;
  }

  private static void add(Dots dots, County county, Place place, Lane lane) {
    double offset = lane == null ? 0 : HALF_LANE_M * Math.max(1, 2 * lane.number() - 1);
    if (lane != null && lane.side() == Side.LEFT) {
      offset = -offset;
    }
    Optional<RoadPoint> at =
        county.locator().pointAt(place.routeId(), place.middleAlongM(), offset);
    double x = at.map(RoadPoint::x).orElse(place.x());
    double y = at.map(RoadPoint::y).orElse(place.y());
    double[] lonLat = county.crs().unproject(x, y);
    dots.add(Mercator.x(lonLat[0]), Mercator.y(lonLat[1]));
  }

  private static List<Stretch> zones(County county) {
    Map<String, Defect> byId = new HashMap<>();
    if (!county.assignment().days().isEmpty()) {
      county.defects().forEach(d -> byId.put(d.id(), d));
    }
    List<Stretch> zones = new ArrayList<>();
    for (Assignment.Day day : county.assignment().days()) {
      int stop = 0;
      for (Assignment.Zone zone : day.zones()) {
        stop++;
        double from = Double.POSITIVE_INFINITY;
        double to = Double.NEGATIVE_INFINITY;
        for (String id : zone.defectIds()) {
          Defect defect = byId.get(id);
          if (defect != null) {
            from = Math.min(from, defect.place().fromAlongM());
            to = Math.max(to, defect.place().toAlongM());
          }
        }
        if (from <= to) {
          zones.add(
              new Stretch(
                  day.date() + " " + day.crewId() + " " + stop,
                  day.date() + ", crew " + day.crewId() + ", stop " + stop,
                  "",
                  zone.routeId(),
                  from,
                  to));
        }
      }
    }
    return List.copyOf(zones);
  }

  private static List<Stretch> decided(List<DecidedSection> decisions) {
    return decisions.stream()
        .map(
            d ->
                section(
                    d.decision().sectionId(),
                    Optional.of(d),
                    d.routeId(),
                    d.decision().fromAlongM(),
                    d.decision().toAlongM()))
        .toList();
  }

  private static List<Stretch> studied(CountyRenewal study) {
    return study.proposal().all().stream()
        .map(
            s -> section(s.id(), s.decision(), s.cluster().routeId(), s.fromAlongM(), s.toAlongM()))
        .toList();
  }

  private static Stretch section(
      String id, Optional<DecidedSection> decision, String routeId, double from, double to) {
    return new Stretch(
        id,
        SectionState.words(decision),
        DeskWords.code(SectionState.of(decision)),
        routeId,
        from,
        to);
  }
}
