package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Whether the triggers that keep R-trees, versions and the change log are there as made. */
final class TriggerCheck {

  private TriggerCheck() {}

  static void check(Session session, Troubles found) throws SQLException {
    Map<String, String> there = new HashMap<>();
    String sql = "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        there.put(r.getString(1), r.getString(2));
      }
    }
    for (Table table : Tables.ALL) {
      wanted(table)
          .forEach(
              (name, text) -> {
                String has = there.get(name);
                if (has == null) {
                  found.add(
                      table.name() + " lacks its trigger " + name,
                      "put back the trigger " + name,
                      s -> s.execute(text));
                } else if (!onOneLine(has).equals(onOneLine(text))) {
                  found.add(
                      table.name() + "'s trigger " + name + " is another than was made",
                      "made the trigger " + name + " anew",
                      s -> {
                        s.execute("DROP TRIGGER \"" + name + "\"");
                        s.execute(text);
                      });
                }
              });
    }
    if (writerNamed(session)) {
      found.add(
          "table editing names a writer although no write is running",
          "took the writer out of table editing",
          // As every write does at its end; until then it names the repair itself.
          s -> {});
    }
  }

  /** A writer's own row, seen from inside its transaction, is no trouble. */
  private static boolean writerNamed(Session session) throws SQLException {
    try (ResultSet r =
        session.statement("SELECT 1 FROM editing WHERE who IS NOT NULL").executeQuery()) {
      return r.next() && !session.writes();
    }
  }

  private static Map<String, String> wanted(Table table) {
    Map<String, String> wanted = new LinkedHashMap<>();
    if (table.spatial()) {
      put(
          wanted,
          GeoPackageSchema.rtreeTriggerNames(table.name()),
          GeoPackageSchema.rtreeTriggers(table.name()));
    }
    if (table.logged()) {
      put(wanted, ChangeLogTriggers.names(table), ChangeLogTriggers.of(table));
    }
    return wanted;
  }

  private static void put(Map<String, String> wanted, List<String> names, List<String> texts) {
    for (int i = 0; i < names.size(); i++) {
      wanted.put(names.get(i), texts.get(i));
    }
  }

  private static String onOneLine(String sql) {
    return sql.strip().replaceAll("\\s+", " ");
  }
}
