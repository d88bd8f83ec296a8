package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKBReader;

/**
 * OGC 12-128, GeoPackage Encoding Standard 1.4, annex A: the abstract tests of the features option,
 * each by its name and its method (source as in {@link ConformanceBaseTest}).
 */
class ConformanceFeaturesTest {
  /** ISO 13249-3: M adds 2000 to the type's number. */
  private static final Map<String, Integer> ISO_TYPE =
      Map.of("POINT", 1, "LINESTRING", 2002, "MULTILINESTRING", 2005);

  private static final String FEATURES =
      "SELECT table_name FROM gpkg_contents WHERE data_type = 'features'";

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

  /** One geometry: its header, and its well-known binary read by JTS. */
  private record Blob(String table, String typeName, int srs, ByteBuffer bytes) {
    int flags() {
      return bytes.get(3);
    }

    int envelope() {
      return flags() >> 1 & 7;
    }

    boolean empty() {
      return (flags() & 0x10) != 0;
    }

    int wkbStart() {
      return 8 + new int[] {0, 32, 48, 48, 64}[envelope()];
    }

    byte[] wkb() {
      byte[] wkb = new byte[bytes.capacity() - wkbStart()];
      bytes.get(wkbStart(), wkb);
      return wkb;
    }
  }

  @FunctionalInterface
  private interface Look {
    void at(Blob blob) throws ParseException;
  }

  private static void eachGeometry(Look look) throws SQLException, ParseException {
    int seen = 0;
    for (String table : standard.column(FEATURES)) {
      String type =
          standard
              .column(
                  "SELECT geometry_type_name FROM gpkg_geometry_columns WHERE table_name = '"
                      + table
                      + "'")
              .get(0);
      int srs =
          Integer.parseInt(
              standard
                  .column(
                      "SELECT srs_id FROM gpkg_geometry_columns WHERE table_name = '" + table + "'")
                  .get(0));
      try (Statement s = standard.connection.createStatement();
          ResultSet r = s.executeQuery("SELECT geom FROM " + table + " WHERE geom NOT NULL")) {
        while (r.next()) {
          ByteBuffer bytes = ByteBuffer.wrap(r.getBytes(1)).order(ByteOrder.LITTLE_ENDIAN);
          look.at(new Blob(table, type, srs, bytes));
          seen++;
        }
      }
    }
    assertTrue(seen > 200, "only " + seen + " geometries: the test proves little");
  }

  @Test
  @DisplayName("/opt/features/contents/data/features_row")
  void featuresRow() throws SQLException {
    featureTable();
  }

  @Test
  @DisplayName("/opt/features/geometry_encoding/data/blob")
  void blob() throws Exception {
    eachGeometry(
        b -> {
          assertEquals('G', b.bytes().get(0));
          assertEquals('P', b.bytes().get(1));
          assertEquals(0, b.bytes().get(2), "version");
          assertEquals(0, b.flags() & 0x20, "standard and not extended");
          assertTrue(b.envelope() <= 4);
        });
  }

  @Test
  @DisplayName("/opt/features/geometry_encoding/data/empty_geometry")
  void emptyGeometry() throws Exception {
    eachGeometry(
        b -> {
          Geometry g = new WKBReader().read(b.wkb());
          assertEquals(g.isEmpty(), b.empty());
          assertTrue(!b.empty() || b.envelope() == 0);
        });
  }

  @Test
  @DisplayName("/opt/features/geometry_encoding/data/core_types_existing_sparse_data")
  void coreTypes() throws Exception {
    eachGeometry(
        b -> {
          assertEquals(1, b.bytes().get(b.wkbStart()), "little endian");
          assertEquals(ISO_TYPE.get(b.typeName()), b.bytes().getInt(b.wkbStart() + 1), b.table());
          new WKBReader().read(b.wkb());
        });
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/table_def")
  void geometryColumnsTable() throws SQLException {
    assertEquals(
        List.of(
            "table_name TEXT 1 1",
            "column_name TEXT 1 2",
            "geometry_type_name TEXT 1 0",
            "srs_id INTEGER 1 0",
            "z TINYINT 1 0",
            "m TINYINT 1 0"),
        standard.columns("gpkg_geometry_columns"));
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/data_values_geometry_columns")
  void everyLayerHasItsRow() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            FEATURES + " AND table_name NOT IN (SELECT table_name FROM gpkg_geometry_columns)"));
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/data_values_table_name")
  void tableNames() throws SQLException {
    assertEquals(
        List.of("gpkg_contents"),
        standard.column(
            "SELECT \"table\" FROM pragma_foreign_key_list('gpkg_geometry_columns') WHERE \"from\""
                + " = 'table_name'"));
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/data_values_column_name")
  void columnNames() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT table_name FROM gpkg_geometry_columns g WHERE column_name NOT IN (SELECT name"
                + " FROM pragma_table_info(g.table_name))"));
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/data_values_geometry_type_name")
  void geometryTypeNames() throws SQLException {
    for (String type :
        standard.column("SELECT DISTINCT geometry_type_name FROM gpkg_geometry_columns")) {
      assertTrue(ISO_TYPE.containsKey(type), type);
    }
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/data_values_srs_id")
  void referenceSystems() throws SQLException {
    assertEquals(List.of(), standard.column("PRAGMA foreign_key_check('gpkg_geometry_columns')"));
    assertEquals(
        List.of("gpkg_spatial_ref_sys"),
        standard.column(
            "SELECT \"table\" FROM pragma_foreign_key_list('gpkg_geometry_columns') WHERE \"from\""
                + " = 'srs_id'"));
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/data_values_srs_id_match")
  void referenceSystemsMatch() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT a.table_name FROM gpkg_geometry_columns a, gpkg_contents b WHERE a.table_name ="
                + " b.table_name AND a.srs_id IS NOT b.srs_id"));
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/data_values_z")
  void z() throws SQLException {
    assertEquals(
        List.of(), standard.column("SELECT z FROM gpkg_geometry_columns WHERE z NOT IN (0, 1, 2)"));
  }

  @Test
  @DisplayName("/opt/features/geometry_columns/data/data_values_m")
  void m() throws SQLException {
    assertEquals(
        List.of(), standard.column("SELECT m FROM gpkg_geometry_columns WHERE m NOT IN (0, 1, 2)"));
  }

  @Test
  @DisplayName("/opt/features/vector_features/data/feature_table")
  void featureTable() throws SQLException {
    for (String table : standard.column(FEATURES)) {
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
  @DisplayName("/opt/features/vector_features/data/feature_table_one_geometry_column")
  void oneGeometryColumn() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT table_name FROM gpkg_geometry_columns GROUP BY table_name HAVING count(*) >"
                + " 1"));
  }

  @Test
  @DisplayName("/opt/features/vector_features/data/feature_table_geometry_column_type")
  void geometryColumnType() throws SQLException {
    assertEquals(
        List.of(),
        standard.column(
            "SELECT g.table_name FROM gpkg_geometry_columns g WHERE geometry_type_name NOT IN"
                + " (SELECT type FROM pragma_table_info(g.table_name) WHERE name ="
                + " g.column_name)"));
  }

  @Test
  @DisplayName("/opt/features/vector_features/data/data_values_geometry_type")
  void geometryType() throws Exception {
    eachGeometry(
        b ->
            assertTrue(
                new WKBReader().read(b.wkb()).getGeometryType().equalsIgnoreCase(b.typeName())));
  }

  @Test
  @DisplayName("/opt/features/vector_features/data/data_value_geometry_srs_id")
  void geometryReferenceSystem() throws Exception {
    eachGeometry(b -> assertEquals(b.srs(), b.bytes().getInt(4), b.table()));
  }
}
