package lanemend.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/** A store with rows in every table, looked at by plain SQL as the standard's tests do. */
final class StandardFile implements AutoCloseable {
  final Path file;
  final Connection connection;

  StandardFile(Path folder) throws SQLException {
    file = folder.resolve("county.gpkg");
    Filled.store(file).close();
    connection = DriverManager.getConnection("jdbc:sqlite:" + file);
  }

  /** The first column of every row. */
  List<String> column(String sql) throws SQLException {
    List<String> values = new ArrayList<>();
    try (Statement s = connection.createStatement();
        ResultSet r = s.executeQuery(sql)) {
      while (r.next()) {
        values.add(r.getString(1));
      }
    }
    return values;
  }

  /** Name, type, not null, place in the primary key, of each column. */
  List<String> columns(String table) throws SQLException {
    return column(
        "SELECT name || ' ' || type || ' ' || \"notnull\" || ' ' || pk FROM pragma_table_info('"
            + table
            + "')");
  }

  @Override
  public void close() throws SQLException {
    connection.close();
  }
}
