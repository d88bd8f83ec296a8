package lanemend.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The part of the file that the standard lays down: OGC 12-128r19, GeoPackage Encoding Standard
 * 1.4, annex C for the tables and annex F.3 for the R-tree. Requirement numbers are the standard's.
 */
final class GeoPackageSchema {
  /** "GPKG" in ASCII (Req 2). */
  static final int APPLICATION_ID = 0x47504B47;

  /** GeoPackage 1.4.0 (Req 2). */
  static final int USER_VERSION = 10400;

  /** Given to a projected system that has no EPSG code. */
  static final int OWN_SRS_ID = 100_000;

  static final String RTREE_EXTENSION = "gpkg_rtree_index";
  static final String RTREE_DEFINITION = "http://www.geopackage.org/spec140/#extension_rtree";

  private static final Pattern WKT_NAME = Pattern.compile("^\\s*\\w+\\s*\\[\\s*\"([^\"]+)\"");

  private static final String WGS84 =
      "GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563,"
          + "AUTHORITY[\"EPSG\",\"7030\"]],AUTHORITY[\"EPSG\",\"6326\"]],"
          + "PRIMEM[\"Greenwich\",0,AUTHORITY[\"EPSG\",\"8901\"]],"
          + "UNIT[\"degree\",0.0174532925199433,AUTHORITY[\"EPSG\",\"9122\"]],"
          + "AXIS[\"Latitude\",NORTH],AXIS[\"Longitude\",EAST],AUTHORITY[\"EPSG\",\"4326\"]]";

  private static final List<String> STANDARD_TABLES =
      List.of(
          """
          CREATE TABLE gpkg_spatial_ref_sys (
            srs_name TEXT NOT NULL,
            srs_id INTEGER PRIMARY KEY,
            organization TEXT NOT NULL,
            organization_coordsys_id INTEGER NOT NULL,
            definition TEXT NOT NULL,
            description TEXT
          )""",
          """
          CREATE TABLE gpkg_contents (
            table_name TEXT NOT NULL PRIMARY KEY,
            data_type TEXT NOT NULL,
            identifier TEXT UNIQUE,
            description TEXT DEFAULT '',
            last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
            min_x DOUBLE,
            min_y DOUBLE,
            max_x DOUBLE,
            max_y DOUBLE,
            srs_id INTEGER,
            CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id)
          )""",
          """
          CREATE TABLE gpkg_geometry_columns (
            table_name TEXT NOT NULL,
            column_name TEXT NOT NULL,
            geometry_type_name TEXT NOT NULL,
            srs_id INTEGER NOT NULL,
            z TINYINT NOT NULL,
            m TINYINT NOT NULL,
            CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
            CONSTRAINT uk_gc_table_name UNIQUE (table_name),
            CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
            CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id)
          )""",
          """
          CREATE TABLE gpkg_extensions (
            table_name TEXT,
            column_name TEXT,
            extension_name TEXT NOT NULL,
            definition TEXT NOT NULL,
            scope TEXT NOT NULL,
            CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name)
          )""");

  private static final List<String> RTREE_TRIGGERS =
      List.of(
          """
            CREATE TRIGGER "rtree_<t>_geom_insert" AFTER INSERT ON "<t>"
              WHEN (new."geom" NOT NULL AND NOT ST_IsEmpty(NEW."geom"))
            BEGIN
              INSERT OR REPLACE INTO "rtree_<t>_geom" VALUES (NEW."fid", <box>);
            END""",
          """
            CREATE TRIGGER "rtree_<t>_geom_update2" AFTER UPDATE OF "geom" ON "<t>"
              WHEN OLD."fid" = NEW."fid" AND
                   (NEW."geom" ISNULL OR ST_IsEmpty(NEW."geom"))
            BEGIN
              DELETE FROM "rtree_<t>_geom" WHERE id = OLD."fid";
            END""",
          """
            CREATE TRIGGER "rtree_<t>_geom_update4" AFTER UPDATE ON "<t>"
              WHEN OLD."fid" != NEW."fid" AND
                   (NEW."geom" ISNULL OR ST_IsEmpty(NEW."geom"))
            BEGIN
              DELETE FROM "rtree_<t>_geom" WHERE id IN (OLD."fid", NEW."fid");
            END""",
          """
            CREATE TRIGGER "rtree_<t>_geom_update5" AFTER UPDATE ON "<t>"
              WHEN OLD."fid" != NEW."fid" AND
                   (NEW."geom" NOTNULL AND NOT ST_IsEmpty(NEW."geom"))
            BEGIN
              DELETE FROM "rtree_<t>_geom" WHERE id = OLD."fid";
              INSERT OR REPLACE INTO "rtree_<t>_geom" VALUES (NEW."fid", <box>);
            END""",
          """
            CREATE TRIGGER "rtree_<t>_geom_update6" AFTER UPDATE OF "geom" ON "<t>"
              WHEN OLD."fid" = NEW."fid" AND
                   (NEW."geom" NOTNULL AND NOT ST_IsEmpty(NEW."geom")) AND
                   (OLD."geom" NOTNULL AND NOT ST_IsEmpty(OLD."geom"))
            BEGIN
              UPDATE "rtree_<t>_geom" SET
                minx = ST_MinX(NEW."geom"), maxx = ST_MaxX(NEW."geom"),
                miny = ST_MinY(NEW."geom"), maxy = ST_MaxY(NEW."geom")
              WHERE id = NEW."fid";
            END""",
          """
            CREATE TRIGGER "rtree_<t>_geom_update7" AFTER UPDATE OF "geom" ON "<t>"
              WHEN OLD."fid" = NEW."fid" AND
                   (NEW."geom" NOTNULL AND NOT ST_IsEmpty(NEW."geom")) AND
                   (OLD."geom" ISNULL OR ST_IsEmpty(OLD."geom"))
            BEGIN
              INSERT INTO "rtree_<t>_geom" VALUES (NEW."fid", <box>);
            END""",
          """
            CREATE TRIGGER "rtree_<t>_geom_delete" AFTER DELETE ON "<t>"
              WHEN old."geom" NOT NULL
            BEGIN
              DELETE FROM "rtree_<t>_geom" WHERE id = OLD."fid";
            END""");

  private GeoPackageSchema() {}

  static int srsId(int epsg) {
    return epsg > 0 ? epsg : OWN_SRS_ID;
  }

  /** Makes the standard's own tables and the reference systems. */
  static void create(Connection connection, String crsWkt, int epsg) throws SQLException {
    try (Statement s = connection.createStatement()) {
      s.execute("PRAGMA application_id = " + APPLICATION_ID);
      s.execute("PRAGMA user_version = " + USER_VERSION);
      for (String sql : STANDARD_TABLES) {
        s.execute(sql);
      }
    }
    // Req 11: these three rows always.
    addSrs(connection, "Undefined Cartesian", -1, "NONE", "undefined", "undefined");
    addSrs(connection, "Undefined geographic", 0, "NONE", "undefined", "undefined");
    addSrs(connection, "WGS 84", 4326, "EPSG", WGS84, "longitude and latitude in degrees");
    Matcher name = WKT_NAME.matcher(crsWkt);
    addSrs(
        connection,
        name.find() ? name.group(1) : "projected",
        srsId(epsg),
        epsg > 0 ? "EPSG" : "LANEMEND",
        crsWkt,
        "the network's projected system, metres");
  }

  private static void addSrs(
      Connection connection, String name, int id, String by, String wkt, String about)
      throws SQLException {
    try (PreparedStatement p =
        connection.prepareStatement("INSERT INTO gpkg_spatial_ref_sys VALUES (?, ?, ?, ?, ?, ?)")) {
      p.setString(1, name);
      p.setInt(2, id);
      p.setString(3, by);
      p.setInt(4, id);
      p.setString(5, wkt);
      p.setString(6, about);
      p.executeUpdate();
    }
  }

  /** Makes one of our tables and tells the standard's tables about it. */
  static void add(Connection connection, Table table, int srsId) throws SQLException {
    try (Statement s = connection.createStatement()) {
      s.execute(table.createSql());
    }
    addContents(connection, table, srsId);
    if (table.spatial()) {
      addGeometryColumn(connection, table, srsId);
    }
  }

  static void addContents(Connection connection, Table table, int srsId) throws SQLException {
    try (PreparedStatement p =
        connection.prepareStatement(
            "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id)"
                + " VALUES (?, ?, ?, ?, ?)")) {
      p.setString(1, table.name());
      p.setString(2, table.spatial() ? "features" : "attributes");
      p.setString(3, table.name());
      p.setString(4, table.about());
      p.setObject(5, table.spatial() ? srsId : null);
      p.executeUpdate();
    }
  }

  private static void addGeometryColumn(Connection connection, Table table, int srsId)
      throws SQLException {
    addGeometryColumnRow(connection, table, srsId);
    try (Statement s = connection.createStatement()) {
      s.execute(createRtree(table));
      for (String trigger : rtreeTriggers(table.name())) {
        s.execute(trigger);
      }
    }
    // Req 75 and 76.
    addExtension(connection, table.name(), "geom", RTREE_EXTENSION, RTREE_DEFINITION);
  }

  static String createRtree(Table table) {
    return "CREATE VIRTUAL TABLE \"" + table.rtree() + "\" USING rtree(id, minx, maxx, miny, maxy)";
  }

  /** As clause F.3 of the standard loads an index. */
  static String fillRtree(String rtree, String table) {
    return "INSERT INTO "
        + rtree
        + " SELECT fid, ST_MinX(geom), ST_MaxX(geom), ST_MinY(geom), ST_MaxY(geom) FROM "
        + table
        + " WHERE geom NOT NULL AND NOT ST_IsEmpty(geom)";
  }

  static void addGeometryColumnRow(Connection connection, Table table, int srsId)
      throws SQLException {
    try (PreparedStatement p =
        connection.prepareStatement(
            "INSERT INTO gpkg_geometry_columns VALUES (?, 'geom', ?, ?, 0, ?)")) {
      p.setString(1, table.name());
      p.setString(2, table.geometry().typeName);
      p.setInt(3, srsId);
      p.setInt(4, table.geometry().measured ? 1 : 0);
      p.executeUpdate();
    }
  }

  static void addExtension(
      Connection connection, String table, String column, String extension, String definition)
      throws SQLException {
    try (PreparedStatement p =
        connection.prepareStatement(
            "INSERT INTO gpkg_extensions VALUES (?, ?, ?, ?, 'write-only')")) {
      p.setString(1, table);
      p.setString(2, column);
      p.setString(3, extension);
      p.setString(4, definition);
      p.executeUpdate();
    }
  }

  static List<String> rtreeTriggerNames(String table) {
    return List.of("insert", "update2", "update4", "update5", "update6", "update7", "delete")
        .stream()
        .map(n -> "rtree_" + table + "_geom_" + n)
        .toList();
  }

  /** Req 77: the triggers of 1.4, in which update6 and 7 replace update1 and update5 update3. */
  static List<String> rtreeTriggers(String table) {
    String box =
        """
        ST_MinX(NEW."geom"), ST_MaxX(NEW."geom"), ST_MinY(NEW."geom"), ST_MaxY(NEW."geom")""";
    return RTREE_TRIGGERS.stream()
        .map(sql -> sql.replace("<box>", box).replace("<t>", table))
        .toList();
  }
}
