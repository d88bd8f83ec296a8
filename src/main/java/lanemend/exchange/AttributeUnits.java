package lanemend.exchange;

import java.util.Map;
import lanemend.inventory.AttributeName;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;

/** How facts kept in SI are named and written for readers of US customary units. */
final class AttributeUnits {

  /** The US name of a fact, and how much of the SI unit one of its units is. */
  record Us(String name, double perUnit) {}

  /** A fact as its reader expects it. */
  record Shown(String name, String value) {}

  private static final Map<String, Us> BY_NAME =
      Map.of(
          AttributeName.POSTED_SPEED_KMH.key(), new Us("posted_speed_mph", Conversion.KMH_PER_MPH),
          AttributeName.LANE_WIDTH_M.key(), new Us("lane_width_ft", Conversion.M_PER_FT),
          AttributeName.SHOULDER_WIDTH_M.key(), new Us("shoulder_width_ft", Conversion.M_PER_FT));

  private AttributeUnits() {}

  /** The US form of a fact, or null where it has none of its own. */
  static Us us(String name) {
    return BY_NAME.get(name);
  }

  /** The name under which a reader of these units knows a fact. */
  static String shownName(String name, UnitSystem units) {
    Us us = units == UnitSystem.US_CUSTOMARY ? us(name) : null;
    return us == null ? name : us.name();
  }

  /** The fact under which a name is kept; the name itself unless it is a US one. */
  static String keptName(String shown) {
    return BY_NAME.entrySet().stream()
        .filter(e -> e.getValue().name().equals(shown))
        .map(Map.Entry::getKey)
        .findFirst()
        .orElse(shown);
  }

  /** Name and value for a reader; a value that is no number stays as it is. */
  static Shown shown(String name, String value, UnitSystem units) {
    Us us = units == UnitSystem.US_CUSTOMARY ? us(name) : null;
    double number = us == null ? Double.NaN : Cells.parse(value);
    return Double.isNaN(number)
        ? new Shown(name, value)
        : new Shown(us.name(), Numbers.plain(number / us.perUnit()));
  }

  static boolean isNumber(AttributeName name) {
    return switch (name) {
      case POSTED_SPEED_KMH,
          LANES,
          LANE_WIDTH_M,
          SHOULDER_WIDTH_M,
          LEVEL,
          AADT,
          TRUCK_SHARE,
          LAST_SURFACING ->
          true;
      case ONE_WAY, SURFACE, BASE, URBAN -> false;
    };
  }
}
