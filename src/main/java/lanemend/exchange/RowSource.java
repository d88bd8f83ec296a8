package lanemend.exchange;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;

/** A file seen as rows; the formats differ only here. Reads once, in order, little in memory. */
interface RowSource {

  /** What to do with each row. */
  interface Sink {
    void row(Row row);

    /** A row that cannot even be taken apart. */
    void refuse(RowProblem problem);

    /** A sentence about the file. */
    void note(String text);
  }

  /**
   * Columns the file has, in lower case; empty where only the rows tell (GeoJSON).
   *
   * @throws ExchangeException when the file cannot be opened
   */
  Optional<List<String>> columns();

  /**
   * Goes through the file.
   *
   * @throws ExchangeException when the file as a whole cannot be read
   */
  void read(Sink sink);

  /**
   * The source for this file by its ending: {@code .geojson} or {@code .json}, {@code .shp}, else
   * CSV.
   */
  static RowSource of(Path file) {
    if (ShapefileRows.is(file)) {
      return new ShapefileRows(file);
    }
    String name = nameOf(file).toLowerCase(Locale.ROOT);
    return name.endsWith(".geojson") || name.endsWith(".json")
        ? new GeoJsonRows(file)
        : new CsvRows(file);
  }

  static String nameOf(Path file) {
    Path name = file.getFileName();
    return name == null ? file.toString() : name.toString();
  }

  /** True where a row has its place from a geometry, not from columns. */
  default boolean hasGeometry() {
    return false;
  }

  /** Runs through the source. */
  default void forEach(Consumer<Row> rows, Consumer<RowProblem> refused, Consumer<String> notes) {
    read(
        new Sink() {
          @Override
          public void row(Row row) {
            rows.accept(row);
          }

          @Override
          public void refuse(RowProblem problem) {
            refused.accept(problem);
          }

          @Override
          public void note(String text) {
            notes.accept(text);
          }
        });
  }
}
