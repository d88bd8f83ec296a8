package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/**
 * Whether what lost its road in an edit is on the review list, and the list names what is there.
 */
final class ReviewCheck {
  private ReviewCheck() {}

  /** True of a table whose rows may be on the review list. */
  static boolean mayBeListed(String table) {
    return StoreCheck.ON_A_ROAD.stream().anyMatch(t -> t.name().equals(table));
  }

  /**
   * True of rows {@code t} whose place is one on a road of today: not of an event that left its
   * road, nor of a fact that has ended, which lies on the edition it was true of.
   */
  static String onRoadsOfToday(Table table) {
    String left =
        "NOT EXISTS (SELECT 1 FROM former_place f WHERE f.table_name = '"
            + table.name()
            + "' AND f.row_fid = t.fid AND f.left_road = 1)";
    return table.equals(Tables.ATTRIBUTE) ? left + " AND t.valid_to IS NULL" : left;
  }

  static List<String> check(Session session) throws SQLException {
    List<String> found = new ArrayList<>();
    String sql =
        "SELECT f.table_name, f.row_key FROM former_place f LEFT JOIN defect d ON f.table_name ="
            + " 'defect' AND d.fid = f.row_fid WHERE f.left_road = 1 AND f.table_name IN"
            + " ('defect', 'finding', 'renewal_decision') AND coalesce(d.status, '') NOT IN"
            + " ('done', 'withdrawn') AND NOT EXISTS (SELECT 1 FROM review r WHERE r.table_name ="
            + " f.table_name AND r.row_fid = f.row_fid AND r.on_a_road = 0) ORDER BY f.fid";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        found.add(
            r.getString(1)
                + " '"
                + r.getString(2)
                + "' lies on no road and is not on the review list");
      }
    }
    for (Table table : StoreCheck.ON_A_ROAD) {
      sql =
          "SELECT r.row_key FROM review r WHERE r.table_name = ? AND r.settled IS NULL AND NOT"
              + " EXISTS (SELECT 1 FROM "
              + table.name()
              + " t WHERE t.fid = r.row_fid) ORDER BY r.fid";
      try (ResultSet r = session.statement(sql, table.name()).executeQuery()) {
        while (r.next()) {
          found.add(
              "the review list names " + table.name() + " '" + r.getString(1) + "', which is gone");
        }
      }
    }
    return found;
  }
}
