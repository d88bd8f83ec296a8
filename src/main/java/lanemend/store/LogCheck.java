package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.stream.Collectors;

/**
 * Whether the change log tells the rows as they are: the last thing it says of a row is what stands
 * in it. A program that writes with triggers switched off, or over a row by INSERT OR REPLACE,
 * leaves a difference.
 */
final class LogCheck {
  private static final String FOUND = "found by check";

  private LogCheck() {}

  static void check(Session session, Troubles found) throws SQLException {
    for (Table table : Tables.ALL) {
      if (table.logged()) {
        changed(session, table, found);
        removed(session, table, found);
      }
    }
    String sql = "SELECT max(edit) FROM change_log WHERE edit > (SELECT edit FROM editing)";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      if (r.next() && r.getObject(1) != null) {
        found.add(
            "change_log has edit " + r.getLong(1) + ", which table editing has not come to",
            "counted the edits on from the change log's last",
            s -> s.execute("UPDATE editing SET edit = (SELECT max(edit) + 1 FROM change_log)"));
      }
    }
  }

  /** The last entry of each row of a table, as {@code l}. */
  private static String last(Table table) {
    return "(SELECT c.* FROM change_log c JOIN (SELECT max(fid) AS f FROM change_log WHERE"
        + " table_name = '"
        + table.name()
        + "' GROUP BY row_fid) m ON c.fid = m.f) l";
  }

  private static void changed(Session session, Table table, Troubles found) throws SQLException {
    String now = ChangeLogTriggers.asLogged(table, "t");
    String differs =
        " FROM "
            + table.name()
            + " t LEFT JOIN "
            + last(table)
            + " ON l.row_fid = t.fid WHERE l.after_json IS NULL OR "
            + table.columns().stream().map(LogCheck::differs).collect(Collectors.joining(" OR "))
            + " OR json_extract(l.after_json, '$.version') IS NOT t.version";
    String sql = "SELECT l.fid AS entry, " + table.keyOf("t") + " AS row_key" + differs;
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        boolean unknown = r.getObject("entry") == null;
        String geometry = table.spatial() ? ", '$.geom', hex(t.geom)" : "";
        found.add(
            table.name()
                + " '"
                + r.getString("row_key")
                + (unknown ? "' is not in the change log" : "' is another than the log's last"),
            "entered rows of " + table.name() + " in the change log as they were found",
            s ->
                s.execute(
                    insert(table)
                        + "t.fid, "
                        + table.keyOf("t")
                        + ", CASE WHEN l.after_json IS NULL THEN 'insert' ELSE 'update' END,"
                        + " json_set(l.after_json"
                        + (geometry.isEmpty() ? ", '$.fid', t.fid" : geometry)
                        + "), "
                        + now
                        + differs));
      }
    }
  }

  /**
   * Values and not the log's text: another program's SQLite may write a number with other digits,
   * and older ones are off in the last of seventeen.
   */
  private static String differs(Column column) {
    String logged = "json_extract(l.after_json, '$." + column.name() + "')";
    String now = "t." + column.name();
    String differs = "(" + logged + " IS NOT " + now;
    return column.isReal()
        ? differs + " AND coalesce(abs(%s - %s) > 1e-14 * abs(%s), 1))".formatted(logged, now, now)
        : differs + ")";
  }

  private static void removed(Session session, Table table, Troubles found) throws SQLException {
    String gone =
        " FROM "
            + last(table)
            + " WHERE l.action <> 'delete' AND l.row_fid NOT IN (SELECT fid FROM "
            + table.name()
            + ")";
    try (ResultSet r = session.statement("SELECT l.row_key" + gone).executeQuery()) {
      while (r.next()) {
        found.add(
            table.name() + " '" + r.getString(1) + "' is gone, and the log does not say so",
            "entered the removal of rows of " + table.name() + " in the change log",
            s ->
                s.execute(
                    insert(table) + "l.row_fid, l.row_key, 'delete', l.after_json, NULL" + gone));
      }
    }
  }

  private static String insert(Table table) {
    return "INSERT INTO change_log (at, who, why, table_name, row_fid, row_key, action,"
        + " before_json, after_json) SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now'),"
        + " 'another program', '"
        + FOUND
        + "', '"
        + table.name()
        + "', ";
  }
}
