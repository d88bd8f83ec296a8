package lanemend.exchange;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * One table as a GeoPackage (OGC 12-128r19) of its own, in WGS 84 longitude and latitude; without a
 * geometry it is an attribute table. The store itself is another matter: this is for handing on.
 */
final class GeoPackageOut {
  private static final int WGS_84 = 4326;
  private static final int APPLICATION_ID = 0x47504B47;
  private static final int VERSION_1_4 = 10400;
  private static final DateTimeFormatter MILLIS =
      DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss.SSS'Z'").withZone(ZoneOffset.UTC);

  private static final String WGS_84_TEXT =
      "GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563]],"
          + "PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]]";

  private static final List<String> FRAME =
      List.of(
          """
          CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY,
            organization TEXT NOT NULL, organization_coordsys_id INTEGER NOT NULL,
            definition TEXT NOT NULL, description TEXT)""",
          """
          CREATE TABLE gpkg_contents (table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL,
            identifier TEXT UNIQUE, description TEXT DEFAULT '',
            last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
            min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
            CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id))""",
          """
          CREATE TABLE gpkg_geometry_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL,
            geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL, z TINYINT NOT NULL,
            m TINYINT NOT NULL, CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
            CONSTRAINT uk_gc_table_name UNIQUE (table_name),
            CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
            CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id))""");

  private final String table;
  private final List<String> columns;
  private final List<List<Object>> rows;
  private final List<Shape> shapes;
  private final double[] box = {
    Double.POSITIVE_INFINITY,
    Double.POSITIVE_INFINITY,
    Double.NEGATIVE_INFINITY,
    Double.NEGATIVE_INFINITY
  };

  /**
   * @param rows values in the order of the columns: texts, numbers, dates or null
   * @param shapes one for each row, or null where it has none
   */
  GeoPackageOut(String table, List<String> columns, List<List<Object>> rows, List<Shape> shapes) {
    this.table = table;
    this.columns = columns;
    this.rows = rows;
    this.shapes = shapes;
  }

  /**
   * Replaces a file only once the new one is whole.
   *
   * @throws ExchangeException when it cannot be written
   */
  void write(Path target) {
    Path absolute = target.toAbsolutePath();
    Path beside = absolute.resolveSibling(RowSource.nameOf(absolute) + ".part");
    try {
      Path folder = absolute.getParent();
      if (folder != null) {
        Files.createDirectories(folder);
      }
      Files.deleteIfExists(beside);
      try (Connection db = DriverManager.getConnection("jdbc:sqlite:" + beside)) {
        db.setAutoCommit(false);
        fill(db);
        db.commit();
      }
      Files.move(beside, absolute, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException | SQLException e) {
      throw new ExchangeException(
          new RowProblem(
              RowSource.nameOf(target),
              0,
              "",
              String.valueOf(e.getMessage()),
              "a file to write to"));
    }
  }

  private boolean spatial() {
    return shapes.stream().anyMatch(s -> s != null && !s.lines().isEmpty());
  }

  private void fill(Connection db) throws SQLException {
    boolean spatial = spatial();
    try (Statement s = db.createStatement()) {
      s.execute("PRAGMA application_id = " + APPLICATION_ID);
      s.execute("PRAGMA user_version = " + VERSION_1_4);
      for (String sql : FRAME) {
        s.execute(sql);
      }
      s.execute(createSql(spatial));
    }
    system(db, "WGS 84", WGS_84, "EPSG", WGS_84, WGS_84_TEXT);
    system(db, "Undefined Cartesian SRS", -1, "NONE", -1, "undefined");
    system(db, "Undefined geographic SRS", 0, "NONE", 0, "undefined");
    insertRows(db, spatial);
    contents(db, spatial);
  }

  private static void system(
      Connection db, String name, int id, String organization, int code, String definition)
      throws SQLException {
    try (PreparedStatement p =
        db.prepareStatement("INSERT INTO gpkg_spatial_ref_sys VALUES (?, ?, ?, ?, ?, NULL)")) {
      p.setString(1, name);
      p.setInt(2, id);
      p.setString(3, organization);
      p.setInt(4, code);
      p.setString(5, definition);
      p.executeUpdate();
    }
  }

  private String createSql(boolean spatial) {
    List<String> parts = new ArrayList<>(List.of("fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL"));
    if (spatial) {
      parts.add("geom GEOMETRY");
    }
    for (int i = 0; i < columns.size(); i++) {
      parts.add(quoted(columns.get(i)) + " " + type(i));
    }
    return "CREATE TABLE " + quoted(table) + " (" + String.join(", ", parts) + ")";
  }

  private static String quoted(String name) {
    return "\"" + name.replace("\"", "\"\"") + "\"";
  }

  /** What a column holds in its rows; a column without a value is text. */
  private String type(int column) {
    boolean whole = true;
    boolean number = true;
    boolean date = true;
    boolean any = false;
    for (List<Object> row : rows) {
      Object value = row.get(column);
      if (value != null) {
        any = true;
        whole &= value instanceof Integer || value instanceof Long;
        number &= value instanceof Number;
        date &= value instanceof java.time.LocalDate;
      }
    }
    return !any ? "TEXT" : whole ? "INTEGER" : number ? "REAL" : date ? "DATE" : "TEXT";
  }

  private void insertRows(Connection db, boolean spatial) throws SQLException {
    List<String> names = new ArrayList<>(spatial ? List.of("geom") : List.of());
    columns.forEach(c -> names.add(quoted(c)));
    String sql =
        "INSERT INTO "
            + quoted(table)
            + " ("
            + String.join(", ", names)
            + ") VALUES ("
            + names.stream().map(n -> "?").collect(Collectors.joining(", "))
            + ")";
    try (PreparedStatement p = db.prepareStatement(sql)) {
      for (int r = 0; r < rows.size(); r++) {
        int at = 1;
        if (spatial) {
          p.setBytes(at++, blob(shapes.get(r)));
        }
        for (Object value : rows.get(r)) {
          p.setObject(at++, plain(value));
        }
        p.addBatch();
      }
      p.executeBatch();
    }
  }

  private static Object plain(Object value) {
    if (value instanceof Integer || value instanceof Long || value instanceof Double) {
      return value;
    }
    if (value instanceof Number n) {
      return n.doubleValue();
    }
    return value == null ? null : value.toString();
  }

  private void contents(Connection db, boolean spatial) throws SQLException {
    try (PreparedStatement p =
        db.prepareStatement(
            "INSERT INTO gpkg_contents VALUES (?, ?, ?, 'from Lanemend', ?, ?, ?, ?, ?, ?)")) {
      p.setString(1, table);
      p.setString(2, spatial ? "features" : "attributes");
      p.setString(3, table);
      p.setString(4, MILLIS.format(Instant.now()));
      for (int i = 0; i < 4; i++) {
        p.setObject(5 + i, spatial ? box[i] : null);
      }
      p.setObject(9, spatial ? WGS_84 : null);
      p.executeUpdate();
    }
    if (!spatial) {
      return;
    }
    try (PreparedStatement p =
        db.prepareStatement(
            "INSERT INTO gpkg_geometry_columns VALUES (?, 'geom', ?, " + WGS_84 + ", 0, 0)")) {
      p.setString(1, table);
      p.setString(2, geometryType());
      p.executeUpdate();
    }
  }

  /** The one type all rows have, else GEOMETRY. */
  private String geometryType() {
    List<String> types =
        shapes.stream()
            .filter(s -> s != null && !s.lines().isEmpty())
            .map(s -> s.type().toUpperCase(Locale.ROOT))
            .distinct()
            .toList();
    return types.size() == 1 ? types.get(0) : "GEOMETRY";
  }

  /** A header without bounds (2.1.3), then well-known binary. */
  private byte[] blob(Shape shape) {
    if (shape == null || shape.lines().isEmpty()) {
      return null;
    }
    for (double[][] line : shape.lines()) {
      for (double[] at : line) {
        box[0] = Math.min(box[0], at[0]);
        box[1] = Math.min(box[1], at[1]);
        box[2] = Math.max(box[2], at[0]);
        box[3] = Math.max(box[3], at[1]);
      }
    }
    int vertices = shape.lines().stream().mapToInt(l -> l.length).sum();
    ByteBuffer out =
        ByteBuffer.allocate(8 + 9 + 9 * shape.lines().size() + 16 * vertices)
            .order(ByteOrder.LITTLE_ENDIAN);
    out.put((byte) 'G').put((byte) 'P').put((byte) 0).put((byte) 1).putInt(WGS_84);
    if (shape.isPoint()) {
      out.put((byte) 1).putInt(1);
      position(out, shape.lines().get(0)[0]);
    } else if (shape.type().equals("LineString")) {
      line(out, shape.lines().get(0));
    } else {
      out.put((byte) 1).putInt(5).putInt(shape.lines().size());
      shape.lines().forEach(l -> line(out, l));
    }
    return java.util.Arrays.copyOf(out.array(), out.position());
  }

  private static void line(ByteBuffer out, double[][] line) {
    out.put((byte) 1).putInt(2).putInt(line.length);
    for (double[] at : line) {
      position(out, at);
    }
  }

  private static void position(ByteBuffer out, double[] at) {
    out.putDouble(at[0]).putDouble(at[1]);
  }
}
