package lanemend.exchange;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import lanemend.network.Lane;

/** What the readers of event files have in common: places, lanes, ids and the columns they need. */
final class EventCells {
  /**
   * Columns that exports add for people who map the file; what they say is worked out from the
   * others, so reading them back would only make contradictions.
   */
  static final Set<String> DERIVED =
      Set.of("at_route", "at_direction", "at_milepost", "at_milepost_to");

  private static final Pattern ID = Pattern.compile("[^\\s,;\"'][^,;\"\\n\\t]{0,79}");

  private final Georeference georeference = new Georeference("");
  private final Map<String, RowOrigin> seenIds = new HashMap<>();

  /** Checks a CSV's header for the columns without which no row can be read. */
  static void checkColumns(Path file, RowSource source, FieldMap map, String... anyOfEach) {
    source
        .columns()
        .ifPresent(
            columns -> {
              for (String need : anyOfEach) {
                boolean byGeometry = source.hasGeometry() && need.contains("longitude");
                if (byGeometry) {
                  continue;
                }
                if (List.of(need.split("\\|")).stream()
                    .flatMap(field -> map.columnsOf(field).stream())
                    .noneMatch(columns::contains)) {
                  String name = need.replace("|", " or ");
                  throw new ExchangeException(
                      new RowProblem(
                          RowSource.nameOf(file),
                          1,
                          name,
                          String.join(", ", columns),
                          "a column " + name + " (another name can be mapped)"));
                }
              }
            });
  }

  /** A place by route and milepost or by coordinates; a fault when it is neither. */
  WrittenPlace place(Cells cells, String fromField, String toField) {
    String from = cells.line(fromField);
    String to = cells.line(toField);
    checkMilepost(cells, fromField, from);
    checkMilepost(cells, toField, to);
    double[] at = at(cells);
    String route = cells.line("route");
    if (from.isEmpty() && !to.isEmpty()) {
      cells.wrong(fromField, "", "a milepost beside " + toField);
    } else if (from.isEmpty() && at == null && cells.ok()) {
      cells.wrong(fromField, "", "route and " + fromField + ", or longitude and latitude");
    } else if (!from.isEmpty() && route.isEmpty() && cells.ok()) {
      cells.wrong("route", "", "the route of the milepost");
    }
    return place(route, cells.line("direction"), from, to, at, cells.moment("found_at"));
  }

  static WrittenPlace place(
      String route, String direction, String from, String to, double[] at, Instant seenAt) {
    return new WrittenPlace(
        route,
        direction,
        from,
        to,
        at == null ? OptionalDouble.empty() : OptionalDouble.of(at[0]),
        at == null ? OptionalDouble.empty() : OptionalDouble.of(at[1]),
        seenAt);
  }

  static void checkMilepost(Cells cells, String field, String text) {
    if (!text.isEmpty() && MilepostText.parse(text).isEmpty()) {
      cells.wrong(field, text, MilepostText.WANTED);
    }
  }

  /** The columns before the geometry: an export's columns carry more digits than its geometry. */
  double[] at(Cells cells) {
    OptionalDouble lon = cells.number("longitude", -1e9, 1e9);
    OptionalDouble lat = cells.number("latitude", -1e9, 1e9);
    if (lon.isPresent() && lat.isPresent()) {
      return placed(cells, "longitude", lon.getAsDouble(), lat.getAsDouble(), "");
    }
    if (lon.isPresent() != lat.isPresent()) {
      String missing = lon.isPresent() ? "latitude" : "longitude";
      if (!cells.filled(missing)) {
        cells.wrong(missing, "", "longitude and latitude together");
      }
      return null;
    }
    Row row = cells.row();
    if (!row.shapeFault().isEmpty()) {
      cells.wrong("geometry", "", row.shapeFault());
    } else if (row.shape() != null && !row.shape().isPoint()) {
      cells.wrong("geometry", row.shape().type(), "Point");
    } else if (row.shape() != null) {
      double[] at = row.shape().lines().get(0)[0];
      return placed(cells, "geometry", at[0], at[1], row.crs());
    }
    return null;
  }

  private double[] placed(Cells cells, String field, double x, double y, String crs) {
    Georeference.Placed placed;
    try {
      placed = georeference.place(x, y, crs);
    } catch (IllegalArgumentException e) {
      throw new ExchangeException(
          new RowProblem(
              cells.row().origin().file(),
              0,
              "crs",
              crs,
              "a coordinate system such as CRS84 or EPSG:26915 (" + e.getMessage() + ")"));
    }
    if (placed.lonLat() == null) {
      cells.wrong(field, placed.found(), placed.expected());
    }
    return placed.lonLat();
  }

  static Lane lane(Cells cells, boolean required) {
    String text = cells.line("lane");
    if (text.isEmpty()) {
      if (required && !cells.filled("lane")) {
        cells.wrong("lane", "", LANE_WANTED);
      }
      return null;
    }
    Lane lane = Lane.parse(text).orElse(null);
    if (lane == null) {
      cells.wrong("lane", text, LANE_WANTED);
    }
    return lane;
  }

  static final String LANE_WANTED =
      "a lane: R or L (side of the centreline, seen along growing mileposts) and its number from"
          + " the centreline, such as R1; number 0 is the shoulder";

  /** The row's id, or one made from its content, the same each time; a fault when it is taken. */
  String id(Cells cells, String prefix) {
    String written = cells.line("id");
    if (!written.isEmpty() && !ID.matcher(written).matches()) {
      cells.wrong("id", written, "at most 80 characters without commas, semicolons and quotes");
      return written;
    }
    boolean made = written.isEmpty();
    String id = made ? prefix + fingerprint(cells.row()) : written;
    RowOrigin before = cells.ok() ? seenIds.putIfAbsent(id, cells.row().origin()) : seenIds.get(id);
    if (before != null) {
      cells.wrong(
          "id",
          written,
          (made ? "a row unlike that at " : "an id other than that at ") + before.text());
    }
    return id;
  }

  private static String fingerprint(Row row) {
    StringBuilder content = new StringBuilder();
    new TreeMap<>(row.cells())
        .forEach(
            (column, cell) -> {
              if (!cell.isBlank() && !DERIVED.contains(column)) {
                content.append(column).append('\u0001').append(cell.strip()).append('\u0002');
              }
            });
    if (row.shape() != null && row.shape().isPoint()) {
      double[] at = row.shape().lines().get(0)[0];
      content.append(at[0]).append(' ').append(at[1]);
    }
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256")
              .digest(content.toString().getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(hash, 0, 6);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
