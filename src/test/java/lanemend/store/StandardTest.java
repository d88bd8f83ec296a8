package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The requirements of OGC 12-128 (GeoPackage Encoding Standard 1.4) that apply to the store, by the
 * methods of its abstract test suite (annex A, and the suites of annexes F.3 and 2.5), read in the
 * standard's source text, github.com/opengeospatial/geopackage, spec/core.
 */
class StandardTest {
  @TempDir static Path folder;
  private static Path file;
  private static Connection connection;

  @BeforeAll
  static void aFilledStore() throws SQLException {
    file = folder.resolve("county.gpkg");
    Filled.store(file).close();
    connection = DriverManager.getConnection("jdbc:sqlite:" + file);
  }

  @AfterAll
  static void close() throws SQLException {
    connection.close();
  }

  @Test
  @DisplayName("Req 1 file format, Req 2 application id and user version, Req 3 extension")
  void container() throws IOException, SQLException {
    byte[] bytes = Files.readAllBytes(file);
    assertEquals("SQLite format 3\0", new String(bytes, 0, 16, StandardCharsets.US_ASCII));
    assertEquals("GPKG", new String(bytes, 68, 4, StandardCharsets.US_ASCII));
    assertEquals(List.of("10400"), column("PRAGMA user_version"));
    assertTrue(file.toString().endsWith(".gpkg"));
  }

  @Test
  @DisplayName("Req 5 only the standard's column types")
  void columnTypes() throws SQLException {
    Set<String> allowed =
        Set.of(
            "BOOLEAN",
            "INTEGER",
            "DOUBLE",
            "TEXT",
            "DATE",
            "DATETIME",
            "POINT",
            "LINESTRING",
            "MULTILINESTRING");
    for (String table : column("SELECT table_name FROM gpkg_contents")) {
      for (String type : column("SELECT type FROM pragma_table_info('" + table + "')")) {
        assertTrue(allowed.contains(type), table + " has a column of type " + type);
      }
    }
  }

  @Test
  @DisplayName("Req 6 integrity check, Req 7 foreign key check, Req 8 SQL")
  void integrity() throws SQLException {
    assertEquals(List.of("ok"), column("PRAGMA integrity_check"));
    assertEquals(List.of(), column("PRAGMA foreign_key_check"));
    assertFalse(column("SELECT * FROM sqlite_master").isEmpty());
  }

  @Test
  @DisplayName("Req 10 and 11 reference systems, Req 12 all used ones are there")
  void referenceSystems() throws SQLException {
    assertEquals(
        List.of("-1|NONE|-1|undefined", "0|NONE|0|undefined"),
        column(
            "SELECT srs_id || '|' || organization || '|' || organization_coordsys_id || '|' ||"
                + " definition FROM gpkg_spatial_ref_sys WHERE srs_id < 1 ORDER BY srs_id"));
    assertTrue(
        column("SELECT definition FROM gpkg_spatial_ref_sys WHERE srs_id = 4326")
            .get(0)
            .startsWith("GEOGCS[\"WGS 84\""));
    assertEquals(
        List.of(),
        column(
            "SELECT c.srs_id FROM gpkg_contents c LEFT JOIN gpkg_spatial_ref_sys s USING (srs_id)"
                + " WHERE c.data_type = 'features' AND s.srs_id IS NULL"));
    assertEquals(
        List.of(Invented.Utm15.CRS.wkt()),
        column(
            "SELECT DISTINCT definition FROM gpkg_spatial_ref_sys JOIN gpkg_geometry_columns"
                + " USING (srs_id)"));
  }

  @Test
  @DisplayName("Req 13 to 16 contents")
  void contents() throws SQLException {
    assertEquals(
        List.of(),
        column(
            "SELECT table_name FROM gpkg_contents WHERE table_name NOT IN (SELECT name FROM"
                + " sqlite_master)"));
    for (String change : column("SELECT last_change FROM gpkg_contents")) {
      assertTrue(change.matches("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d\\.\\d{3}Z"), change);
    }
    assertEquals(List.of(), column("PRAGMA foreign_key_check('gpkg_contents')"));
  }

  @Test
  @DisplayName("Req 18 and 29 integer primary keys, Req 118 and 119 attribute tables")
  void userTables() throws SQLException {
    for (String table : column("SELECT table_name FROM gpkg_contents")) {
      assertEquals(
          List.of("fid INTEGER"),
          column("SELECT name || ' ' || type FROM pragma_table_info('" + table + "') WHERE pk = 1"),
          table);
    }
    // All tables of ours but the log's context are told of.
    assertEquals(
        List.of("editing"),
        column(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'gpkg_%' AND"
                + " name NOT LIKE 'rtree_%' AND name NOT LIKE 'sqlite_%' AND name NOT IN (SELECT"
                + " table_name FROM gpkg_contents)"));
  }

  @Test
  @DisplayName("Req 19, 20, 33 geometry encoding, Req 152 empty geometries")
  void geometryEncoding() throws SQLException {
    int geometries = 0;
    for (String table : column("SELECT table_name FROM gpkg_geometry_columns")) {
      int isoType =
          switch (column(
                  "SELECT geometry_type_name FROM gpkg_geometry_columns WHERE table_name = '"
                      + table
                      + "'")
              .get(0)) {
            case "POINT" -> 1;
            case "LINESTRING" -> 2002;
            case "MULTILINESTRING" -> 2005;
            default -> -1;
          };
      try (Statement s = connection.createStatement();
          ResultSet r = s.executeQuery("SELECT geom FROM " + table)) {
        while (r.next()) {
          ByteBuffer blob = ByteBuffer.wrap(r.getBytes(1)).order(ByteOrder.LITTLE_ENDIAN);
          assertEquals('G', blob.get(0));
          assertEquals('P', blob.get(1));
          assertEquals(0, blob.get(2), "version");
          int flags = blob.get(3);
          assertEquals(0, flags & 0xf0, "not extended, not empty");
          assertEquals(1, flags & 1, "little endian");
          int box = flags >> 1 & 7;
          assertTrue(box == 0 || box == 1);
          assertEquals(List.of(String.valueOf(blob.getInt(4))), srs(table));
          int wkb = 8 + 32 * box;
          assertEquals(1, blob.get(wkb));
          // ISO 13249-3: M adds 2000 to the type.
          assertEquals(isoType, blob.getInt(wkb + 1), table);
          geometries++;
        }
      }
    }
    assertTrue(geometries > 200);
  }

  @Test
  @DisplayName("Req 10, 13, 21, 58 the standard's tables are defined as in annex C")
  void standardTables() throws SQLException {
    // Column, type, not null, part of the primary key; from annex C's CREATE TABLE statements.
    assertEquals(
        List.of(
            "srs_name TEXT 1 0",
            "srs_id INTEGER 0 1",
            "organization TEXT 1 0",
            "organization_coordsys_id INTEGER 1 0",
            "definition TEXT 1 0",
            "description TEXT 0 0"),
        columns("gpkg_spatial_ref_sys"));
    assertEquals(
        List.of(
            "table_name TEXT 1 1",
            "data_type TEXT 1 0",
            "identifier TEXT 0 0",
            "description TEXT 0 0",
            "last_change DATETIME 1 0",
            "min_x DOUBLE 0 0",
            "min_y DOUBLE 0 0",
            "max_x DOUBLE 0 0",
            "max_y DOUBLE 0 0",
            "srs_id INTEGER 0 0"),
        columns("gpkg_contents"));
    assertEquals(
        List.of(
            "table_name TEXT 1 1",
            "column_name TEXT 1 2",
            "geometry_type_name TEXT 1 0",
            "srs_id INTEGER 1 0",
            "z TINYINT 1 0",
            "m TINYINT 1 0"),
        columns("gpkg_geometry_columns"));
    assertEquals(
        List.of(
            "table_name TEXT 0 0",
            "column_name TEXT 0 0",
            "extension_name TEXT 1 0",
            "definition TEXT 1 0",
            "scope TEXT 1 0"),
        columns("gpkg_extensions"));
  }

  private static List<String> columns(String table) throws SQLException {
    return column(
        "SELECT name || ' ' || type || ' ' || \"notnull\" || ' ' || pk FROM pragma_table_info('"
            + table
            + "')");
  }

  private static List<String> srs(String table) throws SQLException {
    return column("SELECT srs_id FROM gpkg_geometry_columns WHERE table_name = '" + table + "'");
  }

  @Test
  @DisplayName("Req 21 to 28 geometry columns")
  void geometryColumns() throws SQLException {
    assertEquals(
        List.of(),
        column(
            "SELECT table_name FROM gpkg_contents WHERE data_type = 'features' AND table_name NOT"
                + " IN (SELECT table_name FROM gpkg_geometry_columns)"));
    assertEquals(
        List.of("gpkg_contents"),
        column(
            "SELECT \"table\" FROM pragma_foreign_key_list('gpkg_geometry_columns') WHERE \"from\""
                + " = 'table_name'"));
    assertEquals(
        List.of(),
        column(
            "SELECT table_name FROM gpkg_geometry_columns g WHERE column_name NOT IN (SELECT name"
                + " FROM pragma_table_info(g.table_name)) OR z NOT IN (0, 1, 2) OR m NOT IN (0, 1,"
                + " 2) OR geometry_type_name NOT IN ('POINT', 'LINESTRING', 'MULTILINESTRING')"));
    assertEquals(
        List.of("gpkg_spatial_ref_sys"),
        column(
            "SELECT \"table\" FROM pragma_foreign_key_list('gpkg_geometry_columns') WHERE \"from\""
                + " = 'srs_id'"));
    assertEquals(
        List.of(),
        column(
            "SELECT table_name FROM gpkg_geometry_columns g JOIN gpkg_contents c USING"
                + " (table_name) WHERE g.srs_id != c.srs_id"),
        "Req 146: same reference system in both");
  }

  @Test
  @DisplayName("Req 58 to 64 extensions")
  void extensions() throws SQLException {
    assertEquals(
        List.of("gpkg_rtree_index", "lanemend_change_log"),
        column("SELECT DISTINCT extension_name FROM gpkg_extensions ORDER BY 1"));
    assertEquals(
        List.of(),
        column(
            "SELECT table_name FROM gpkg_extensions WHERE table_name NOT IN (SELECT name FROM"
                + " sqlite_master) OR scope NOT IN ('read-write', 'write-only') OR extension_name"
                + " GLOB '*[^a-zA-Z0-9_]*'"));
  }

  @Test
  @DisplayName("Req 75 to 77 R-tree: extension row, virtual table, the triggers of 1.4")
  void rtree() throws SQLException {
    List<String> layers = column("SELECT table_name FROM gpkg_geometry_columns ORDER BY 1");
    assertEquals(
        layers,
        column(
            "SELECT table_name FROM gpkg_extensions WHERE extension_name = 'gpkg_rtree_index' AND"
                + " column_name = 'geom' AND scope = 'write-only' ORDER BY 1"));
    for (String t : layers) {
      assertEquals(
          List.of(
              "CREATE VIRTUAL TABLE \"rtree_"
                  + t
                  + "_geom\" USING rtree(id, minx, maxx, miny, maxy)"),
          column("SELECT sql FROM sqlite_master WHERE name = 'rtree_" + t + "_geom'"));
      assertEquals(
          List.of("delete", "insert", "update2", "update4", "update5", "update6", "update7"),
          column(
              "SELECT replace(name, 'rtree_"
                  + t
                  + "_geom_', '') FROM sqlite_master WHERE type = 'trigger' AND name LIKE"
                  + " 'rtree_"
                  + t
                  + "_geom_%' ORDER BY 1"));
      assertNotNull(column("SELECT rtreecheck('rtree_" + t + "_geom')"));
      assertEquals(List.of("ok"), column("SELECT rtreecheck('rtree_" + t + "_geom')"));
    }
  }

  @Test
  @DisplayName("The parts of the file the standard names are all the parts it has of that name")
  void noStrangeStandardTables() throws SQLException {
    assertEquals(
        List.of(
            "gpkg_contents", "gpkg_extensions", "gpkg_geometry_columns", "gpkg_spatial_ref_sys"),
        column(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name LIKE 'gpkg_%' ORDER BY"
                + " 1"));
  }

  private static List<String> column(String sql) throws SQLException {
    List<String> values = new ArrayList<>();
    try (Statement s = connection.createStatement();
        ResultSet r = s.executeQuery(sql)) {
      while (r.next()) {
        values.add(r.getString(1));
      }
    }
    return values;
  }
}
