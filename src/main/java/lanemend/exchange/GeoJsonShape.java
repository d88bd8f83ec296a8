package lanemend.exchange;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * A GeoJSON geometry, read whatever the order of its members. Polygons and collections come out
 * with their type and no lines, so that the reader can say which type it wanted.
 *
 * @param shape null when the geometry is null or faulty
 * @param fault what is wrong, or empty
 */
record GeoJsonShape(Shape shape, String fault) {
  /**
   * More vertices in one feature than any road line needs; keeps a hostile file small in memory.
   */
  static final int MAX_VERTICES = 1_000_000;

  private static final int MAX_DEPTH = 6;

  /** Reads the geometry at the parser's token and leaves the parser at its end. */
  static GeoJsonShape read(JsonParser p) throws IOException {
    if (p.currentToken() == JsonToken.VALUE_NULL) {
      return new GeoJsonShape(null, "");
    }
    if (p.currentToken() != JsonToken.START_OBJECT) {
      p.skipChildren();
      return new GeoJsonShape(null, "a geometry object");
    }
    String type = "";
    Coordinates coordinates = new Coordinates();
    Object tree = null;
    while (p.nextToken() == JsonToken.FIELD_NAME) {
      String member = p.currentName();
      JsonToken value = p.nextToken();
      if (member.equals("type") && value == JsonToken.VALUE_STRING) {
        type = p.getText();
      } else if (member.equals("coordinates") && value == JsonToken.START_ARRAY) {
        tree = coordinates.array(p, 1);
      } else {
        p.skipChildren();
      }
    }
    if (coordinates.fault != null) {
      return new GeoJsonShape(null, coordinates.fault);
    }
    return of(type, tree);
  }

  private static GeoJsonShape of(String type, Object tree) {
    return switch (type) {
      case "Point" ->
          tree instanceof double[] at
              ? good(type, List.<double[][]>of(new double[][] {at}))
              : new GeoJsonShape(null, "the coordinates of a Point: [longitude, latitude]");
      case "LineString" -> lines(type, tree == null ? List.of() : List.of(tree));
      case "MultiLineString" -> lines(type, tree instanceof List<?> parts ? parts : List.of());
      case "" -> new GeoJsonShape(null, "a geometry with a type");
      default -> good(type, List.of());
    };
  }

  private static GeoJsonShape lines(String type, List<?> parts) {
    List<double[][]> lines = new ArrayList<>();
    for (Object part : parts) {
      lines.add(line(part));
    }
    return lines.isEmpty() || lines.contains(null)
        ? new GeoJsonShape(
            null, "the coordinates of a " + type + ": lines of [longitude, latitude]")
        : good(type, lines);
  }

  private static GeoJsonShape good(String type, List<double[][]> lines) {
    return new GeoJsonShape(new Shape(type, lines), "");
  }

  private static double[][] line(Object tree) {
    if (!(tree instanceof List<?> positions) || positions.isEmpty()) {
      return null;
    }
    double[][] line = new double[positions.size()][];
    for (int i = 0; i < line.length; i++) {
      if (!(positions.get(i) instanceof double[] at)) {
        return null;
      }
      line[i] = at;
    }
    return line;
  }

  /** Nested arrays as lists, positions as {x, y}; heights and measures are left. */
  private static final class Coordinates {
    private String fault;
    private int vertices;

    Object array(JsonParser p, int depth) throws IOException {
      List<Object> items = new ArrayList<>();
      double[] position = new double[2];
      int numbers = 0;
      JsonToken t;
      while ((t = p.nextToken()) != JsonToken.END_ARRAY) {
        if (t == JsonToken.START_ARRAY && numbers == 0 && depth < MAX_DEPTH) {
          items.add(array(p, depth + 1));
        } else if (t.isNumeric() && items.isEmpty()) {
          if (numbers < 2) {
            position[numbers] = p.getDoubleValue();
          }
          numbers++;
        } else {
          fail("numbers in the coordinates, found " + t.name().replace('_', ' '));
          p.skipChildren();
        }
        if (fault != null) {
          items.clear();
        }
      }
      if (numbers == 0) {
        return items;
      }
      if (numbers == 1) {
        fail("positions of two numbers or more");
      }
      if (++vertices > MAX_VERTICES) {
        fail("at most " + MAX_VERTICES + " vertices in a feature");
      }
      return position;
    }

    private void fail(String why) {
      if (fault == null) {
        fault = why;
      }
    }
  }
}
