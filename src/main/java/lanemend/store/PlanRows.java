package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.Plant;
import lanemend.crewdays.Yard;
import lanemend.crewdays.ZoneSide;
import lanemend.network.CenterlinePart;
import lanemend.patching.RepairPart;

/** Planned crew days with their zones and repairs, and the yards and plants on the map. */
final class PlanRows {

  private PlanRows() {}

  /** Where a zone lies: the stretch and the side its repairs take. */
  private record Stretch(double fromAlongM, double toAlongM, String side) {}

  /** Puts this plan in place of the one before. */
  static void replace(Session session, Roads roads, Extents extents, Assignment plan) {
    for (Table table : List.of(Tables.ZONE_REPAIR, Tables.WORK_ZONE, Tables.CREW_DAY)) {
      clear(session, extents, table);
    }
    for (Assignment.Day day : plan.days()) {
      long dayRow =
          session.insert(
              Tables.CREW_DAY,
              day.date() + " " + day.crewId(),
              day.date().toString(),
              day.crewId(),
              EventShapes.text(day.plantId()),
              day.trucks());
      int stop = 1;
      for (Assignment.Zone zone : day.zones()) {
        writeZone(session, roads, day, dayRow, stop++, zone);
      }
    }
  }

  private static void writeZone(
      Session session,
      Roads roads,
      Assignment.Day day,
      long dayRow,
      int stop,
      Assignment.Zone zone) {
    Stretch at = session.run(() -> stretch(session, zone));
    List<CenterlinePart> line = roads.line(zone.routeId()).cut(at.fromAlongM(), at.toAlongM());
    long zoneRow =
        session.insert(
            Tables.WORK_ZONE,
            day.date() + " " + day.crewId() + " stop " + stop,
            line.isEmpty() ? null : GeoBlob.lines(roads.srsId(), line),
            dayRow,
            stop,
            day.date().toString(),
            day.crewId(),
            zone.routeId(),
            at.side(),
            at.fromAlongM(),
            at.toAlongM(),
            zone.defectIds().size());
    int order = 1;
    for (String defect : zone.defectIds()) {
      RepairPart part = session.run(() -> part(session, defect));
      session.insert(
          Tables.ZONE_REPAIR, defect, zoneRow, order++, part.defectId(), part.number(), part.of());
    }
  }

  /** A repair's defect and part; 1 of 1 is the whole of it. */
  private static RepairPart part(Session session, String id) throws SQLException {
    String sql = "SELECT 1 FROM defect WHERE id = ?";
    try (ResultSet r = session.statement(sql, id).executeQuery()) {
      RepairPart whole = new RepairPart(id, 1, 1);
      return r.next() ? whole : RepairPart.parse(id).orElse(whole);
    }
  }

  private static Stretch stretch(Session session, Assignment.Zone zone) throws SQLException {
    double from = Double.POSITIVE_INFINITY;
    double to = Double.NEGATIVE_INFINITY;
    Set<String> sides = new HashSet<>();
    for (String repair : zone.defectIds()) {
      RepairPart part = part(session, repair);
      String id = part.defectId();
      String sql =
          "SELECT route_id, from_along_m, to_along_m, substr(lane, 1, 1) FROM defect WHERE id = ?";
      try (ResultSet r = session.statement(sql, id).executeQuery()) {
        if (!r.next()) {
          throw new StoreException("the plan names defect '" + id + "', which is not in the store");
        }
        if (!r.getString(1).equals(zone.routeId())) {
          throw new StoreException(
              "the plan puts defect '"
                  + id
                  + "' of "
                  + r.getString(1)
                  + " in a work zone of "
                  + zone.routeId());
        }
        double length = (r.getDouble(3) - r.getDouble(2)) / part.of();
        from = Math.min(from, r.getDouble(2) + length * (part.number() - 1));
        to = Math.max(to, r.getDouble(2) + length * part.number());
        sides.add(r.getString(4));
      }
    }
    if (from > to) {
      throw new StoreException("the plan has a work zone of " + zone.routeId() + " with no repair");
    }
    return new Stretch(from, to, sideOf(sides));
  }

  /** The side of repairs in lanes that begin with these letters. */
  static String sideOf(Set<String> letters) {
    ZoneSide side =
        letters.size() > 1 ? ZoneSide.BOTH : letters.contains("L") ? ZoneSide.LEFT : ZoneSide.RIGHT;
    return Column.code(side);
  }

  static Assignment read(Session session) throws SQLException {
    Map<Long, List<String>> repairs = new LinkedHashMap<>();
    String sql = "SELECT * FROM zone_repair ORDER BY work_zone_fid, repair_order";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        repairs
            .computeIfAbsent(r.getLong("work_zone_fid"), k -> new ArrayList<>())
            .add(
                r.getInt("parts") == 1
                    ? r.getString("defect_id")
                    : new RepairPart(r.getString("defect_id"), r.getInt("part"), r.getInt("parts"))
                        .id());
      }
    }
    Map<Long, List<Assignment.Zone>> zones = new LinkedHashMap<>();
    sql = "SELECT * FROM work_zone ORDER BY crew_day_fid, stop_order";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        zones
            .computeIfAbsent(r.getLong("crew_day_fid"), k -> new ArrayList<>())
            .add(
                new Assignment.Zone(
                    r.getString("route_id"), repairs.getOrDefault(r.getLong("fid"), List.of())));
      }
    }
    List<Assignment.Day> days = new ArrayList<>();
    try (ResultSet r = session.statement("SELECT * FROM crew_day ORDER BY fid").executeQuery()) {
      while (r.next()) {
        days.add(
            new Assignment.Day(
                LocalDate.parse(r.getString("work_date")),
                r.getString("crew_id"),
                r.getString("plant_id"),
                r.getInt("trucks"),
                zones.getOrDefault(r.getLong("fid"), List.of())));
      }
    }
    return new Assignment(days);
  }

  /** Puts these yards and plants on the map in place of those before. */
  static void replacePlaces(
      Session session, Extents extents, List<Yard> yards, List<Plant> plants) {
    clear(session, extents, Tables.YARD);
    clear(session, extents, Tables.PLANT);
    for (Yard y : yards) {
      session.insert(
          Tables.YARD,
          y.id(),
          GeoBlob.point(session.srsId(), y.x(), y.y()),
          y.id(),
          EventShapes.text(y.name()));
    }
    for (Plant p : plants) {
      session.insert(
          Tables.PLANT,
          p.id(),
          GeoBlob.point(session.srsId(), p.x(), p.y()),
          p.id(),
          EventShapes.text(p.name()),
          String.valueOf(p.opens()),
          String.valueOf(p.closes()),
          p.dailyTonnes());
    }
  }

  private static void clear(Session session, Extents extents, Table table) {
    // Also has the extent worked out anew, which the rows that follow need too.
    extents.shrink(table);
    session.run(() -> session.statement("DELETE FROM " + table.name()).executeUpdate());
  }
}
