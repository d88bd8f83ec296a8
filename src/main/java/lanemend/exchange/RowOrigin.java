package lanemend.exchange;

/**
 * Where a row stands.
 *
 * @param file file name as shown to the user
 * @param line line counted from 1 (GeoPackage: the feature's id)
 * @param feature running number of a GeoJSON feature, 0 for other formats; several features may
 *     share a line
 */
public record RowOrigin(String file, long line, long feature) {

  /** Text such as {@code roads.csv:17}. */
  public String text() {
    return file + ":" + line + (feature > 0 ? " (feature " + feature + ")" : "");
  }

  RowProblem problem(String field, String found, String expected) {
    String which = feature > 0 ? " (feature " + feature + ")" : "";
    return new RowProblem(file, line, field, found, expected + which);
  }
}
