package lanemend.store;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;

/** Whether every table is there, and what the standard's own tables say of each is right. */
final class MetadataCheck {
  /** Two digits for the patch of a version: 10400 to 10499 are all 1.4. */
  private static final int PATCHES = 100;

  private final Session session;
  private final Troubles found;
  private final Set<String> tables = new HashSet<>();

  private MetadataCheck(Session session, Troubles found) {
    this.session = session;
    this.found = found;
  }

  /** Returns whether every table of ours is there with its columns, so that others can look. */
  static boolean check(Session session, Troubles found) throws SQLException {
    return new MetadataCheck(session, found).run();
  }

  private boolean run() throws SQLException {
    tables.addAll(
        texts("SELECT name FROM sqlite_master WHERE type IN ('table', 'view') ORDER BY name"));
    boolean whole = true;
    for (Table table : Tables.ALL) {
      whole &= isWhole(table);
    }
    version();
    for (Table table : Tables.ALL) {
      if (tables.contains(table.name())) {
        contents(table);
        if (table.spatial()) {
          geometryColumn(table);
          index(table);
        }
      }
    }
    extension(Tables.CHANGE_LOG.name(), null, ChangeLogTriggers.EXTENSION, ChangeLogTriggers.ABOUT);
    for (String about : List.of("gpkg_geometry_columns", "gpkg_extensions", "gpkg_contents")) {
      tellOfNothing(about);
    }
    return whole;
  }

  private boolean isWhole(Table table) throws SQLException {
    if (!tables.contains(table.name())) {
      found.add("the table " + table.name() + " is missing: put back a backup copy");
      return false;
    }
    Set<String> has =
        new HashSet<>(texts("SELECT name FROM pragma_table_info('" + table.name() + "')"));
    List<String> lacks = table.written().stream().filter(c -> !has.contains(c)).toList();
    if (!lacks.isEmpty()) {
      found.add(
          table.name()
              + " lacks its column "
              + String.join(" and ", lacks)
              + ": put back a backup copy");
    }
    return lacks.isEmpty();
  }

  private void version() throws SQLException {
    String said = texts("PRAGMA user_version").get(0);
    int wanted = GeoPackageSchema.USER_VERSION;
    if (Integer.parseInt(said) / PATCHES != wanted / PATCHES) {
      found.add(
          "the file says it is GeoPackage version " + said + ", and is " + wanted,
          "set the GeoPackage version to " + wanted,
          s -> s.execute("PRAGMA user_version = " + wanted));
    }
  }

  private void contents(Table table) throws SQLException {
    String type = table.spatial() ? "features" : "attributes";
    Integer srs = table.spatial() ? session.srsId() : null;
    String sql = "SELECT data_type, srs_id FROM gpkg_contents WHERE table_name = ?";
    try (ResultSet r = session.statement(sql, table.name()).executeQuery()) {
      if (!r.next()) {
        found.add(
            "gpkg_contents lacks " + (table.spatial() ? "layer " : "table ") + table.name(),
            "told gpkg_contents of " + table.name(),
            s -> {
              GeoPackageSchema.addContents(s.connection(), table, s.srsId());
              Extents.anew(s, table);
            });
      } else if (!type.equals(r.getString(1))
          || !Objects.equals(srs, r.getObject(2) == null ? null : r.getInt(2))) {
        found.add(
            "gpkg_contents takes " + table.name() + " for what it is not",
            "set right what gpkg_contents says of " + table.name(),
            s ->
                s.statement(
                        "UPDATE gpkg_contents SET data_type = ?, srs_id = ? WHERE table_name = ?",
                        type,
                        srs,
                        table.name())
                    .executeUpdate());
      }
    }
  }

  private void geometryColumn(Table table) throws SQLException {
    String sql =
        "SELECT column_name, geometry_type_name, srs_id, z, m FROM gpkg_geometry_columns"
            + " WHERE table_name = ?";
    try (ResultSet r = session.statement(sql, table.name()).executeQuery()) {
      boolean right =
          r.next()
              && "geom".equals(r.getString(1))
              && table.geometry().typeName.equals(r.getString(2))
              && r.getInt(3) == session.srsId()
              && r.getInt(4) == 0
              && r.getInt(5) == (table.geometry().measured ? 1 : 0);
      if (!right) {
        found.add(
            "gpkg_geometry_columns does not have the geometry of " + table.name() + " as it is",
            "set right what gpkg_geometry_columns says of " + table.name(),
            s -> {
              s.statement("DELETE FROM gpkg_geometry_columns WHERE table_name = ?", table.name())
                  .executeUpdate();
              GeoPackageSchema.addGeometryColumnRow(s.connection(), table, s.srsId());
            });
      }
    }
    extension(
        table.name(), "geom", GeoPackageSchema.RTREE_EXTENSION, GeoPackageSchema.RTREE_DEFINITION);
  }

  private void index(Table table) {
    if (!tables.contains(table.rtree())) {
      found.add(
          table.name() + " lacks its R-tree",
          LayerCheck.rebuilt(table),
          s -> LayerCheck.rebuild(s, table));
    }
  }

  private void extension(String table, String column, String extension, String definition)
      throws SQLException {
    String sql =
        "SELECT 1 FROM gpkg_extensions WHERE table_name = ? AND column_name IS ?"
            + " AND extension_name = ? AND scope = 'write-only'";
    PreparedStatement p = session.statement(sql, table, column, extension);
    try (ResultSet r = p.executeQuery()) {
      if (!r.next()) {
        found.add(
            "gpkg_extensions does not name " + extension + " for " + table,
            "named " + extension + " for " + table + " in gpkg_extensions",
            s -> {
              s.statement(
                      "DELETE FROM gpkg_extensions WHERE table_name = ? AND column_name IS ?"
                          + " AND extension_name = ?",
                      table,
                      column,
                      extension)
                  .executeUpdate();
              GeoPackageSchema.addExtension(s.connection(), table, column, extension, definition);
            });
      }
    }
  }

  private void tellOfNothing(String about) throws SQLException {
    String gone =
        " FROM "
            + about
            + " WHERE table_name IS NOT NULL AND lower(table_name) NOT IN"
            + " (SELECT lower(name) FROM sqlite_master)";
    for (String name : texts("SELECT DISTINCT table_name" + gone)) {
      found.add(
          about + " tells of " + name + ", which is not in the file",
          "took what is not in the file out of " + about,
          s -> s.execute("DELETE" + gone));
    }
  }

  private List<String> texts(String sql) throws SQLException {
    List<String> texts = new ArrayList<>();
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        texts.add(r.getString(1));
      }
    }
    return texts;
  }
}
