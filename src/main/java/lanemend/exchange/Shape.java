package lanemend.exchange;

import java.util.List;

/**
 * Geometry of a row, in the coordinate system of its file.
 *
 * @param type the word in the file, for instance {@code LineString}
 * @param lines vertices {x, y} of each line; a point is one line of one vertex; empty for the types
 *     Lanemend has no use for
 */
record Shape(String type, List<double[][]> lines) {
  Shape {
    lines = List.copyOf(lines);
  }

  boolean isPoint() {
    return type.equals("Point");
  }

  boolean isLine() {
    return type.equals("LineString") || type.equals("MultiLineString");
  }
}
