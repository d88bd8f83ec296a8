package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import lanemend.network.CenterlinePart;
import org.locationtech.jts.io.ParseException;

/** Whether what is worked out from other rows still agrees with them: lengths, lines, zones. */
final class DrawingCheck {
  /** Drawn as the stretch of road they take; no line at all where that lies in a gap. */
  static final List<Table> DRAWN_ALONG =
      List.of(
          Tables.ATTRIBUTE,
          Tables.WORK_ZONE,
          Tables.RENEWAL_DECISION,
          PavementTables.SURVEYED_DISTRESS,
          PavementTables.PAVEMENT_LAYER);

  private final Session session;
  private final Troubles found;

  private DrawingCheck(Session session, Troubles found) {
    this.session = session;
    this.found = found;
  }

  /**
   * Looks at every drawn row.
   *
   * @param lines of the current roads by their ids
   */
  static void check(Session session, Map<String, RoadLine> lines, Troubles found)
      throws SQLException {
    DrawingCheck check = new DrawingCheck(session, found);
    check.lengths(Tables.ROUTE);
    check.lengths(Tables.CONNECTOR);
    for (Table table : DRAWN_ALONG) {
      check.lines(table, lines);
    }
    check.zones();
  }

  private void lengths(Table table) throws SQLException {
    String sql = "SELECT fid, id, length_m, geom FROM " + table.name() + " ORDER BY fid";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        List<CenterlinePart> parts = parts(r.getBytes("geom"));
        if (parts.isEmpty()) {
          continue;
        }
        if (Math.abs(length(table, parts) - r.getDouble("length_m"))
            > StoreCheck.ALONG_TOLERANCE_M) {
          long fid = r.getLong("fid");
          found.add(
              table.name() + " '" + r.getString("id") + "' says another length than its line has",
              "set the length of " + table.name() + " '" + r.getString("id") + "' by its line",
              s -> setLength(s, table, fid));
        }
      }
    }
  }

  private static double length(Table table, List<CenterlinePart> parts) {
    double start = table.equals(Tables.ROUTE) ? 0 : parts.get(0).fromAlong();
    return parts.get(parts.size() - 1).toAlong() - start;
  }

  private static void setLength(Session session, Table table, long fid) throws SQLException {
    String line = "SELECT geom FROM " + table.name() + " WHERE fid = ?";
    List<CenterlinePart> parts = List.of();
    try (ResultSet r = session.statement(line, fid).executeQuery()) {
      if (r.next()) {
        parts = parts(r.getBytes(1));
      }
    }
    if (!parts.isEmpty()) {
      String set = "UPDATE " + table.name() + " SET length_m = ? WHERE fid = ?";
      session.statement(set, length(table, parts), fid).executeUpdate();
    }
  }

  private void lines(Table table, Map<String, RoadLine> lines) throws SQLException {
    String sql =
        "SELECT fid, geom, route_id, from_along_m, to_along_m, "
            + table.keyOf("t")
            + " AS row_key FROM "
            + table.name()
            + " t WHERE "
            + ReviewCheck.onRoadsOfToday(table)
            + " ORDER BY fid";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        RoadLine line = lines.get(r.getString("route_id"));
        if (line == null) {
          // A retired road's rows keep the picture they had.
          continue;
        }
        List<CenterlinePart> cut = line.cut(r.getDouble("from_along_m"), r.getDouble("to_along_m"));
        if (!alike(cut, parts(r.getBytes("geom")))) {
          long fid = r.getLong("fid");
          String name = table.name() + " '" + r.getString("row_key") + "'";
          found.add(
              name + " is drawn otherwise than along its road",
              "drew " + name + " along its road",
              s -> Redraw.row(s, table, fid));
        }
      }
    }
  }

  private static boolean alike(List<CenterlinePart> wanted, List<CenterlinePart> drawn) {
    if (wanted.size() != drawn.size()) {
      return false;
    }
    for (int i = 0; i < wanted.size(); i++) {
      CenterlinePart w = wanted.get(i);
      CenterlinePart d = drawn.get(i);
      if (!near(w, 0, d, 0) || !near(w, w.size() - 1, d, d.size() - 1)) {
        return false;
      }
    }
    return true;
  }

  private static boolean near(CenterlinePart a, int i, CenterlinePart b, int k) {
    double away = Math.hypot(a.x(i) - b.x(k), a.y(i) - b.y(k));
    return Math.max(away, Math.abs(a.along(i) - b.along(k))) <= StoreCheck.PLACE_TOLERANCE_M;
  }

  /** A zone repeats its day's date and crew, and counts its repairs, for the map. */
  private void zones() throws SQLException {
    String wrong =
        " FROM work_zone z JOIN crew_day d ON d.fid = z.crew_day_fid WHERE z.work_date <>"
            + " d.work_date OR z.crew_id <> d.crew_id OR z.repairs <> (SELECT count(*) FROM"
            + " zone_repair r WHERE r.work_zone_fid = z.fid)";
    String sql = "SELECT " + Tables.WORK_ZONE.keyOf("z") + wrong;
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        found.add(
            "work_zone '" + r.getString(1) + "' says another day, crew or count than its plan has",
            "set the days, crews and counts of work zones by the plan",
            s ->
                s.execute(
                    "UPDATE work_zone SET work_date = (SELECT work_date FROM crew_day d WHERE"
                        + " d.fid = crew_day_fid), crew_id = (SELECT crew_id FROM crew_day d"
                        + " WHERE d.fid = crew_day_fid), repairs = (SELECT count(*) FROM"
                        + " zone_repair r WHERE r.work_zone_fid = work_zone.fid) WHERE fid IN"
                        + " (SELECT z.fid"
                        + wrong
                        + ")"));
      }
    }
  }

  private static List<CenterlinePart> parts(byte[] blob) {
    if (blob == null) {
      return List.of();
    }
    try {
      return GeoBlob.parts(blob);
    } catch (ParseException e) {
      // Said by LayerCheck.
      return List.of();
    }
  }
}
