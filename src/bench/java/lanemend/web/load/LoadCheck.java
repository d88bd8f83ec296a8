package lanemend.web.load;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import lanemend.store.StoreCheck;

/**
 * Replays the change log of a run against what its users were told: each write told done is in the
 * log once and as told, no other is, each row's changes follow on each other without a gap, and the
 * rows are what the log ends with. Reads the file by SQLite alone, not by the program under test,
 * but for its own check at the end.
 */
final class LoadCheck {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Map<Told.Kind, String> TABLES =
      Map.of(
          Told.Kind.ADD, "defect",
          Told.Kind.CHANGE, "defect",
          Told.Kind.DONE, "defect",
          Told.Kind.CHOOSE, "chosen_treatment");

  private final List<String> wrong = new ArrayList<>();
  private int replayed;

  private LoadCheck() {}

  /** What came of it: rows of the log replayed, and a sentence for each thing wrong. */
  record Found(int replayed, List<String> wrong) {}

  private record Line(
      long edit, String table, long row, String action, JsonNode before, JsonNode after, String why) {}

  /**
   * @param since number of the last write before the run
   */
  static Found run(Path store, long since, List<Told.Write> told) throws SQLException {
    LoadCheck check = new LoadCheck();
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + store)) {
      List<Line> lines = lines(c, since);
      check.replayed = lines.size();
      check.chains(c, lines);
      check.tellings(lines, told, undone(c));
    } catch (JsonProcessingException e) {
      check.wrong.add("the log holds what is no JSON: " + e.getMessage());
    }
    check.wrong.addAll(StoreCheck.check(store));
    return new Found(check.replayed, check.wrong);
  }

  private static List<Line> lines(Connection c, long since)
      throws SQLException, JsonProcessingException {
    List<Line> lines = new ArrayList<>();
    try (Statement s = c.createStatement();
        ResultSet r =
            s.executeQuery(
                "SELECT edit, table_name, row_fid, action, before_json, after_json, why"
                    + " FROM change_log WHERE edit > "
                    + since
                    + " ORDER BY fid")) {
      while (r.next()) {
        lines.add(
            new Line(
                r.getLong(1),
                r.getString(2),
                r.getLong(3),
                r.getString(4),
                json(r.getString(5)),
                json(r.getString(6)),
                r.getString(7)));
      }
    }
    return lines;
  }

  /** Without the drawing, which the log keeps of what was only. */
  private static JsonNode json(String text) throws JsonProcessingException {
    return text == null ? null : ((ObjectNode) JSON.readTree(text)).without("geom");
  }

  private static Map<Long, Long> undone(Connection c) throws SQLException {
    Map<Long, Long> by = new HashMap<>();
    try (Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT edit, undone_by FROM undone_edit")) {
      while (r.next()) {
        by.put(r.getLong(2), r.getLong(1));
      }
    }
    return by;
  }

  /** Each change of a row begins where the one before ended, and the last is what the row is. */
  private void chains(Connection c, List<Line> lines) throws SQLException {
    Map<String, JsonNode> state = new HashMap<>();
    long editBefore = 0;
    for (Line line : lines) {
      if (line.edit() < editBefore) {
        wrong.add("write " + line.edit() + " stands after write " + editBefore);
      }
      editBefore = line.edit();
      String key = line.table() + " " + line.row();
      if (state.containsKey(key) && !Objects.equals(state.get(key), line.before())) {
        wrong.add(key + ": write " + line.edit() + " began from another state than was left");
      }
      if (line.before() != null
          && line.after() != null
          && line.after().path("version").asLong() != line.before().path("version").asLong() + 1) {
        wrong.add(key + ": write " + line.edit() + " did not raise the version by one");
      }
      state.put(key, line.after());
    }
    for (Map.Entry<String, JsonNode> e : state.entrySet()) {
      int space = e.getKey().indexOf(' ');
      String table = e.getKey().substring(0, space);
      compare(c, table, Long.parseLong(e.getKey().substring(space + 1)), e.getValue());
    }
  }

  private void compare(Connection c, String table, long row, JsonNode expected) throws SQLException {
    try (Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT * FROM " + table + " WHERE fid = " + row)) {
      boolean there = r.next();
      if (there != (expected != null)) {
        wrong.add(table + " " + row + (there ? " is there" : " is gone") + ", the log says otherwise");
        return;
      }
      if (!there) {
        return;
      }
      for (int i = 1; i <= r.getMetaData().getColumnCount(); i++) {
        String column = r.getMetaData().getColumnName(i);
        JsonNode logged = ((ObjectNode) expected).get(column);
        if (logged == null || column.equals("geom") || column.equals("fid")) {
          continue;
        }
        String value = r.getString(i);
        boolean same =
            logged.isNumber()
                ? value != null && Math.abs(Double.parseDouble(value) - logged.asDouble()) < 1e-9
                : Objects.equals(value, logged.isNull() ? null : logged.asText());
        if (!same) {
          wrong.add(table + " " + row + ": " + column + " is " + value + ", the log ends with " + logged);
        }
      }
    }
  }

  private void tellings(List<Line> lines, List<Told.Write> told, Map<Long, Long> undone) {
    // By the words only one write has: notes of defects, patches and choices.
    Map<String, List<Line>> byMark = new HashMap<>();
    Set<Long> edits = new HashSet<>();
    for (Line line : lines) {
      edits.add(line.edit());
      if (line.after() != null && !undone.containsKey(line.edit())) {
        String note = line.after().path("note").asText();
        // A report of work done adds its words to what is noted of the defect.
        int from = Math.max(0, note.lastIndexOf("load u"));
        byMark
            .computeIfAbsent(line.table() + " " + note.substring(from), k -> new ArrayList<>())
            .add(line);
      }
    }
    Set<Long> accounted = new HashSet<>();
    for (Told.Write w : told) {
      if (w.kind() == Told.Kind.UNDO) {
        List<Long> by =
            undone.entrySet().stream()
                .filter(e -> e.getValue() == w.edit())
                .map(Map.Entry::getKey)
                .toList();
        if (by.size() != 1) {
          wrong.add("write " + w.edit() + " was told taken back, the log says so " + by.size() + " times");
        }
        accounted.addAll(by);
        continue;
      }
      List<Line> found =
          byMark.getOrDefault(TABLES.get(w.kind()) + " " + w.mark(), List.of()).stream()
              .filter(l -> w.kind() != Told.Kind.CHANGE || l.action().equals("update"))
              .toList();
      long first = found.isEmpty() ? -1 : found.get(0).edit();
      boolean once = !found.isEmpty() && hasMarkOnce(found);
      if (!once) {
        wrong.add(w + " was told done; the log has it " + found.size() + " times");
      } else if (w.version() > 0 && found.get(0).after().path("version").asLong() != w.version()) {
        wrong.add(w + " is in the log as version " + found.get(0).after().path("version"));
      }
      accounted.add(first);
    }
    edits.removeAll(accounted);
    if (!edits.isEmpty()) {
      wrong.add(edits.size() + " writes are in the log that nobody was told of: " + edits);
    }
  }

  /** A later write may keep the note of an earlier one; then it was there before already. */
  private static boolean hasMarkOnce(List<Line> found) {
    long anew =
        found.stream()
            .filter(
                l ->
                    l.before() == null
                        || !l.before().path("note").asText().equals(l.after().path("note").asText()))
            .count();
    return anew == 1;
  }
}
