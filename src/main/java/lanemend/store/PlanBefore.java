package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lanemend.crewdays.Assignment;

/** The plan before the one that is kept, so that the two can be compared. */
final class PlanBefore {
  private static final String KEEP =
      "INSERT INTO plan_before (work_date, crew_id, plant_id, trucks, stop_order, route_id, side,"
          + " repair_order, repair_id)"
          + " SELECT d.work_date, d.crew_id, d.plant_id, d.trucks, z.stop_order, z.route_id,"
          + " z.side, r.repair_order, r.defect_id"
          + " || CASE WHEN r.parts > 1 THEN '#' || r.part || '/' || r.parts ELSE '' END"
          + " FROM crew_day d JOIN work_zone z ON z.crew_day_fid = d.fid"
          + " JOIN zone_repair r ON r.work_zone_fid = z.fid";

  private PlanBefore() {}

  /** Puts the plan that is kept now in place of the one kept here. */
  static void keep(Session session, Extents extents) {
    extents.shrink(HandTables.PLAN_BEFORE);
    session.run(() -> session.statement("DELETE FROM plan_before").executeUpdate());
    session.run(() -> session.statement(KEEP).executeUpdate());
  }

  static Assignment read(Session session) throws SQLException {
    Map<String, Assignment.Day> days = new LinkedHashMap<>();
    Map<String, Map<Integer, Assignment.Zone>> zones = new LinkedHashMap<>();
    String sql = "SELECT * FROM plan_before ORDER BY work_date, crew_id, stop_order, repair_order";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        Assignment.Day day =
            new Assignment.Day(
                LocalDate.parse(r.getString("work_date")),
                r.getString("crew_id"),
                r.getString("plant_id"),
                r.getInt("trucks"),
                List.of());
        String key = day.date() + " " + day.crewId();
        days.putIfAbsent(key, day);
        Assignment.Zone zone =
            new Assignment.Zone(r.getString("route_id"), List.of(r.getString("repair_id")));
        zones
            .computeIfAbsent(key, k -> new LinkedHashMap<>())
            .merge(r.getInt("stop_order"), zone, PlanBefore::joined);
      }
    }
    List<Assignment.Day> all = new ArrayList<>();
    days.forEach(
        (key, d) ->
            all.add(
                new Assignment.Day(
                    d.date(),
                    d.crewId(),
                    d.plantId(),
                    d.trucks(),
                    List.copyOf(zones.get(key).values()))));
    return new Assignment(all);
  }

  private static Assignment.Zone joined(Assignment.Zone a, Assignment.Zone b) {
    List<String> ids = new ArrayList<>(a.defectIds());
    ids.addAll(b.defectIds());
    return new Assignment.Zone(a.routeId(), ids);
  }
}
