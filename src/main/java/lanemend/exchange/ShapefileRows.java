package lanemend.exchange;

import java.io.EOFException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A shapefile as rows: {@code .shp} with its {@code .dbf}, the coordinate system from the {@code
 * .prj} and the letters from the {@code .cpg}, where these stand beside it. A row's line is the
 * number of its record. Where one of the files breaks off, what stands before is taken and what is
 * lost is one refused row that names the records.
 */
final class ShapefileRows implements RowSource {
  private final Path file;
  private final String name;

  ShapefileRows(Path file) {
    this.file = file;
    this.name = RowSource.nameOf(file);
  }

  @Override
  public Optional<List<String>> columns() {
    try (DbfTable table = table()) {
      return Optional.of(table.columns());
    } catch (IOException e) {
      throw whole(e, "a table that can be read");
    }
  }

  @Override
  public boolean hasGeometry() {
    return true;
  }

  private DbfTable table() throws IOException {
    Path dbf =
        beside(".dbf")
            .orElseThrow(
                () ->
                    new ExchangeException(
                        new RowProblem(
                            name,
                            0,
                            "",
                            "no .dbf file",
                            "the .dbf file of its attributes beside it")));
    return new DbfTable(dbf, text(".cpg"));
  }

  /** The file with this ending beside the shapefile, in whatever case. */
  private Optional<Path> beside(String ending) throws IOException {
    String wanted = name.substring(0, name.length() - ".shp".length()) + ending;
    Path folder = file.toAbsolutePath().getParent();
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(f -> RowSource.nameOf(f).equalsIgnoreCase(wanted)).sorted().findFirst();
    }
  }

  private String text(String ending) throws IOException {
    Optional<Path> there = beside(ending);
    return there.isEmpty()
        ? ""
        : new String(Files.readAllBytes(there.get()), StandardCharsets.ISO_8859_1).strip();
  }

  @Override
  public void read(Sink sink) {
    try (ShapeRecords shapes = new ShapeRecords(file);
        DbfTable table = table()) {
      String crs = text(".prj");
      if (crs.isEmpty()) {
        sink.note(
            name + ": no .prj file beside it: coordinates are taken for longitude and latitude");
      }
      rows(sink, shapes, table, crs);
    } catch (IOException e) {
      throw whole(e, "a shapefile that can be read");
    }
  }

  private void rows(Sink sink, ShapeRecords shapes, DbfTable table, String crs) {
    long deleted = 0;
    long number = 0;
    for (; number < table.records(); number++) {
      RowOrigin origin = new RowOrigin(name, number + 1, 0);
      ShapeRecords.Geometry geometry;
      Map<String, String> cells;
      try {
        geometry = shapes.next();
        cells = table.next();
      } catch (IOException e) {
        lost(sink, number, table.records(), String.valueOf(e.getMessage()));
        break;
      }
      if (cells == null) {
        deleted++;
      } else if (geometry == null) {
        sink.refuse(origin.problem("geometry", "", "a record of the .shp file"));
      } else {
        sink.row(new Row(origin, cells, geometry.shape(), geometry.fault(), crs));
      }
    }
    if (deleted > 0) {
      sink.note(name + ": " + deleted + " records are marked as deleted, and passed over");
    }
    if (number == table.records()) {
      more(sink, shapes, number);
    }
  }

  private void lost(Sink sink, long from, long records, String why) {
    sink.refuse(
        new RowProblem(
            name,
            from + 1,
            "",
            why,
            "records " + (from + 1) + " to " + records + ", which are lost with it"));
  }

  /** Geometries without attributes. */
  private void more(Sink sink, ShapeRecords shapes, long from) {
    long number = from;
    try {
      while (shapes.next() != null) {
        number++;
        sink.refuse(new RowOrigin(name, number, 0).problem("", "", "a record of the .dbf file"));
      }
    } catch (EOFException e) {
      sink.refuse(new RowOrigin(name, number + 1, 0).problem("", e.getMessage(), "a whole record"));
    } catch (IOException e) {
      sink.note(name + ": what follows record " + number + " cannot be read");
    }
  }

  private ExchangeException whole(IOException e, String expected) {
    String found = e instanceof java.nio.file.NoSuchFileException ? "no such file" : e.getMessage();
    return new ExchangeException(new RowProblem(name, 0, "", String.valueOf(found), expected));
  }

  static boolean is(Path file) {
    return RowSource.nameOf(file).toLowerCase(Locale.ROOT).endsWith(".shp");
  }
}
