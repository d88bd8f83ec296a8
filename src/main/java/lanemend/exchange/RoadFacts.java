package lanemend.exchange;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lanemend.inventory.AttributeName;
import lanemend.measure.Conversion;

/**
 * What a road line says of itself besides its course.
 *
 * @param oneWay traffic runs one way only
 * @param againstDrawing that way is against the order of the vertices
 * @param attributes by {@link AttributeName} key
 */
record RoadFacts(
    boolean oneWay, boolean againstDrawing, int level, Map<String, String> attributes) {

  /** One-way and level: wrong ones would join roads that do not meet, so they must be readable. */
  static RoadFacts way(Cells cells) {
    String oneWay = cells.line("one_way").toLowerCase(Locale.ROOT);
    boolean forward = oneWay.equals("yes") || oneWay.equals("true") || oneWay.equals("1");
    boolean backward = oneWay.equals("-1");
    boolean both = oneWay.isEmpty() || oneWay.equals("no") || oneWay.equals("false");
    if (!forward && !backward && !both && !oneWay.equals("0")) {
      cells.wrong("one_way", oneWay, "yes, no, true, false, 1, 0 or -1 (against the drawing)");
    }
    int level = (int) whole(cells, "level", -20, 20).orElse(0);
    return new RoadFacts(forward || backward, backward, level, Map.of());
  }

  /** The same with the further facts; faults are noted in the cells. */
  RoadFacts withFurther(Cells cells, SpeedUnit unit) {
    Map<String, String> facts = new HashMap<>();
    put(facts, AttributeName.POSTED_SPEED_KMH, speed(cells, unit));
    put(facts, AttributeName.LANES, whole(cells, "lanes", 1, 20));
    put(facts, AttributeName.LANE_WIDTH_M, feet(cells, "lane_width_ft", "lane_width_m", 10));
    put(facts, AttributeName.SHOULDER_WIDTH_M, feet(cells, "shoulder_ft", "shoulder_m", 20));
    put(facts, AttributeName.AADT, cells.number("aadt", 0, 1_000_000));
    put(facts, AttributeName.TRUCK_SHARE, share(cells, "truck_share"));
    put(facts, AttributeName.LAST_SURFACING, whole(cells, "last_surfacing", 1900, 2199));
    put(facts, AttributeName.SURFACE, cells.line("surface"));
    put(facts, AttributeName.BASE, cells.line("base"));
    put(facts, AttributeName.URBAN, yesNo(cells, "urban"));
    return new RoadFacts(oneWay, againstDrawing, level, facts);
  }

  private static void put(Map<String, String> facts, AttributeName name, OptionalDouble value) {
    value.ifPresent(v -> facts.put(name.key(), Numbers.plain(v)));
  }

  private static void put(Map<String, String> facts, AttributeName name, String value) {
    if (!value.isEmpty()) {
      facts.put(name.key(), value);
    }
  }

  private static final Pattern SPEED = Pattern.compile("([0-9.]{1,20}) ?(mph|km/h|kmh|kph)?");

  /** km/h; a unit behind the number goes before the caller's. */
  private static OptionalDouble speed(Cells cells, SpeedUnit unit) {
    String text = cells.line("speed");
    if (text.isEmpty()) {
      OptionalDouble mph = cells.number("speed_mph", 1, 125);
      return mph.isPresent()
          ? OptionalDouble.of(SpeedUnit.MPH.toKmh(mph.getAsDouble()))
          : cells.number("speed_kmh", 1, 201);
    }
    Matcher m = SPEED.matcher(text.toLowerCase(Locale.ROOT));
    if (m.matches()) {
      SpeedUnit said =
          m.group(2) == null ? unit : m.group(2).equals("mph") ? SpeedUnit.MPH : SpeedUnit.KMH;
      double kmh = said.toKmh(Cells.parse(m.group(1)));
      if (kmh >= 1 && kmh <= 201) {
        return OptionalDouble.of(kmh);
      }
    }
    cells.wrong(
        "speed", text, "one speed from 1 to 124 mph or 1 to 201 km/h, such as 45 or 70 km/h");
    return OptionalDouble.empty();
  }

  private static OptionalDouble feet(Cells cells, String us, String metric, double maxM) {
    return cells.size(us, Conversion.M_PER_FT, metric, 1, maxM);
  }

  static OptionalDouble whole(Cells cells, String field, int min, int max) {
    OptionalDouble value =
        cells.number(field, min, max, () -> "a whole number " + Cells.range(min, max));
    if (value.isPresent() && value.getAsDouble() != Math.rint(value.getAsDouble())) {
      cells.wrong(field, cells.line(field), "a whole number " + Cells.range(min, max));
      return OptionalDouble.empty();
    }
    return value;
  }

  /** A share from 0 to 1, or a percentage with its sign. */
  static OptionalDouble share(Cells cells, String field) {
    String text = cells.line(field);
    boolean percent = text.endsWith("%");
    double value = Cells.parse(percent ? text.substring(0, text.length() - 1).strip() : text);
    double share = percent ? value / 100 : value;
    if (share >= 0 && share <= 1) {
      return OptionalDouble.of(share);
    }
    if (!text.isEmpty()) {
      cells.wrong(field, text, "a share from 0 to 1, or a percentage such as 12 %");
    }
    return OptionalDouble.empty();
  }

  /** {@code yes}, {@code no} or empty. */
  static String yesNo(Cells cells, String field) {
    String text = cells.line(field).toLowerCase(Locale.ROOT);
    return switch (text) {
      case "" -> "";
      case "yes", "true", "1" -> "yes";
      case "no", "false", "0" -> "no";
      default -> {
        cells.wrong(field, text, "yes or no");
        yield "";
      }
    };
  }
}
