package lanemend.exchange;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;

/**
 * What an export shows of each object: named columns and a geometry in WGS 84 longitude and
 * latitude. One table serves CSV and GeoJSON.
 */
final class ExportTable<T> {
  private static final int DEGREE_DECIMALS = 7;

  private record Column<T>(String name, Function<T, Object> value) {}

  private final List<Column<T>> columns = new ArrayList<>();
  private Function<T, Shape> shape = t -> null;
  private boolean wkt;

  /** Adds a column; {@code value} gives a String, a number, a date, a time or null. */
  ExportTable<T> column(String name, Function<T, Object> value) {
    columns.add(new Column<>(name, value));
    return this;
  }

  ExportTable<T> shape(Function<T, Shape> value) {
    shape = value;
    return this;
  }

  /** Lets CSV carry the geometry too, as well-known text. */
  ExportTable<T> withWkt() {
    wkt = true;
    return this;
  }

  /**
   * Writes {@code .geojson} or {@code .json} as GeoJSON (RFC 7946), {@code .gpkg} as a GeoPackage,
   * anything else as CSV.
   *
   * @throws ExchangeException when the file cannot be written
   */
  void write(Path target, List<T> rows) {
    String name = RowSource.nameOf(target).toLowerCase(Locale.ROOT);
    if (name.endsWith(".geojson") || name.endsWith(".json")) {
      CsvOut.replace(target, out -> geoJson(out, rows));
    } else if (name.endsWith(".gpkg")) {
      geoPackage(target, name.substring(0, name.length() - ".gpkg".length()), rows);
    } else {
      csv(target, rows);
    }
  }

  private void geoPackage(Path target, String layer, List<T> rows) {
    new GeoPackageOut(
            layer.replace('-', '_'),
            columns.stream().map(Column::name).toList(),
            rows.stream().map(this::cells).toList(),
            rows.stream().map(shape).toList())
        .write(target);
  }

  private List<Object> cells(T row) {
    List<Object> line = new ArrayList<>();
    columns.forEach(c -> line.add(c.value().apply(row)));
    return line;
  }

  private void csv(Path target, List<T> rows) {
    List<String> names = new ArrayList<>(columns.stream().map(Column::name).toList());
    if (wkt) {
      names.add("wkt");
    }
    List<List<Object>> cells = new ArrayList<>();
    for (T row : rows) {
      List<Object> line = cells(row);
      if (wkt) {
        line.add(wellKnown(shape.apply(row)));
      }
      cells.add(line);
    }
    CsvOut.write(target, names, cells);
  }

  /** One feature to a line, so that a line number in a message finds it. */
  private void geoJson(Writer out, List<T> rows) throws IOException {
    out.write("{\"type\":\"FeatureCollection\",\"features\":[");
    JsonFactory factory = new JsonFactory();
    factory.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
    String between = "\n";
    for (T row : rows) {
      out.write(between);
      between = ",\n";
      try (JsonGenerator json = factory.createGenerator(out)) {
        feature(json, row);
      }
    }
    out.write("\n]}\n");
  }

  private void feature(JsonGenerator json, T row) throws IOException {
    json.writeStartObject();
    json.writeStringField("type", "Feature");
    json.writeObjectFieldStart("properties");
    for (Column<T> c : columns) {
      Object value = c.value().apply(row);
      json.writeFieldName(c.name());
      if (value == null) {
        json.writeNull();
      } else if (value instanceof Number) {
        json.writeNumber(CsvOut.text(value));
      } else {
        json.writeString(value.toString());
      }
    }
    json.writeEndObject();
    geometry(json, shape.apply(row));
    json.writeEndObject();
  }

  private static void geometry(JsonGenerator json, Shape shape) throws IOException {
    if (shape == null || shape.lines().isEmpty()) {
      json.writeNullField("geometry");
      return;
    }
    json.writeObjectFieldStart("geometry");
    json.writeStringField("type", shape.type());
    json.writeFieldName("coordinates");
    if (shape.isPoint()) {
      position(json, shape.lines().get(0)[0]);
    } else if (shape.type().equals("LineString")) {
      line(json, shape.lines().get(0));
    } else {
      json.writeStartArray();
      for (double[][] part : shape.lines()) {
        line(json, part);
      }
      json.writeEndArray();
    }
    json.writeEndObject();
  }

  private static void line(JsonGenerator json, double[][] line) throws IOException {
    json.writeStartArray();
    for (double[] at : line) {
      position(json, at);
    }
    json.writeEndArray();
  }

  private static void position(JsonGenerator json, double[] at) throws IOException {
    json.writeStartArray();
    json.writeNumber(new BigDecimal(degrees(at[0])));
    json.writeNumber(new BigDecimal(degrees(at[1])));
    json.writeEndArray();
  }

  static String degrees(double value) {
    return Numbers.rounded(value, DEGREE_DECIMALS);
  }

  private static String wellKnown(Shape shape) {
    if (shape == null) {
      return "";
    }
    StringBuilder text = new StringBuilder();
    for (double[][] part : shape.lines()) {
      text.append(text.isEmpty() ? "(" : ", (");
      for (int i = 0; i < part.length; i++) {
        text.append(i == 0 ? "" : ", ");
        text.append(degrees(part[i][0])).append(' ').append(degrees(part[i][1]));
      }
      text.append(')');
    }
    return shape.lines().size() == 1 ? "LINESTRING " + text : "MULTILINESTRING (" + text + ")";
  }
}
