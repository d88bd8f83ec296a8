package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import lanemend.network.SourceLine;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class GeoPackageRowsTest {
  @TempDir Path folder;
  private Path file;

  /** The tables of OGC 12-128r19 (GeoPackage 1.4), annex C, that a feature layer needs. */
  @BeforeEach
  void emptyGeoPackage() throws SQLException {
    file = folder.resolve("roads.gpkg");
    run(
        "CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY,"
            + " organization TEXT NOT NULL, organization_coordsys_id INTEGER NOT NULL,"
            + " definition TEXT NOT NULL, description TEXT)",
        "INSERT INTO gpkg_spatial_ref_sys VALUES"
            + " ('Undefined Cartesian', -1, 'NONE', -1, 'undefined', NULL),"
            + " ('WGS 84', 4326, 'EPSG', 4326, 'GEOGCS[...]', NULL),"
            + " ('NAD83 / UTM zone 15N', 26915, 'EPSG', 26915, 'PROJCS[...]', NULL)",
        "CREATE TABLE gpkg_contents (table_name TEXT PRIMARY KEY, data_type TEXT NOT NULL)",
        "CREATE TABLE gpkg_geometry_columns (table_name TEXT, column_name TEXT,"
            + " geometry_type_name TEXT, srs_id INTEGER, z TINYINT, m TINYINT)");
    layer("roads", "LINESTRING", 4326);
  }

  private void layer(String table, String type, int srs) throws SQLException {
    run(
        "INSERT INTO gpkg_contents VALUES ('" + table + "', 'features')",
        "INSERT INTO gpkg_geometry_columns VALUES ('"
            + table
            + "', 'geom', '"
            + type
            + "', "
            + srs
            + ", 2, 2)",
        "CREATE TABLE \""
            + table
            + "\" (fid INTEGER PRIMARY KEY, geom BLOB, Route TEXT,"
            + " class TEXT, lanes INTEGER, lane_width_ft REAL)");
  }

  private void run(String... statements) throws SQLException {
    try (Connection db = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = db.createStatement()) {
      for (String sql : statements) {
        s.execute(sql);
      }
    }
  }

  private void add(String table, int fid, byte[] geometry) throws SQLException {
    try (Connection db = DriverManager.getConnection("jdbc:sqlite:" + file);
        PreparedStatement s =
            db.prepareStatement(
                "INSERT INTO \"" + table + "\" VALUES (?, ?, 'SR 12', 'local', 2, 11.5)")) {
      s.setInt(1, fid);
      s.setBytes(2, geometry);
      s.execute();
    }
  }

  /** A line as GeoPackage binary, with an XY envelope, in WKB of {@code type} (2, 1002, 2002). */
  private static byte[] line(int type, int dimensions, double... ordinates) {
    ByteBuffer b = ByteBuffer.allocate(8 + 32 + 9 + 8 * ordinates.length);
    b.order(ByteOrder.LITTLE_ENDIAN);
    b.put((byte) 'G').put((byte) 'P').put((byte) 0).put((byte) 0b11).putInt(4326);
    b.putDouble(0).putDouble(0).putDouble(0).putDouble(0);
    b.put((byte) 1).putInt(type).putInt(ordinates.length / dimensions);
    for (double o : ordinates) {
      b.putDouble(o);
    }
    return b.array();
  }

  private Read<SourceLine> read(String layer, String crs) {
    return RoadReader.read(
        new RoadSource(file, layer, crs, SpeedUnit.MPH, FieldMap.NONE, ClassMap.NONE));
  }

  @Test
  void readsLinesWithHeightsAndMeasures() throws SQLException {
    add("roads", 7, line(2, 2, -93, 44, -93, 45));
    add("roads", 8, line(1002, 3, -93, 44, 300, -93, 45, 301));
    add("roads", 9, line(2002, 3, -93, 44, 0, -93, 45, 1));
    Read<SourceLine> read = read("", "");
    assertEquals("", SmallCounty.texts(read.problems()));
    for (SourceLine line : read.rows()) {
      assertArrayEquals(new double[] {-93, -93}, line.longitude());
      assertArrayEquals(new double[] {44, 45}, line.latitude());
      assertEquals("2", line.attributes().get("lanes"));
      assertEquals("3.5052", line.attributes().get("lane_width_m")); // 11.5 x 0.3048
    }
    assertEquals("roads.gpkg:7", read.rows().get(0).origin());
  }

  @Test
  void brokenGeometriesAreRefusedByFeatureIdAndTheOthersTaken() throws SQLException {
    byte[] good = line(2, 2, -93, 44, -93, 45);
    byte[] manyPoints = good.clone();
    ByteBuffer.wrap(manyPoints).order(ByteOrder.LITTLE_ENDIAN).putInt(45, 0x7FFFFFFF);
    byte[] point = good.clone();
    ByteBuffer.wrap(point).order(ByteOrder.LITTLE_ENDIAN).putInt(41, 1);
    add("roads", 1, good);
    add("roads", 2, manyPoints);
    add("roads", 3, point);
    add("roads", 4, java.util.Arrays.copyOf(good, 60));
    add("roads", 5, new byte[] {1, 2, 3});
    add("roads", 6, null);
    Read<SourceLine> read = read("roads", "");
    assertEquals(1, read.rows().size());
    assertEquals(
        List.of(2L, 3L, 4L, 5L, 6L), read.problems().stream().map(RowProblem::line).toList());
  }

  @Test
  void collectionsNestedThousandsDeepAreRefused() throws SQLException {
    ByteBuffer b = ByteBuffer.allocate(8 + 9 * 500_000).order(ByteOrder.LITTLE_ENDIAN);
    b.put((byte) 'G').put((byte) 'P').put((byte) 0).put((byte) 1).putInt(4326);
    while (b.hasRemaining()) {
      b.put((byte) 1).putInt(5).putInt(1);
    }
    add("roads", 1, b.array());
    assertEquals(1, read("roads", "").problems().size());
  }

  @Test
  void aProjectedLayerIsBroughtToLongitudeAndLatitude() throws SQLException {
    layer("utm", "LINESTRING", 26915);
    add("utm", 1, line(2, 2, 500000, 0, 500000, 4982950));
    SourceLine line = read("UTM", "").rows().get(0);
    assertEquals(-93, line.longitude()[1], 1e-9);
    assertEquals(45, line.latitude()[1], 0.001);
  }

  @Test
  void aLayerHasToBeNamedWhereThereAreSeveral() throws SQLException {
    layer("lanes", "MULTILINESTRING", 4326);
    ExchangeException e = assertThrows(ExchangeException.class, () -> read("", ""));
    assertEquals(
        "the layer to be named, one of lanes (MULTILINESTRING), roads (LINESTRING)",
        e.problem().expected());
    assertTrue(
        assertThrows(ExchangeException.class, () -> read("paths", ""))
            .problem()
            .expected()
            .startsWith("a layer of lines; the file has lanes"));
  }

  @Test
  void aFileOfAnotherKindIsRefused() {
    file = SmallCounty.write(folder, "text.gpkg", "not a database");
    assertEquals(
        "text.gpkg: found 'a file of another kind', expected a GeoPackage",
        assertThrows(ExchangeException.class, () -> read("", "")).getMessage());
  }

  @Test
  void aDatabaseThatIsNoGeoPackageIsRefused() throws SQLException {
    run("DROP TABLE gpkg_geometry_columns");
    assertEquals(
        "a GeoPackage that can be read",
        assertThrows(ExchangeException.class, () -> read("", "")).problem().expected());
  }
}
