package lanemend.web.desk;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.county.County;
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
  private final RoadLines roads;
  private final Dots defects;
  private final Dots patches;
  private final List<Stretch> zones;
  private final List<Stretch> sections;

  /** A stretch of a route that belongs to something. */
  record Stretch(String id, String text, String routeId, double fromAlongM, double toAlongM) {}

  private MapIndex(County county, RoadLines roads, Dots patches) {
    this.county = county;
    this.roads = roads;
    this.defects = defects(county);
    this.patches = patches == null ? patches(county) : patches;
    this.zones = zones(county);
    this.sections = sections(county);
  }

  /**
   * @param before an index of the county as it was, or null; what has not changed is shared
   */
  @SuppressWarnings(
      "ReferenceEquality") // the same lists, not equal ones: comparing all would cost more
  static MapIndex of(County county, MapIndex before) {
    boolean sameRoads = before != null && before.county.network() == county.network();
    RoadLines roads = sameRoads ? before.roads : new RoadLines(county.network(), county.crs());
    boolean samePatches = sameRoads && before.county.patches() == county.patches();
    return new MapIndex(county, roads, samePatches ? before.patches : null);
  }

  boolean isOf(County other) {
    return county == other;
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

  private static Dots defects(County county) {
    List<Stored<Defect>> rows = county.defectRows();
    Dots dots = new Dots(rows.size());
    for (Stored<Defect> row : rows) {
      add(dots, county, row.value().place(), row.value().lane());
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
                  zone.routeId(),
                  from,
                  to));
        }
      }
    }
    return List.copyOf(zones);
  }

  private static List<Stretch> sections(County county) {
    List<Stretch> sections = new ArrayList<>();
    for (DecidedSection s : county.decisions()) {
      sections.add(
          new Stretch(
              s.decision().sectionId(),
              DeskWords.plain(s.decision().kind())
                  + (s.overlayYear() == 0 ? "" : ", overlay in " + s.overlayYear()),
              s.routeId(),
              s.decision().fromAlongM(),
              s.decision().toAlongM()));
    }
    return List.copyOf(sections);
  }
}
