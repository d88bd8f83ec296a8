package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * OGC 12-128, GeoPackage Encoding Standard 1.4, annex A: the abstract tests of the core, each by
 * its name and its method. Read in the standard's source text, github.com/opengeospatial/geopackage
 * spec/core/annexes/ats.adoc.
 */
class ConformanceBaseTest {
  /** Table 1 of the standard: the names of column types, and of geometry types from annex G. */
  private static final Set<String> TYPES =
      Set.of(
          "BOOLEAN",
          "TINYINT",
          "SMALLINT",
          "MEDIUMINT",
          "INT",
          "INTEGER",
          "FLOAT",
          "DOUBLE",
          "REAL",
          "TEXT",
          "BLOB",
          "DATE",
          "DATETIME",
          "GEOMETRY",
          "POINT",
          "LINESTRING",
          "POLYGON",
          "MULTIPOINT",
          "MULTILINESTRING",
          "MULTIPOLYGON",
          "GEOMETRYCOLLECTION");

  @TempDir static Path folder;
  private static StandardFile standard;

  @BeforeAll
  static void aFilledStore() throws SQLException {
    standard = new StandardFile(folder);
  }

  @AfterAll
  static void close() throws SQLException {
    standard.close();
  }

  @Test
  @DisplayName("/base/core/container/data/file_format")
  void fileFormat() throws IOException {
    byte[] bytes = Files.readAllBytes(standard.file);
    assertEquals("SQLite format 3\0", new String(bytes, 0, 16, StandardCharsets.US_ASCII));
  }

  @Test
  @DisplayName("/base/core/container/data/file_format/application_id")
  void applicationId() throws IOException, SQLException {
    byte[] bytes = Files.readAllBytes(standard.file);
    assertEquals("GPKG", new String(bytes, 68, 4, StandardCharsets.US_ASCII));
    assertEquals(List.of("10400"), standard.column("PRAGMA user_version"));
  }

  @Test
  @DisplayName("/base/core/container/data/file_extension_name")
  void extensionName() {
    assertTrue(standard.file.toString().endsWith(".gpkg"));
  }

  @Test
  @DisplayName("/base/core/container/data/file_contents")
  void fileContents() throws SQLException {
    // Every gpkg_ table is one of annex C's, whose columns the table_def tests compare.
    assertEquals(
        List.of(
            "gpkg_contents", "gpkg_extensions", "gpkg_geometry_columns", "gpkg_spatial_ref_sys"),
        standard.column(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name LIKE 'gpkg_%' ORDER BY"
                + " 1"));
  }

  @Test
  @DisplayName("/base/core/container/data/table_data_types")
  void tableDataTypes() throws SQLException {
    for (String table : standard.column("SELECT table_name FROM gpkg_contents")) {
      for (String type : standard.column("SELECT type FROM pragma_table_info('" + table + "')")) {
        assertTrue(TYPES.contains(type), table + " has a column of type " + type);
      }
    }
  }

  @Test
  @DisplayName("/base/core/container/data/file_integrity")
  void fileIntegrity() throws SQLException {
    assertEquals(List.of("ok"), standard.column("PRAGMA integrity_check"));
  }

  @Test
  @DisplayName("/base/core/container/data/foreign_key_integrity")
  void foreignKeyIntegrity() throws SQLException {
    assertEquals(List.of(), standard.column("PRAGMA foreign_key_check"));
  }

  @Test
  @DisplayName("/base/core/container/api/sql")
  void sql() throws SQLException {
    assertFalse(standard.column("SELECT * FROM sqlite_master").isEmpty());
  }

  @Test
  @DisplayName("/base/core/gpkg_spatial_ref_sys/data/table_def")
  void referenceSystemsTable() throws SQLException {
    assertEquals(
        List.of(
            "srs_name TEXT 1 0",
            "srs_id INTEGER 0 1",
            "organization TEXT 1 0",
            "organization_coordsys_id INTEGER 1 0",
            "definition TEXT 1 0",
            "description TEXT 0 0"),
        standard.columns("gpkg_spatial_ref_sys"));
  }

  @Test
  @DisplayName("/base/core/gpkg_spatial_ref_sys/data_values_default")
  void defaultReferenceSystems() throws SQLException {
    assertEquals(
        List.of("-1|NONE|-1|undefined", "0|NONE|0|undefined"),
        standard.column(
            "SELECT srs_id || '|' || organization || '|' || organization_coordsys_id || '|' ||"
                + " description FROM gpkg_spatial_ref_sys WHERE srs_id < 1 ORDER BY srs_id"));
    assertTrue(
        standard
            .column(
                "SELECT definition FROM gpkg_spatial_ref_sys WHERE organization IN ('epsg',"
                    + " 'EPSG') AND organization_coordsys_id = 4326")
            .get(0)
            .startsWith("GEOGCS[\"WGS 84\""));
  }

  @Test
  @DisplayName("/base/core/spatial_ref_sys/data_values_required")
  void requiredReferenceSystems() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT gc.srs_id FROM gpkg_contents AS gc LEFT OUTER JOIN gpkg_spatial_ref_sys AS srs"
                + " ON srs.srs_id = gc.srs_id WHERE gc.data_type IN ('tiles', 'features') AND"
                + " srs.srs_id IS NULL"));
    // And the one that is used is the one the store was made with.
    assertEquals(
        List.of(Invented.Utm15.CRS.wkt()),
        standard.column(
            "SELECT DISTINCT definition FROM gpkg_spatial_ref_sys JOIN gpkg_geometry_columns"
                + " USING (srs_id)"));
  }

  @Test
  @DisplayName("/base/core/contents/data/table_def")
  void contentsTable() throws SQLException {
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
        standard.columns("gpkg_contents"));
    assertEquals(
        List.of("''", "strftime('%Y-%m-%dT%H:%M:%fZ','now')"),
        standard.column(
            "SELECT dflt_value FROM pragma_table_info('gpkg_contents') WHERE name IN"
                + " ('description', 'last_change')"));
  }

  @Test
  @DisplayName("/base/core/contents/data/data_values_table_name")
  void contentsTableNames() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT DISTINCT table_name FROM gpkg_contents WHERE table_name NOT IN (SELECT name"
                + " FROM sqlite_master)"));
    // All tables of ours but the log's context are told of.
    assertEquals(
        List.of("editing"),
        standard.column(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'gpkg_%' AND"
                + " name NOT LIKE 'rtree_%' AND name NOT LIKE 'sqlite_%' AND name NOT IN (SELECT"
                + " table_name FROM gpkg_contents)"));
  }

  @Test
  @DisplayName("/base/core/contents/data/data_values_last_change")
  void lastChange() throws SQLException {
    for (String change : standard.column("SELECT last_change FROM gpkg_contents")) {
      assertTrue(change.matches("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d\\.\\d{3}Z"), change);
    }
  }

  @Test
  @DisplayName("/base/core/contents/data/data_values_srs_id")
  void contentsReferenceSystems() throws SQLException {
    assertEquals(List.of(), standard.column("PRAGMA foreign_key_check('gpkg_contents')"));
  }
}
