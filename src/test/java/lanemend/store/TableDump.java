package lanemend.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Every row of a store to the byte, but for versions and the log; read without our own classes. */
final class TableDump {
  private static final Set<String> LOG =
      Set.of("change_log", "undone_edit", "import_run", "lanemend_store", "editing");

  private TableDump() {}

  /** Rows by table; spatial indexes are among the tables. */
  static Map<String, List<String>> of(Path file) throws SQLException {
    Map<String, List<String>> dump = new TreeMap<>();
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = c.createStatement()) {
      List<String> tables = new ArrayList<>();
      try (ResultSet r =
          s.executeQuery(
              "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
                  + " AND name NOT LIKE 'gpkg_%' AND name NOT LIKE 'rtree_%_geom_%'")) {
        while (r.next()) {
          tables.add(r.getString(1));
        }
      }
      for (String table : tables) {
        if (!LOG.contains(table)) {
          dump.put(table, rows(s, table));
        }
      }
    }
    return dump;
  }

  private static List<String> rows(Statement s, String table) throws SQLException {
    List<String> columns = new ArrayList<>();
    try (ResultSet r = s.executeQuery("SELECT name FROM pragma_table_info('" + table + "')")) {
      while (r.next()) {
        if (!r.getString(1).equals("version")) {
          columns.add(r.getString(1));
        }
      }
    }
    String all =
        columns.stream().map(c -> "quote(" + c + ")").collect(Collectors.joining(" || ',' || "));
    List<String> rows = new ArrayList<>();
    try (ResultSet r = s.executeQuery("SELECT " + all + " FROM " + table + " ORDER BY 1")) {
      while (r.next()) {
        rows.add(r.getString(1));
      }
    }
    return rows;
  }
}
