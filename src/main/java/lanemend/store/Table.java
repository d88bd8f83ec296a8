package lanemend.store;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A table of the store as it is laid out in the file.
 *
 * @param about what it holds, for {@code gpkg_contents}
 * @param geometry what its geometry column {@code geom} holds
 * @param columns all but {@code fid}, {@code geom} and {@code version}
 * @param key SQL expression over the columns that names a row to a person; {@code ROW.} stands for
 *     the row
 * @param constraints further table constraints
 * @param logged whether changes go to the change log; such a table has a {@code version}
 */
record Table(
    String name,
    String about,
    Shape geometry,
    List<Column> columns,
    String key,
    List<String> constraints,
    boolean logged) {

  /** What a geometry column holds. */
  enum Shape {
    NONE("", false),
    POINT("POINT", false),
    LINE("LINESTRING", true),
    LINES("MULTILINESTRING", true);

    /** Geometry type name of the GeoPackage standard. */
    final String typeName;

    /** Measured: each vertex carries along in ground metres. */
    final boolean measured;

    Shape(String typeName, boolean measured) {
      this.typeName = typeName;
      this.measured = measured;
    }
  }

  boolean spatial() {
    return geometry != Shape.NONE;
  }

  String rtree() {
    return "rtree_" + name + "_geom";
  }

  String createSql() {
    List<String> lines = new ArrayList<>();
    lines.add("fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL");
    if (spatial()) {
      lines.add("geom " + geometry.typeName);
    }
    columns.forEach(c -> lines.add(c.ddl()));
    if (logged) {
      lines.add("version INTEGER NOT NULL DEFAULT 1");
    }
    lines.addAll(constraints);
    return "CREATE TABLE " + name + " (\n  " + String.join(",\n  ", lines) + "\n)";
  }

  /** Names in the order {@link RowShape#values} gives the values: geometry first. */
  List<String> written() {
    return Stream.concat(
            spatial() ? Stream.of("geom") : Stream.empty(), columns.stream().map(Column::name))
        .toList();
  }

  String insertSql() {
    String marks = written().stream().map(c -> "?").collect(Collectors.joining(", "));
    return "INSERT INTO " + name + " (" + String.join(", ", written()) + ") VALUES (" + marks + ")";
  }

  /** Last two parameters: fid and the version read. */
  String updateSql() {
    String sets = written().stream().map(c -> c + " = ?").collect(Collectors.joining(", "));
    return "UPDATE " + name + " SET " + sets + " WHERE fid = ? AND version = ?";
  }

  /** The key expression for the row called {@code row}. */
  String keyOf(String row) {
    return key.replace("ROW.", row + ".");
  }
}
