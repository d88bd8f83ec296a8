package lanemend.store;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The triggers that keep the change log and the row versions. They live in the file and not in this
 * program, so that a change made in a desktop GIS is logged and makes earlier readings stale just
 * as one of ours does. They use only functions built into SQLite.
 *
 * <p>{@code editing} is one row that a write of ours fills for the length of its transaction: while
 * {@code who} is null, whoever writes is another program.
 */
final class ChangeLogTriggers {
  static final String EXTENSION = "lanemend_change_log";

  static final String ABOUT =
      "Triggers log_<table>_insert, _update and _delete write each changed row to change_log and"
          + " count its version. They need nothing but SQLite's own functions and work by"
          + " themselves; table editing says whose transaction is running.";

  static final String CREATE_EDITING =
      "CREATE TABLE editing (fid INTEGER PRIMARY KEY CHECK (fid = 1), edit INTEGER NOT NULL,"
          + " at DATETIME, who TEXT, why TEXT)";

  private ChangeLogTriggers() {}

  static List<String> names(Table table) {
    return Stream.of("insert", "update", "delete")
        .map(a -> "log_" + table.name() + "_" + a)
        .toList();
  }

  static List<String> of(Table table) {
    String t = table.name();
    return List.of(
        // A row that was there before under this fid (put back by REPLACE, as GDAL's upsert does)
        // counts on: a reader of the row as it was must not take it for unchanged. One that undo
        // brings back has counted on already; set to the same again it would be logged as changed.
        """
        CREATE TRIGGER log_%s_insert AFTER INSERT ON %s
        BEGIN
          UPDATE %s SET version = 1 + (SELECT max(json_extract(coalesce(after_json, before_json),
              '$.version')) FROM change_log %s)
            WHERE fid = NEW.fid AND NEW.version <= (SELECT max(json_extract(coalesce(after_json,
              before_json), '$.version')) FROM change_log %s);
          %s;
        END"""
            .formatted(
                t,
                t,
                t,
                ofRow(table),
                ofRow(table),
                log(
                    table,
                    "insert",
                    "NEW",
                    "NULL",
                    after(table, "(SELECT version FROM " + t + " WHERE fid = NEW.fid)"))),
        // The version is the trigger's to count; an update that already carries another one is its
        // own second step and must not be logged again.
        """
        CREATE TRIGGER log_%s_update AFTER UPDATE ON %s
          WHEN OLD.version = NEW.version
        BEGIN
          UPDATE %s SET version = OLD.version + 1 WHERE fid = NEW.fid;
          %s;
        END"""
            .formatted(
                t,
                t,
                t,
                log(table, "update", "NEW", before(table), after(table, "OLD.version + 1"))),
        """
        CREATE TRIGGER log_%s_delete AFTER DELETE ON %s
        BEGIN
          %s;
        END"""
            .formatted(t, t, log(table, "delete", "OLD", before(table), "NULL")));
  }

  private static String ofRow(Table table) {
    return "WHERE table_name = '%s' AND row_key = %s AND row_fid = NEW.fid"
        .formatted(table.name(), table.keyOf("NEW"));
  }

  private static String log(Table table, String action, String row, String before, String after) {
    return """
        INSERT INTO change_log
            (edit, at, who, why, table_name, row_fid, row_key, action, before_json, after_json)
          VALUES (
            (SELECT edit FROM editing WHERE who IS NOT NULL),
            coalesce((SELECT at FROM editing), strftime('%%Y-%%m-%%dT%%H:%%M:%%fZ', 'now')),
            coalesce((SELECT who FROM editing), 'another program'),
            coalesce((SELECT why FROM editing), ''),
            '%s', %s.fid, %s, '%s',
            %s,
            %s)"""
        .formatted(table.name(), row, table.keyOf(row), action, before, after);
  }

  private static String before(Table table) {
    String geometry = table.spatial() ? "'geom', hex(OLD.geom), " : "";
    return "json_object('fid', OLD.fid, "
        + geometry
        + values(table, "OLD")
        + ", 'version', OLD.version)";
  }

  private static String after(Table table, String version) {
    return after(table, "NEW", version);
  }

  private static String after(Table table, String row, String version) {
    return "json_object('fid', %s.fid, %s, 'version', %s)"
        .formatted(row, values(table, row), version);
  }

  /** SQL for a row as {@code after_json} would tell it. */
  static String asLogged(Table table, String row) {
    return after(table, row, row + ".version");
  }

  private static String values(Table table, String row) {
    return table.columns().stream()
        .map(c -> "'" + c.name() + "', " + json(c, row + "." + c.name()))
        .collect(Collectors.joining(", "));
  }

  // json_object() alone writes 15 digits in older SQLite; 17 bring every double back exactly.
  private static String json(Column column, String value) {
    return column.isReal()
        ? "json(CASE WHEN "
            + value
            + " IS NULL THEN 'null' ELSE printf('%!.17g', "
            + value
            + ") END)"
        : value;
  }
}
