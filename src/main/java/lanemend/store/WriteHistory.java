package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** The writes of the change log, and which of them still stand. */
final class WriteHistory {
  /** By the edit that was taken back. */
  private final Map<Long, Long> undoneBy = new HashMap<>();

  private final TreeMap<Long, Long> undoes = new TreeMap<>();

  private WriteHistory(Session session) throws SQLException {
    String sql = "SELECT edit, undone_by FROM undone_edit ORDER BY fid";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        undoes.put(r.getLong("undone_by"), r.getLong("edit"));
      }
    }
    // The latest first: an undo that was itself taken back counts for nothing.
    for (Map.Entry<Long, Long> e : undoes.descendingMap().entrySet()) {
      if (!undoneBy.containsKey(e.getKey())) {
        undoneBy.put(e.getValue(), e.getKey());
      }
    }
  }

  static WriteHistory of(Session session) throws SQLException {
    return new WriteHistory(session);
  }

  /** The write that took this one back, or 0. */
  long undoneBy(long edit) {
    return undoneBy.getOrDefault(edit, 0L);
  }

  long undoes(long edit) {
    return undoes.getOrDefault(edit, 0L);
  }

  /** Writes later than this one that came to nothing: taken back, with what took them back. */
  Set<Long> cancelledAfter(long edit) {
    Set<Long> cancelled = new HashSet<>();
    for (Map.Entry<Long, Long> e : undoes.descendingMap().entrySet()) {
      if (!cancelled.contains(e.getKey()) && e.getValue() > edit) {
        cancelled.add(e.getKey());
        cancelled.add(e.getValue());
      }
    }
    return cancelled;
  }

  /**
   * @param after only writes with a later line of the change log than this; 0 for all
   */
  static List<WriteDone> read(Session session, long after) throws SQLException {
    WriteHistory history = new WriteHistory(session);
    Map<Long, WriteDone> writes = new TreeMap<>();
    Map<Long, Map<String, Integer>> rows = new HashMap<>();
    String sql =
        "SELECT edit, min(at) AS at, min(who) AS who, min(why) AS why, table_name,"
            + " count(DISTINCT row_fid) AS n FROM change_log WHERE edit IS NOT NULL"
            + " AND fid > ?"
            + " GROUP BY edit, table_name ORDER BY edit";
    try (ResultSet r = session.statement(sql, after).executeQuery()) {
      while (r.next()) {
        long edit = r.getLong("edit");
        rows.computeIfAbsent(edit, e -> new TreeMap<>())
            .put(r.getString("table_name"), r.getInt("n"));
        writes.put(
            edit,
            new WriteDone(
                edit,
                Instant.parse(r.getString("at")),
                r.getString("who"),
                r.getString("why"),
                rows.get(edit),
                history.undoneBy(edit),
                history.undoes(edit)));
      }
    }
    return new ArrayList<>(writes.values());
  }
}
