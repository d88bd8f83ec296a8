package lanemend.exchange;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import lanemend.inventory.AttributeName;
import lanemend.measure.Conversion;

/**
 * Facts over stretches of road from CSV; {@link EventLocator} finds their places. Names Lanemend
 * reads itself are checked and converted; any other name is kept as the agency's own and said so in
 * a note. Touches nothing but the file it reads.
 */
public final class AttributeReader {
  private static final Pattern NAME = Pattern.compile("[a-z][a-z0-9_]{0,59}");

  private AttributeReader() {}

  /**
   * Reads the file.
   *
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<RawAttribute> read(Path file, FieldMap map) {
    RowSource source = RowSource.of(file);
    EventCells.checkColumns(file, source, map, "route", "name", "value");
    Map<String, Long> own = new TreeMap<>();
    Gather<RawAttribute> gather = new Gather<>();
    gather.run(source, map, cells -> attribute(cells, own));
    if (!own.isEmpty()) {
      gather.note(
          RowSource.nameOf(file)
              + ": names kept as the agency's own: "
              + own.entrySet().stream()
                  .limit(20)
                  .map(e -> e.getKey() + " (" + e.getValue() + " rows)")
                  .collect(Collectors.joining(", ")));
    }
    return gather.read(RowSource.nameOf(file), EventCells.DERIVED);
  }

  private static RawAttribute attribute(Cells cells, Map<String, Long> own) {
    String route = cells.required("route", "the route the fact holds on");
    String from = cells.line("milepost_from");
    String to = cells.line("milepost_to");
    EventCells.checkMilepost(cells, "milepost_from", from);
    EventCells.checkMilepost(cells, "milepost_to", to);
    LocalDate validFrom = cells.date("valid_from");
    LocalDate validTo = cells.date("valid_to");
    if (validFrom != null && validTo != null && !validFrom.isBefore(validTo)) {
      cells.wrong("valid_to", validTo.toString(), "a date after valid_from (" + validFrom + ")");
    }
    String name = cells.required("name", "the name of a fact").toLowerCase(Locale.ROOT);
    if (!name.isEmpty() && !NAME.matcher(name).matches()) {
      cells.wrong("name", name, "a name of letters, digits and underscores");
    }
    String value = cells.required("value", "the fact's value");
    Fact fact = value.isEmpty() ? new Fact(name, value, true) : known(cells, name, value);
    if (!fact.known() && cells.ok()) {
      own.merge(name, 1L, Long::sum);
    }
    return new RawAttribute(
        cells.row().origin(),
        EventCells.place(route, cells.line("direction"), from, to, null, null),
        fact.name(),
        fact.value(),
        validFrom,
        validTo);
  }

  private record Fact(String name, String value, boolean known) {}

  private static Fact known(Cells cells, String name, String value) {
    return switch (name) {
      case "posted_speed_mph" ->
          number(cells, AttributeName.POSTED_SPEED_KMH, Conversion.KMH_PER_MPH, 1, 125);
      case "lane_width_ft" -> number(cells, AttributeName.LANE_WIDTH_M, Conversion.M_PER_FT, 1, 33);
      case "shoulder_width_ft", "shoulder_ft" ->
          number(cells, AttributeName.SHOULDER_WIDTH_M, Conversion.M_PER_FT, 0, 66);
      default ->
          Arrays.stream(AttributeName.values())
              .filter(n -> n.key().equals(name))
              .findFirst()
              .map(n -> own(cells, n, value))
              .orElse(new Fact(name, value, false));
    };
  }

  private static Fact own(Cells cells, AttributeName name, String value) {
    return switch (name) {
      case POSTED_SPEED_KMH -> number(cells, name, 1, 1, 201.168);
      case LANE_WIDTH_M -> number(cells, name, 1, 0.3, 10);
      case SHOULDER_WIDTH_M -> number(cells, name, 1, 0, 20);
      case AADT -> number(cells, name, 1, 0, 1_000_000);
      case LANES -> whole(cells, name, 1, 20);
      case LEVEL -> whole(cells, name, -20, 20);
      case LAST_SURFACING -> whole(cells, name, 1900, 2199);
      case TRUCK_SHARE -> fact(name, RoadFacts.share(cells, "value"), 1);
      case ONE_WAY, URBAN -> new Fact(name.key(), RoadFacts.yesNo(cells, "value"), true);
      case SURFACE, BASE -> new Fact(name.key(), value, true);
    };
  }

  private static Fact number(
      Cells cells, AttributeName name, double factor, double min, double max) {
    return fact(name, cells.number("value", min, max), factor);
  }

  private static Fact whole(Cells cells, AttributeName name, int min, int max) {
    return fact(name, RoadFacts.whole(cells, "value", min, max), 1);
  }

  private static Fact fact(AttributeName name, OptionalDouble value, double factor) {
    String text = value.isPresent() ? Numbers.plain(value.getAsDouble() * factor) : "";
    return new Fact(name.key(), text, true);
  }

  /** Names that are checked and converted, as the documentation lists them. */
  public static List<String> knownNames() {
    return Arrays.stream(AttributeName.values()).map(AttributeName::key).toList();
  }
}
