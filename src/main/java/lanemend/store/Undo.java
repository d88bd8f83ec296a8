package lanemend.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Takes a write back: puts every row it touched to what it was before, to the byte, but for its
 * version, which grows as with any change. Refuses when a later write that still stands touched one
 * of the rows, or when rows that came later need one that would go.
 */
final class Undo {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int NAMED = 3;

  private static final Map<String, Table> TABLES =
      Tables.ALL.stream()
          .filter(Table::logged)
          .collect(Collectors.toUnmodifiableMap(Table::name, Function.identity()));

  private final Change change;
  private final Session session;

  private Undo(Change change) {
    this.change = change;
    this.session = change.session();
  }

  private record Step(String table, long row, String key, String action, JsonNode before) {}

  /** Takes the write back; returns the number of rows put back. */
  static int of(Change change, long edit) {
    Undo undo = new Undo(change);
    return change.session().run(() -> undo.run(edit));
  }

  private int run(long edit) throws SQLException {
    List<Step> steps = steps(edit);
    if (steps.isEmpty()) {
      throw new StoreException("there is no write " + edit + " in the change log");
    }
    WriteHistory history = WriteHistory.of(session);
    if (history.undoneBy(edit) != 0) {
      throw new StoreException(
          "write " + edit + " was taken back already, by write " + history.undoneBy(edit));
    }
    refuseLater(edit, history.cancelledAfter(edit));
    // Rows go and come in the order of the log, in which a parent may stand after its child.
    session.statement("PRAGMA defer_foreign_keys = ON").execute();
    for (Step step : steps) {
      Table table = TABLES.get(step.table());
      if (table == null) {
        throw new StoreException(
            "write " + edit + " touched table " + step.table() + ", which this program lacks");
      }
      change.touch(table);
      switch (step.action()) {
        case "insert" -> delete(table, step);
        case "update" -> restore(table, step);
        default -> bringBack(table, step);
      }
    }
    refuseOrphans(edit);
    long self;
    try (ResultSet r = session.statement("SELECT edit FROM editing").executeQuery()) {
      r.next();
      self = r.getLong(1);
    }
    session.insert(EditTables.UNDONE, String.valueOf(edit), edit, self);
    return (int) steps.stream().map(s -> s.table() + " " + s.row()).distinct().count();
  }

  /** Newest first. */
  private List<Step> steps(long edit) throws SQLException {
    List<Step> steps = new ArrayList<>();
    String sql =
        "SELECT table_name, row_fid, row_key, action, before_json FROM change_log WHERE edit = ?"
            + " ORDER BY fid DESC";
    try (ResultSet r = session.statement(sql, edit).executeQuery()) {
      while (r.next()) {
        String before = r.getString("before_json");
        steps.add(
            new Step(
                r.getString("table_name"),
                r.getLong("row_fid"),
                r.getString("row_key"),
                r.getString("action"),
                before == null ? null : JSON.readTree(before)));
      }
    } catch (JsonProcessingException e) {
      throw new StoreException("the change log of write " + edit + " is no JSON", e);
    }
    return steps;
  }

  private void refuseLater(long edit, Set<Long> cancelled) throws SQLException {
    String sql =
        "SELECT DISTINCT l.edit, l.who, l.why, l.table_name, l.row_key FROM change_log l JOIN"
            + " (SELECT table_name, row_fid, max(fid) AS last FROM change_log WHERE edit = ?"
            + " GROUP BY table_name, row_fid) mine ON l.table_name = mine.table_name AND"
            + " l.row_fid = mine.row_fid AND l.fid > mine.last ORDER BY l.fid";
    Map<String, String> later = new HashMap<>();
    List<String> order = new ArrayList<>();
    try (ResultSet r = session.statement(sql, edit).executeQuery()) {
      while (r.next()) {
        long by = r.getLong("edit");
        if (by != 0 && cancelled.contains(by)) {
          continue;
        }
        String write =
            by == 0
                ? "a change by another program"
                : "write " + by + " (" + r.getString("why") + ", " + r.getString("who") + ")";
        if (later.putIfAbsent(
                write, r.getString("table_name") + " '" + r.getString("row_key") + "'")
            == null) {
          order.add(write);
        }
      }
    }
    if (!order.isEmpty()) {
      throw new StoreException(
          "write "
              + edit
              + " cannot be taken back, as later changes touch the same rows: "
              + order.stream()
                  .limit(NAMED)
                  .map(w -> w + " changed " + later.get(w))
                  .collect(Collectors.joining("; "))
              + (order.size() > NAMED ? "; and " + (order.size() - NAMED) + " more" : "")
              + ". Take those back first");
    }
  }

  private void refuseOrphans(long edit) throws SQLException {
    List<String> orphans = new ArrayList<>();
    try (ResultSet r = session.statement("PRAGMA foreign_key_check").executeQuery()) {
      while (r.next()) {
        orphans.add(r.getString("table") + " row " + r.getLong("rowid"));
      }
    }
    if (!orphans.isEmpty()) {
      throw new StoreException(
          "write "
              + edit
              + " cannot be taken back, as what came later lies on rows it added: "
              + String.join(", ", orphans.subList(0, Math.min(NAMED, orphans.size())))
              + (orphans.size() > NAMED ? " and " + (orphans.size() - NAMED) + " more" : "")
              + ". Take back what brought them first");
    }
  }

  private void delete(Table table, Step step) throws SQLException {
    run(step, "DELETE FROM " + table.name() + " WHERE fid = ?", List.of(step.row()));
  }

  private void restore(Table table, Step step) throws SQLException {
    String sets = table.written().stream().map(c -> c + " = ?").collect(Collectors.joining(", "));
    List<Object> values = values(table, step);
    values.add(step.row());
    run(step, "UPDATE " + table.name() + " SET " + sets + " WHERE fid = ?", values);
  }

  private void bringBack(Table table, Step step) throws SQLException {
    List<Object> values = values(table, step);
    values.add(step.row());
    // Whoever read the row before it went must find that it is another one now.
    values.add(step.before().get("version").asLong() + 1);
    String marks = ", ?".repeat(values.size()).substring(2);
    run(
        step,
        "INSERT INTO "
            + table.name()
            + " ("
            + String.join(", ", table.written())
            + ", fid, version) VALUES ("
            + marks
            + ")",
        values);
  }

  private void run(Step step, String sql, List<Object> values) throws SQLException {
    PreparedStatement p = session.statement(sql, values.toArray());
    if (p.executeUpdate() != 1) {
      throw new StoreException(
          step.table() + " '" + step.key() + "' is not there any more, so it cannot be put back");
    }
  }

  private static List<Object> values(Table table, Step step) {
    List<Object> values = new ArrayList<>();
    for (String column : table.written()) {
      values.add(LoggedValue.of(step.before(), column));
    }
    return values;
  }
}
