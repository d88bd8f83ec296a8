package lanemend.exchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import lanemend.network.RoadClass;
import lanemend.network.SourceLine;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;

/**
 * Road lines from GeoJSON, a GeoPackage layer or CSV with well-known text. Touches nothing but the
 * file it reads. A line whose geometry, route or class is wrong is refused; a line with an
 * unreadable further fact (its speed, say) is taken without that fact and a warning is kept. A
 * multi-line feature counts as so many rows as it has lines.
 */
public final class RoadReader {
  private static final int MAX_NAMES = 20;

  private final RoadSource source;
  private final Georeference georeference;
  private final Gather<SourceLine> gather = new Gather<>();
  private boolean hasWellKnownText;
  private long leftOut;

  private RoadReader(RoadSource source) {
    this.source = source;
    this.georeference = new Georeference(source.crs());
  }

  /**
   * Reads the file.
   *
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<SourceLine> read(RoadSource source) {
    return new RoadReader(source).read();
  }

  private Read<SourceLine> read() {
    String name = RowSource.nameOf(source.file());
    checkSystem(name, "");
    RowSource rows =
        name.toLowerCase(Locale.ROOT).endsWith(".gpkg")
            ? new GeoPackageRows(source.file(), source.layer())
            : RowSource.of(source.file());
    hasWellKnownText = rows instanceof CsvRows;
    rows.columns().ifPresent(columns -> checkColumns(name, columns));
    gather.runEach(rows, source.fields(), this::row);
    if (leftOut > 0) {
      gather.note(name + ": " + leftOut + " lines left out, as their class is mapped to ignore");
    }
    return gather.read(name, Set.of());
  }

  private void checkSystem(String name, String inFile) {
    try {
      georeference.check(inFile);
    } catch (IllegalArgumentException e) {
      throw new ExchangeException(
          new RowProblem(
              name,
              0,
              "crs",
              source.crs().isBlank() ? inFile : source.crs(),
              "a coordinate system such as EPSG:26915 (" + e.getMessage() + ")"));
    }
  }

  private void checkColumns(String name, List<String> columns) {
    List<String> needed = hasWellKnownText ? List.of("wkt", "class") : List.of("class");
    for (String field : needed) {
      boolean there = source.fields().columnsOf(field).stream().anyMatch(columns::contains);
      boolean spared = field.equals("class") && source.classes().meanings().containsKey("*");
      if (!there && !spared) {
        throw new ExchangeException(
            new RowProblem(
                name,
                hasWellKnownText ? 1 : 0,
                field,
                String.join(", ", columns),
                "a column "
                    + String.join(" or ", source.fields().columnsOf(field))
                    + " (another name can be mapped: "
                    + field
                    + "=column)"));
      }
    }
  }

  private void row(Cells cells) {
    if (cells.row().crs().length() > 0) {
      checkSystem(cells.row().origin().file(), cells.row().crs());
    }
    ClassMap.Meaning meaning = source.classes().meaningOf(cells.line("class"));
    if (meaning.leaveOut()) {
      leftOut++;
      gather.passOver();
      return;
    }
    RoadClass roadClass =
        meaning
            .roadClass()
            .orElseGet(
                () -> {
                  cells.wrong(
                      "class",
                      cells.line("class"),
                      ClassMap.wanted() + ", or a mapping such as primary=arterial");
                  return null;
                });
    List<String> names = names(cells);
    String direction = cells.line("direction");
    RoadFacts facts = RoadFacts.way(cells);
    List<double[][]> lines = lines(cells);
    if (!cells.ok()) {
      gather.refuse(cells.problem());
      return;
    }
    facts = facts.withFurther(cells, source.speedUnit());
    gather.warn(cells.forgive());
    for (double[][] line : lines) {
      gather.take(line(cells.row().origin(), names, direction, roadClass, line, facts));
    }
  }

  private static SourceLine line(
      RowOrigin origin,
      List<String> names,
      String direction,
      RoadClass roadClass,
      double[][] line,
      RoadFacts facts) {
    double[] lon = Arrays.stream(line).mapToDouble(v -> v[0]).toArray();
    double[] lat = Arrays.stream(line).mapToDouble(v -> v[1]).toArray();
    if (facts.againstDrawing()) {
      reverse(lon);
      reverse(lat);
    }
    return new SourceLine(
        origin.text(),
        names,
        direction,
        roadClass,
        lon,
        lat,
        facts.oneWay(),
        facts.level(),
        facts.attributes());
  }

  private static void reverse(double[] values) {
    for (int i = 0, j = values.length - 1; i < j; i++, j--) {
      double swap = values[i];
      values[i] = values[j];
      values[j] = swap;
    }
  }

  private static List<String> names(Cells cells) {
    List<String> names =
        Arrays.stream(cells.line("route").split(";", -1))
            .map(String::strip)
            .filter(n -> !n.isEmpty())
            .distinct()
            .toList();
    if (names.size() > MAX_NAMES) {
      cells.wrong("route", cells.line("route"), "at most " + MAX_NAMES + " route names");
    }
    return names;
  }

  private List<double[][]> lines(Cells cells) {
    Row row = cells.row();
    Shape shape = row.shape();
    if (!row.shapeFault().isEmpty()) {
      cells.wrong("geometry", "", row.shapeFault());
      return List.of();
    }
    if (shape == null && !hasWellKnownText) {
      cells.wrong("geometry", "", "a LineString or MultiLineString");
      return List.of();
    }
    if (shape == null) {
      shape = wellKnown(cells);
      if (shape == null) {
        return List.of();
      }
    }
    if (!shape.isLine()) {
      cells.wrong("geometry", shape.type(), "LineString or MultiLineString");
      return List.of();
    }
    List<double[][]> lines = new ArrayList<>();
    for (double[][] part : shape.lines()) {
      double[][] line = placed(cells, part);
      if (line == null) {
        return List.of();
      }
      lines.add(line);
    }
    if (lines.isEmpty()) {
      cells.wrong("geometry", "an empty line", "a line of two different vertices or more");
    }
    return lines;
  }

  /** The part in longitude and latitude without repeated vertices, or null with a fault noted. */
  private double[][] placed(Cells cells, double[][] part) {
    List<double[]> vertices = new ArrayList<>(part.length);
    for (double[] v : part) {
      Georeference.Placed placed = georeference.place(v[0], v[1], cells.row().crs());
      if (placed.lonLat() == null) {
        cells.wrong("geometry", placed.found(), placed.expected());
        return null;
      }
      double[] last = vertices.isEmpty() ? null : vertices.get(vertices.size() - 1);
      if (last == null || last[0] != placed.lonLat()[0] || last[1] != placed.lonLat()[1]) {
        vertices.add(placed.lonLat());
      }
    }
    if (vertices.size() < 2) {
      cells.wrong(
          "geometry",
          vertices.size() + " different vertices",
          "a line of two different vertices or more");
      return null;
    }
    return vertices.toArray(new double[0][]);
  }

  private static Shape wellKnown(Cells cells) {
    String wanted = "LINESTRING (x y, x y) or MULTILINESTRING ((x y, x y), ...)";
    String text = cells.longText("wkt");
    if (text.isEmpty()) {
      cells.wrong("wkt", "", wanted);
      return null;
    }
    // The reader would follow a collection in a collection as deep as a file cares to nest.
    if (!text.regionMatches(true, 0, "LINESTRING", 0, 10)
        && !text.regionMatches(true, 0, "MULTILINESTRING", 0, 15)) {
      cells.wrong("wkt", text, wanted);
      return null;
    }
    try {
      return ofGeometry(new WKTReader().read(text));
    } catch (ParseException | IllegalArgumentException e) {
      cells.wrong("wkt", text, wanted);
      return null;
    }
  }

  static Shape ofGeometry(Geometry geometry) {
    List<double[][]> lines = new ArrayList<>();
    for (int i = 0; i < geometry.getNumGeometries(); i++) {
      if (geometry.getGeometryN(i) instanceof LineString line) {
        double[][] vertices = new double[line.getNumPoints()][];
        for (int v = 0; v < vertices.length; v++) {
          var at = line.getCoordinateN(v);
          vertices[v] = new double[] {at.getX(), at.getY()};
        }
        lines.add(vertices);
      }
    }
    return new Shape(geometry.getGeometryType(), lines);
  }
}
