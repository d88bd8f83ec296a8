package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import lanemend.network.CenterlinePart;
import org.locationtech.jts.io.ParseException;

/**
 * Draws rows anew from the road's line and their along: for rows whose geometry is a picture of
 * what their columns say.
 */
final class Redraw {
  private static final String CURRENT =
      "SELECT geom FROM route WHERE id = ? AND valid_to IS NULL UNION ALL SELECT geom FROM"
          + " connector WHERE id = ?";

  private Redraw() {}

  /** True for tables whose rows can be drawn from a road and along. */
  static boolean possible(Table table) {
    return table.equals(Tables.POST)
        || table.columns().stream().anyMatch(c -> c.name().equals("from_along_m"));
  }

  /** Draws one row; leaves it when its road is not there or cannot be read itself. */
  static void row(Session session, Table table, long fid) throws SQLException {
    boolean post = table.equals(Tables.POST);
    String ends = post ? "along_m, along_m, edition" : "from_along_m, to_along_m, 0";
    String sql = "SELECT route_id, " + ends + " FROM " + table.name() + " WHERE fid = ?";
    String road;
    double from;
    double to;
    int edition;
    try (ResultSet r = session.statement(sql, fid).executeQuery()) {
      if (!r.next()) {
        return;
      }
      road = r.getString(1);
      from = r.getDouble(2);
      to = r.getDouble(3);
      edition = r.getInt(4);
    }
    RoadLine line = post ? edition(session, road, edition) : current(session, road);
    if (line == null) {
      return;
    }
    byte[] drawn = blob(session.srsId(), table, line, from, to);
    session
        .statement("UPDATE " + table.name() + " SET geom = ? WHERE fid = ?", drawn, fid)
        .executeUpdate();
  }

  /** The geometry a row of this stretch has; null for a line where the road has none. */
  static byte[] blob(int srsId, Table table, RoadLine line, double from, double to) {
    if (table.geometry() == Table.Shape.POINT) {
      double[] xy = line.at((from + to) / 2);
      return GeoBlob.point(srsId, xy[0], xy[1]);
    }
    List<CenterlinePart> cut = line.cut(from, to);
    return cut.isEmpty() ? null : GeoBlob.lines(srsId, cut);
  }

  private static RoadLine current(Session session, String road) throws SQLException {
    try (ResultSet r = session.statement(CURRENT, road, road).executeQuery()) {
      return line(r);
    }
  }

  private static RoadLine edition(Session session, String route, int edition) throws SQLException {
    String sql = "SELECT geom FROM route WHERE id = ? AND edition = ?";
    try (ResultSet r = session.statement(sql, route, edition).executeQuery()) {
      return line(r);
    }
  }

  private static RoadLine line(ResultSet r) throws SQLException {
    byte[] blob = r.next() ? r.getBytes(1) : null;
    if (blob == null) {
      return null;
    }
    try {
      List<CenterlinePart> parts = new ArrayList<>(GeoBlob.parts(blob));
      return parts.isEmpty() ? null : new RoadLine(parts);
    } catch (ParseException e) {
      return null;
    }
  }
}
