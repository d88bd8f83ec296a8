package lanemend.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.Map;

/** One transaction on one connection, with its prepared statements. */
final class Session {
  private final Path file;
  private final Connection connection;
  private final int srsId;
  private final boolean writes;
  private final Map<String, PreparedStatement> prepared = new HashMap<>();
  private StoreException failure;

  Session(Path file, Connection connection, int srsId, boolean writes) {
    this.file = file;
    this.connection = connection;
    this.srsId = srsId;
    this.writes = writes;
  }

  /** Work on the database. */
  @FunctionalInterface
  interface Work<T> {
    T run() throws SQLException;
  }

  <T> T run(Work<T> work) {
    refuseIfFailed();
    try {
      return work.run();
    } catch (SQLException e) {
      failure = SqlErrors.of(file, e);
      throw failure;
    }
  }

  <T> T runForRow(String row, Work<T> work) {
    refuseIfFailed();
    try {
      return work.run();
    } catch (SQLException e) {
      failure = SqlErrors.ofRow(file, row, e);
      throw failure;
    }
  }

  /**
   * A failed statement ends the transaction, even if its exception was caught: SQLite may have
   * rolled back by itself, and what came after would land alone.
   */
  void refuseIfFailed() {
    if (failure != null) {
      throw failure;
    }
  }

  /** The statement with its parameters set; kept for the next row of the same kind. */
  PreparedStatement statement(String sql, Object... parameters) throws SQLException {
    PreparedStatement p = prepared.get(sql);
    if (p == null) {
      p = connection.prepareStatement(sql);
      prepared.put(sql, p);
    }
    for (int i = 0; i < parameters.length; i++) {
      p.setObject(i + 1, parameters[i]);
    }
    return p;
  }

  /**
   * Adds a row; returns its fid.
   *
   * @param key what a person calls the row
   * @param values in the order of {@link Table#written}
   */
  long insert(Table table, String key, Object... values) {
    return runForRow(
        table.name() + " '" + key + "'",
        () -> {
          statement(table.insertSql(), values).executeUpdate();
          // The log's inserts happen inside triggers and do not change this out here.
          try (ResultSet r = statement("SELECT last_insert_rowid()").executeQuery()) {
            r.next();
            return r.getLong(1);
          }
        });
  }

  /** For what cannot be prepared and kept: changes to the layout. */
  void execute(String sql) throws SQLException {
    try (Statement s = connection.createStatement()) {
      s.execute(sql);
    }
  }

  Connection connection() {
    return connection;
  }

  /** True inside a write. */
  boolean writes() {
    return writes;
  }

  int srsId() {
    return srsId;
  }

  void closeStatements() throws SQLException {
    for (PreparedStatement p : prepared.values()) {
      p.close();
    }
    prepared.clear();
  }
}
