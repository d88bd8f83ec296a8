package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * OGC 12-128, GeoPackage Encoding Standard 1.4: the abstract tests of the extension mechanism and
 * of attributes (annex A) and of the R-tree extension (annex F.3), each by its name and its method
 * (source as in {@link ConformanceBaseTest}, and extension_spatialindex.adoc beside it).
 */
class ConformanceExtensionsTest {
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
  @DisplayName("/opt/extension_mechanism/data/table_def")
  void extensionsTable() throws SQLException {
    assertEquals(
        List.of(
            "table_name TEXT 0 0",
            "column_name TEXT 0 0",
            "extension_name TEXT 1 0",
            "definition TEXT 1 0",
            "scope TEXT 1 0"),
        standard.columns("gpkg_extensions"));
  }

  @Test
  @DisplayName("/opt/extension_mechanism/data/data_values_for_extensions")
  void everyExtensionIsRegistered() throws SQLException {
    // By inspection: triggers of ours and R-trees are all there is beyond the core.
    assertEquals(
        List.of("gpkg_rtree_index", "lanemend_change_log"),
        standard.column("SELECT DISTINCT extension_name FROM gpkg_extensions ORDER BY 1"));
    assertEquals(
        List.of(),
        standard.column(
            "SELECT name FROM sqlite_master WHERE type = 'trigger' AND name NOT LIKE 'rtree_%' AND"
                + " name NOT LIKE 'log_%'"));
  }

  @Test
  @DisplayName("/opt/extension_mechanism/data/data_values_table_name")
  void tableNames() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT table_name FROM gpkg_extensions WHERE lower(table_name) NOT IN (SELECT"
                + " lower(tbl_name) FROM sqlite_master)"));
  }

  @Test
  @DisplayName("/opt/extension_mechanism/data/data_values_column_name")
  void columnNames() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT table_name FROM gpkg_extensions e WHERE column_name NOT NULL AND column_name"
                + " NOT IN (SELECT name FROM pragma_table_info(e.table_name))"));
  }

  @Test
  @DisplayName("/opt/extension_mechanism/data/data_values_extension_name")
  void extensionNames() throws SQLException {
    for (String name : standard.column("SELECT DISTINCT extension_name FROM gpkg_extensions")) {
      boolean listedInAnnexF = name.equals("gpkg_rtree_index");
      assertTrue(listedInAnnexF || name.matches("(?!gpkg_)[a-zA-Z0-9]+_[a-zA-Z0-9_]+"), name);
    }
  }

  @Test
  @DisplayName("/opt/extension_mechanism/data/data_values_definition")
  void definitions() throws SQLException {
    for (String said : standard.column("SELECT DISTINCT definition FROM gpkg_extensions")) {
      // The standard's by its address, ours by saying what it does.
      assertTrue(said.startsWith("http") || said.startsWith("Triggers log_"), said);
    }
  }

  @Test
  @DisplayName("/opt/extension_mechanism/data/data_values_scope")
  void scopes() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT scope FROM gpkg_extensions WHERE scope NOT IN ('read-write', 'write-only')"));
  }

  @Test
  @DisplayName("/opt/attributes/contents/data/attributes_row")
  void attributesRow() throws SQLException {
    List<String> tables =
        standard.column("SELECT table_name FROM gpkg_contents WHERE data_type = 'attributes'");
    assertFalse(tables.isEmpty());
    for (String table : tables) {
      assertEquals(
          List.of("fid INTEGER"),
          standard.column(
              "SELECT name || ' ' || type FROM pragma_table_info('" + table + "') WHERE pk = 1"),
          table);
      assertEquals(
          List.of("0"), standard.column("SELECT count(*) - count(DISTINCT fid) FROM " + table));
    }
  }

  @Test
  @DisplayName("/extensions/rtree/extension_name")
  void rtreeName() throws SQLException {
    assertFalse(
        standard
            .column("SELECT 1 FROM gpkg_extensions WHERE extension_name = 'gpkg_rtree_index'")
            .isEmpty());
  }

  @Test
  @DisplayName("/extensions/rtree/extension_row")
  void rtreeRow() throws SQLException {
    assertEquals(
        standard.column("SELECT table_name FROM gpkg_geometry_columns ORDER BY 1"),
        standard.column(
            "SELECT table_name FROM gpkg_extensions WHERE extension_name = 'gpkg_rtree_index' AND"
                + " column_name = 'geom' AND scope = 'write-only' ORDER BY 1"));
  }

  @Test
  @DisplayName("/reg_ext/features/spatial_indexes/implementation")
  void rtreeImplementation() throws SQLException {
    for (String t : standard.column("SELECT table_name FROM gpkg_geometry_columns")) {
      assertEquals(
          List.of(
              "CREATE VIRTUAL TABLE \"rtree_"
                  + t
                  + "_geom\" USING rtree(id, minx, maxx, miny, maxy)"),
          standard.column("SELECT sql FROM sqlite_master WHERE name = 'rtree_" + t + "_geom'"));
      assertEquals(
          List.of("delete", "insert", "update2", "update4", "update5", "update6", "update7"),
          standard.column(
              "SELECT replace(name, 'rtree_"
                  + t
                  + "_geom_', '') FROM sqlite_master WHERE type = 'trigger' AND name LIKE"
                  + " 'rtree_"
                  + t
                  + "_geom_%' ORDER BY 1"));
      assertEquals(List.of("ok"), standard.column("SELECT rtreecheck('rtree_" + t + "_geom')"));
    }
  }

  @Test
  void theListInTheDocsIsTheListOfTests() throws IOException {
    TreeSet<String> tested = new TreeSet<>();
    for (Class<?> tests :
        List.of(
            ConformanceBaseTest.class,
            ConformanceFeaturesTest.class,
            ConformanceExtensionsTest.class)) {
      for (Method m : tests.getDeclaredMethods()) {
        DisplayName name = m.getAnnotation(DisplayName.class);
        if (name != null) {
          tested.add(name.value());
        }
      }
    }
    TreeSet<String> listed = new TreeSet<>();
    Matcher names =
        Pattern.compile("`(/[a-z_]+/[a-z0-9_/]+)`")
            .matcher(Files.readString(Path.of("docs/geopackage.md")));
    while (names.find()) {
      listed.add(names.group(1));
    }
    assertEquals(tested, listed);
  }
}
