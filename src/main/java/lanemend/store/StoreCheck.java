package lanemend.store;

import java.nio.file.Path;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lanemend.network.Network;

/**
 * Looks for what the file's own constraints cannot rule out, or what another program may have
 * broken. Changes nothing.
 */
public final class StoreCheck {
  /** How far an event may stick out of its route, in metres: more than any rounding. */
  static final double ALONG_TOLERANCE_M = 0.05;

  /** How far an event may be drawn from its place, in metres. */
  static final double PLACE_TOLERANCE_M = 1;

  /** Events by a stretch of a road; any of them may be on the review list. */
  static final List<Table> ON_A_ROAD =
      List.of(
          Tables.DEFECT,
          Tables.FINDING,
          Tables.PATCH,
          Tables.ATTRIBUTE,
          Tables.RENEWAL_DECISION,
          PavementTables.SURVEYED_DISTRESS,
          PavementTables.PAVEMENT_LAYER);

  private static final Set<Table> KEPT_WITHOUT_ROAD =
      Set.of(
          Tables.PATCH,
          Tables.ATTRIBUTE,
          Tables.RENEWAL_DECISION,
          PavementTables.SURVEYED_DISTRESS,
          PavementTables.PAVEMENT_LAYER);

  private static final Pattern TREE = Pattern.compile("Tree (\\d+)");

  private final Session session;
  private final Troubles found = new Troubles();

  private StoreCheck(Session session) {
    this.session = session;
  }

  /** Everything wrong, a sentence each; empty when all is well. */
  public static List<String> check(Store store) {
    return troubles(store).sentences();
  }

  static Troubles troubles(Store store) {
    String wkt = store.crsWkt();
    return store.inSession(session -> troubles(session, new Snapshot(session, wkt)));
  }

  static Troubles troubles(Session session, Snapshot snapshot) {
    return new StoreCheck(session).run(snapshot);
  }

  /** Like {@link #check(Store)}; a file that does not open is the one thing wrong. */
  public static List<String> check(Path file) {
    try (Store store = Store.open(file)) {
      return check(store);
    } catch (StoreException e) {
      return List.of(e.getMessage());
    }
  }

  private Troubles run(Snapshot snapshot) {
    session.run(
        () -> {
          integrity();
          if (!found.isEmpty() || !MetadataCheck.check(session, found)) {
            // On damaged pages or without a table every further finding would be noise.
            return null;
          }
          foreignKeys();
          TriggerCheck.check(session, found);
          for (Table table : Tables.ALL) {
            if (table.spatial()) {
              LayerCheck.check(session, table, found);
            }
          }
          if (found.isEmpty()) {
            roads(snapshot);
          }
          PhotoCheck.check(session, found);
          LogCheck.check(session, found);
          return null;
        });
    return found;
  }

  private void integrity() throws SQLException {
    try (ResultSet r = session.statement("PRAGMA integrity_check").executeQuery()) {
      while (r.next()) {
        integrity(r.getString(1));
      }
    } catch (SQLException e) {
      // Some damage ends the whole check; table by table shows where it is.
      List<String> tables = new ArrayList<>();
      try (ResultSet r =
          session.statement("SELECT name FROM sqlite_master WHERE type = 'table'").executeQuery()) {
        while (r.next()) {
          tables.add(r.getString(1));
        }
      }
      for (String table : tables) {
        integrityOf(table);
      }
      if (found.isEmpty()) {
        throw e;
      }
    }
  }

  private void integrityOf(String table) {
    try (ResultSet r =
        session.statement("PRAGMA integrity_check('" + table + "')").executeQuery()) {
      while (r.next()) {
        integrity(r.getString(1));
      }
    } catch (SQLException e) {
      damaged("table " + table + ", " + e.getMessage().replaceFirst("^\\[\\w+] *", ""));
    }
  }

  private void integrity(String said) throws SQLException {
    if (said.contains("missing from index") || said.contains("wrong # of entries in index")) {
      found.add(
          "an index of the file is damaged: " + said,
          "built the file's indexes anew",
          s -> s.execute("REINDEX"));
    } else if (said.contains("In RTree")) {
      rtree(said);
    } else if (!said.equals("ok")) {
      damaged(named(said));
    }
  }

  private void damaged(String what) {
    found.add(
        "the file is damaged: "
            + what
            + "; put back a backup copy with 'restore', or take what can be read with 'salvage'");
  }

  /** SQLite names the tree of pages; people know tables. */
  private String named(String said) throws SQLException {
    String plain = said.strip().replace('\n', ' ');
    Matcher tree = TREE.matcher(plain);
    if (!tree.find()) {
      return plain;
    }
    String sql = "SELECT type, name, tbl_name FROM sqlite_master WHERE rootpage = ?";
    try (ResultSet r = session.statement(sql, Long.parseLong(tree.group(1))).executeQuery()) {
      if (!r.next()) {
        return plain;
      }
      boolean index = r.getString(1).equals("index");
      return (index ? "index " + r.getString(2) + " of table " : "table ")
          + r.getString(3)
          + ", "
          + plain;
    }
  }

  private void rtree(String said) {
    for (Table table : Tables.ALL) {
      if (table.spatial() && said.contains(table.rtree())) {
        found.add(
            table.name() + "'s R-tree is damaged: " + said,
            LayerCheck.rebuilt(table),
            s -> LayerCheck.rebuild(s, table));
      }
    }
  }

  private void foreignKeys() throws SQLException {
    try (ResultSet r = session.statement("PRAGMA foreign_key_check").executeQuery()) {
      while (r.next()) {
        if (r.getString("parent").equals(FieldTables.PHOTO_CONTENT.name())) {
          // Said by PhotoCheck, in words of what it shows.
          continue;
        }
        found.add(
            r.getString("table")
                + " row "
                + r.getLong("rowid")
                + " is an orphan: the row of "
                + r.getString("parent")
                + " it belongs to is gone");
      }
    }
  }

  private void roads(Snapshot snapshot) throws SQLException {
    Network network = snapshot.network();
    Map<String, RoadLine> lines = new HashMap<>();
    network.routes().values().forEach(r -> lines.put(r.id(), new RoadLine(r.parts())));
    network.connectors().forEach(c -> lines.put(c.id(), new RoadLine(List.of(c.line()))));
    editions();
    network.routes().values().forEach(r -> found.addAll(PostCheck.check(r)));
    for (Table t : ON_A_ROAD) {
      events(t, lines);
    }
    decisions();
    DrawingCheck.check(session, lines, found);
    found.addAll(ReviewCheck.check(session));
  }

  /** Two decisions on one stretch would leave open which of them holds. */
  private void decisions() throws SQLException {
    String sql =
        "SELECT a.section_id AS one, b.section_id AS other FROM renewal_decision a JOIN"
            + " renewal_decision b ON a.route_id = b.route_id AND a.fid < b.fid"
            + " AND a.from_along_m < b.to_along_m AND b.from_along_m < a.to_along_m";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        found.add(
            "renewal_decision '"
                + r.getString("one")
                + "' and '"
                + r.getString("other")
                + "' decide on one stretch");
      }
    }
    sql =
        "SELECT h.defect_id, d.status FROM held_defect h JOIN defect d ON d.id = h.defect_id"
            + " WHERE d.status IN ('open', 'planned') ORDER BY h.fid";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        found.add("defect '" + r.getString(1) + "' waits for an overlay but is " + r.getString(2));
      }
    }
  }

  private void editions() throws SQLException {
    String sql =
        "SELECT id, count(*) FROM route WHERE valid_to IS NULL GROUP BY id HAVING count(*) > 1";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        found.add("route " + r.getString(1) + " has " + r.getInt(2) + " current editions");
      }
    }
  }

  private void events(Table table, Map<String, RoadLine> lines) throws SQLException {
    boolean point = table.geometry() == Table.Shape.POINT;
    String sql =
        "SELECT route_id, from_along_m, to_along_m, "
            + table.keyOf("t")
            + " AS row_key"
            + (point ? ", ST_MinX(geom) AS x, ST_MinY(geom) AS y" : "")
            + " FROM "
            + table.name()
            + " t WHERE "
            + ReviewCheck.onRoadsOfToday(table)
            + " ORDER BY fid";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        String name = table.name() + " '" + r.getString("row_key") + "'";
        RoadLine line = lines.get(r.getString("route_id"));
        double from = r.getDouble("from_along_m");
        double to = r.getDouble("to_along_m");
        if (line == null) {
          // A retired road keeps its patches and decisions; only open matters need a road of today.
          if (!KEPT_WITHOUT_ROAD.contains(table)) {
            found.add(name + " lies on " + r.getString("route_id") + ", which is no current road");
          }
        } else if (from < line.fromAlong() - ALONG_TOLERANCE_M
            || to > line.toAlong() + ALONG_TOLERANCE_M) {
          found.add(outside(name, r.getString("route_id"), from, to, line));
        } else if (point) {
          drawn(name, r, line.at((from + to) / 2));
        }
      }
    }
  }

  private static String outside(String name, String route, double from, double to, RoadLine line) {
    return String.format(
        Locale.ROOT,
        "%s runs from %.2f to %.2f m, but %s runs from %.2f to %.2f m",
        name,
        from,
        to,
        route,
        line.fromAlong(),
        line.toAlong());
  }

  private void drawn(String name, ResultSet r, double[] place) throws SQLException {
    double away = Math.hypot(r.getDouble("x") - place[0], r.getDouble("y") - place[1]);
    if (away > PLACE_TOLERANCE_M) {
      found.add(
          String.format(
              Locale.ROOT,
              "%s is drawn %.1f m from its place on %s at %.2f m",
              name,
              away,
              r.getString("route_id"),
              (r.getDouble("from_along_m") + r.getDouble("to_along_m")) / 2));
    }
  }
}
