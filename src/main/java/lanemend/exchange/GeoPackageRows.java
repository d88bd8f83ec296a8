package lanemend.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.sqlite.SQLiteConfig;

/** A feature layer of a GeoPackage (OGC 12-128r19) as rows; opened for reading only. */
final class GeoPackageRows implements RowSource {
  private static final byte[] MAGIC = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

  private record Layer(String table, String geometryColumn, String crs) {}

  private final Path file;
  private final String name;
  private final String wanted;

  /**
   * @param wanted layer name, or empty for the only one
   */
  GeoPackageRows(Path file, String wanted) {
    this.file = file;
    this.name = RowSource.nameOf(file);
    this.wanted = wanted;
  }

  @Override
  public Optional<List<String>> columns() {
    try (Connection db = open();
        Statement s = db.createStatement();
        ResultSet r = s.executeQuery("SELECT * FROM " + quoted(layer(db).table()) + " LIMIT 0")) {
      List<String> columns = new ArrayList<>();
      ResultSetMetaData meta = r.getMetaData();
      for (int i = 1; i <= meta.getColumnCount(); i++) {
        columns.add(meta.getColumnName(i).toLowerCase(Locale.ROOT));
      }
      return Optional.of(columns);
    } catch (SQLException e) {
      throw broken(e);
    }
  }

  @Override
  public void read(Sink sink) {
    try (Connection db = open()) {
      Layer layer = layer(db);
      try (Statement s = db.createStatement();
          ResultSet r = s.executeQuery("SELECT * FROM " + quoted(layer.table()))) {
        String key = primaryKey(db, layer.table());
        long number = 0;
        while (r.next()) {
          sink.row(row(r, layer, key, ++number));
        }
      }
    } catch (SQLException e) {
      throw broken(e);
    }
  }

  private Connection open() throws SQLException {
    byte[] start = new byte[MAGIC.length];
    try (InputStream in = Files.newInputStream(file)) {
      if (in.readNBytes(start, 0, start.length) < start.length
          || !java.util.Arrays.equals(start, MAGIC)) {
        throw whole("", "a file of another kind", "a GeoPackage");
      }
    } catch (IOException e) {
      throw CsvRows.unreadable(name, e);
    }
    SQLiteConfig config = new SQLiteConfig();
    config.setReadOnly(true);
    return DriverManager.getConnection(
        "jdbc:sqlite:" + file.toAbsolutePath(), config.toProperties());
  }

  private Layer layer(Connection db) throws SQLException {
    List<Layer> layers = new ArrayList<>();
    List<String> names = new ArrayList<>();
    try (Statement s = db.createStatement();
        ResultSet r =
            s.executeQuery(
                """
                SELECT g.table_name, g.column_name, g.geometry_type_name, s.organization,
                       s.organization_coordsys_id, s.definition
                FROM gpkg_geometry_columns g
                JOIN gpkg_contents c ON c.table_name = g.table_name AND c.data_type = 'features'
                LEFT JOIN gpkg_spatial_ref_sys s ON s.srs_id = g.srs_id
                ORDER BY g.table_name""")) {
      while (r.next()) {
        String table = r.getString(1);
        String type = String.valueOf(r.getString(3)).toUpperCase(Locale.ROOT);
        boolean lines = type.endsWith("LINESTRING") || type.equals("GEOMETRY");
        names.add(table + " (" + type + ")");
        if (wanted.isEmpty() ? lines : table.equalsIgnoreCase(wanted)) {
          layers.add(new Layer(table, r.getString(2), crs(r)));
        }
      }
    }
    if (layers.size() != 1) {
      throw whole(
          "layer",
          wanted,
          layers.isEmpty()
              ? "a layer of lines; the file has " + String.join(", ", names)
              : "the layer to be named, one of " + String.join(", ", names));
    }
    return layers.get(0);
  }

  private static String crs(ResultSet r) throws SQLException {
    String organization = String.valueOf(r.getString(4)).toUpperCase(Locale.ROOT);
    int code = r.getInt(5);
    if (organization.equals("EPSG") && code > 0) {
      return "EPSG:" + code;
    }
    // 'undefined' stands for the two systems that say nothing; the user has to.
    return organization.equals("NONE") ? "" : String.valueOf(r.getString(6));
  }

  private static String primaryKey(Connection db, String table) throws SQLException {
    try (PreparedStatement s =
        db.prepareStatement("SELECT name FROM pragma_table_info(?) WHERE pk = 1")) {
      s.setString(1, table);
      try (ResultSet r = s.executeQuery()) {
        return r.next() ? r.getString(1) : "";
      }
    }
  }

  private Row row(ResultSet r, Layer layer, String key, long number) throws SQLException {
    ResultSetMetaData meta = r.getMetaData();
    Map<String, String> cells = new HashMap<>();
    GeoPackageShape shape = new GeoPackageShape(null, "");
    long line = number;
    for (int i = 1; i <= meta.getColumnCount(); i++) {
      String column = meta.getColumnName(i);
      if (column.equalsIgnoreCase(layer.geometryColumn())) {
        shape = GeoPackageShape.read(r.getBytes(i));
        continue;
      }
      Object value = r.getObject(i);
      if (value instanceof byte[]) {
        cells.put(column.toLowerCase(Locale.ROOT), Cells.NESTED_OBJECT);
      } else if (value instanceof Double d && Double.isFinite(d)) {
        cells.put(column.toLowerCase(Locale.ROOT), Numbers.plain(d));
      } else if (value != null) {
        cells.put(column.toLowerCase(Locale.ROOT), value.toString());
      }
      if (column.equals(key) && r.getLong(i) > 0) {
        line = r.getLong(i);
      }
    }
    return new Row(new RowOrigin(name, line, 0), cells, shape.shape(), shape.fault(), layer.crs());
  }

  private static String quoted(String identifier) {
    return '"' + identifier.replace("\"", "\"\"") + '"';
  }

  private ExchangeException whole(String field, String found, String expected) {
    return new ExchangeException(new RowProblem(name, 0, field, found, expected));
  }

  private ExchangeException broken(SQLException e) {
    return whole("", String.valueOf(e.getMessage()), "a GeoPackage that can be read");
  }
}
