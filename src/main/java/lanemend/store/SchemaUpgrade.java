package lanemend.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;

/**
 * Brings the file of an older version of this program to today's layout: adds the tables, columns,
 * parts, choices and indexes it lacks and renews the triggers. Rows stay as they are. All of it
 * lands, or nothing.
 */
final class SchemaUpgrade {
  /** The layout in which a repair may be in parts; version 3 brought tables only. */
  private static final int IN_PARTS = 2;

  /** The layout in which a work zone may take both sides of the road. */
  private static final int BOTH_SIDES = 5;

  private final Connection connection;

  private SchemaUpgrade(Connection connection) {
    this.connection = connection;
  }

  /** Does nothing to a file of today's layout. */
  static void run(Connection connection, int srsId) throws SQLException {
    new SchemaUpgrade(connection).run(srsId);
  }

  private void run(int srsId) throws SQLException {
    if (version() >= Store.SCHEMA_VERSION) {
      return;
    }
    execute("BEGIN IMMEDIATE");
    boolean done = false;
    try {
      // Somebody else may have done it while this waited.
      if (version() < Store.SCHEMA_VERSION) {
        upgrade(srsId);
      }
      execute("COMMIT");
      done = true;
    } finally {
      if (!done) {
        execute("ROLLBACK");
      }
    }
  }

  private void upgrade(int srsId) throws SQLException {
    boolean first = version() < IN_PARTS;
    boolean ofOneSide = version() < BOTH_SIDES;
    Set<Table> zones = Set.of(Tables.WORK_ZONE, HandTables.PLAN_BEFORE);
    Set<String> tables = names("SELECT name FROM sqlite_master WHERE type = 'table'");
    for (Table table : Tables.ALL) {
      if (first && table.equals(Tables.ZONE_REPAIR)) {
        cutIntoParts(table);
      } else if (first && table.equals(Tables.RENEWAL_DECISION)) {
        allowMore(table);
      } else if (ofOneSide && zones.contains(table) && tables.contains(table.name())) {
        allowMore(table);
      } else if (tables.contains(table.name())) {
        addColumns(table);
      } else {
        GeoPackageSchema.add(connection, table, srsId);
      }
      if (table.logged()) {
        for (String trigger : ChangeLogTriggers.names(table)) {
          execute("DROP TRIGGER IF EXISTS " + trigger);
        }
        for (String trigger : ChangeLogTriggers.of(table)) {
          execute(trigger);
        }
      }
    }
    for (String index : Tables.INDEXES) {
      execute(index.replaceFirst("CREATE INDEX", "CREATE INDEX IF NOT EXISTS"));
    }
    try (PreparedStatement p = connection.prepareStatement(Tables.LANEMEND_STORE.insertSql())) {
      p.setInt(1, Store.SCHEMA_VERSION);
      p.setString(2, Instant.now().toString());
      p.executeUpdate();
    }
  }

  private void addColumns(Table table) throws SQLException {
    Set<String> there = names("SELECT name FROM pragma_table_info('" + table.name() + "')");
    for (Column column : table.columns()) {
      if (!there.contains(column.name().toLowerCase(Locale.ROOT))) {
        execute("ALTER TABLE " + table.name() + " ADD COLUMN " + column.ddl());
      }
    }
  }

  /**
   * A repair may be cut into parts since version 2: a defect is no longer in the plan but once, so
   * the table is written anew. All that was planned before was whole: part 1 of 1.
   */
  private void cutIntoParts(Table table) throws SQLException {
    String anew = table.name() + "_anew";
    execute(table.createSql().replaceFirst("CREATE TABLE \\w+", "CREATE TABLE " + anew));
    String same = "fid, work_zone_fid, repair_order, defect_id, version";
    execute(
        "INSERT INTO %s (%s, part, parts) SELECT %s, 1, 1 FROM %s"
            .formatted(anew, same, same, table.name()));
    execute("DROP TABLE " + table.name());
    execute("ALTER TABLE " + anew + " RENAME TO " + table.name());
    // The log's rows too, so that what was written before can still be compared and undone.
    execute(
        """
        UPDATE change_log SET before_json = json_set(before_json, '$.part', 1, '$.parts', 1),
          after_json = json_set(after_json, '$.part', 1, '$.parts', 1)
        WHERE table_name = 'zone_repair'
        """);
  }

  /**
   * A choice more is allowed than before. Rows stay as they are on disk, so the table's text alone
   * is changed, in the way SQLite's documentation of ALTER TABLE gives for such constraints.
   */
  private void allowMore(Table table) throws SQLException {
    int schema = number("PRAGMA schema_version");
    execute("PRAGMA writable_schema = ON");
    try (PreparedStatement p =
        connection.prepareStatement(
            "UPDATE sqlite_master SET sql = ? WHERE type = 'table' AND name = ?")) {
      p.setString(1, table.createSql());
      p.setString(2, table.name());
      p.executeUpdate();
    }
    execute("PRAGMA schema_version = " + (schema + 1));
    execute("PRAGMA writable_schema = OFF");
  }

  private int version() throws SQLException {
    return number("SELECT max(schema_version) FROM lanemend_store");
  }

  private int number(String sql) throws SQLException {
    try (Statement s = connection.createStatement();
        ResultSet r = s.executeQuery(sql)) {
      return r.next() ? r.getInt(1) : 0;
    }
  }

  private Set<String> names(String sql) throws SQLException {
    Set<String> names = new HashSet<>();
    try (Statement s = connection.createStatement();
        ResultSet r = s.executeQuery(sql)) {
      while (r.next()) {
        names.add(r.getString(1).toLowerCase(Locale.ROOT));
      }
    }
    return names;
  }

  private void execute(String sql) throws SQLException {
    try (Statement s = connection.createStatement()) {
      s.execute(sql);
    }
  }
}
