package lanemend.store;

import java.sql.ResultSet;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import lanemend.network.CenterlinePart;
import lanemend.network.Route;
import lanemend.network.edit.RoadEdit;

/**
 * Lets planned work zones follow their repairs when a road is edited. A zone whose repairs no
 * longer lie on one road stays as it is: {@code check} and the planner say that it must be planned
 * again.
 */
final class PlannedZones {
  private final Change change;
  private final Session session;

  PlannedZones(Change change, Session session) {
    this.change = change;
    this.session = session;
  }

  private record Reach(String routeId, double fromM, double toM, String side) {}

  void follow(RoadEdit edit) {
    for (Route route : edit.before()) {
      for (long zone : zones(route.id())) {
        Reach reach = reach(zone);
        if (reach != null) {
          move(zone, reach);
        }
      }
    }
  }

  private List<Long> zones(String routeId) {
    return session.run(
        () -> {
          List<Long> zones = new ArrayList<>();
          String sql = "SELECT fid FROM work_zone WHERE route_id = ? ORDER BY fid";
          try (ResultSet r = session.statement(sql, routeId).executeQuery()) {
            while (r.next()) {
              zones.add(r.getLong(1));
            }
          }
          return zones;
        });
  }

  /** Where the zone's repairs lie now; null when they do not lie on one road. */
  private Reach reach(long zone) {
    String sql =
        "SELECT count(DISTINCT d.route_id), min(d.route_id),"
            + " min(d.from_along_m), max(d.to_along_m), min(substr(d.lane, 1, 1)),"
            + " max(substr(d.lane, 1, 1)),"
            + " max(EXISTS (SELECT 1 FROM former_place f WHERE f.table_name = 'defect' AND"
            + " f.row_fid = d.fid AND f.left_road = 1))"
            + " FROM zone_repair z JOIN defect d ON d.id = z.defect_id WHERE z.work_zone_fid = ?";
    return session.run(
        () -> {
          try (ResultSet r = session.statement(sql, zone).executeQuery()) {
            boolean together = r.next() && r.getInt(1) == 1 && r.getInt(7) == 0;
            return together
                ? new Reach(
                    r.getString(2),
                    r.getDouble(3),
                    r.getDouble(4),
                    PlanRows.sideOf(new HashSet<>(List.of(r.getString(5), r.getString(6)))))
                : null;
          }
        });
  }

  private void move(long zone, Reach to) {
    List<CenterlinePart> line = change.line(to.routeId()).cut(to.fromM(), to.toM());
    byte[] geometry = line.isEmpty() ? null : GeoBlob.lines(session.srsId(), line);
    change.touch(Tables.WORK_ZONE);
    session.run(
        () ->
            session
                .statement(
                    "UPDATE work_zone SET geom = ?, route_id = ?, side = ?, from_along_m = ?,"
                        + " to_along_m = ? WHERE fid = ?",
                    geometry,
                    to.routeId(),
                    to.side(),
                    to.fromM(),
                    to.toM(),
                    zone)
                .executeUpdate());
  }
}
