package lanemend.inventory.edit;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lanemend.inventory.Entered;
import lanemend.network.EquationSide;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.Route;

/**
 * The mileposts an event was entered by, to be looked up again.
 *
 * @param whole a missing milepost stands for that end of the route (a fact), else for a spot
 */
record EnteredStretch(String from, String to, boolean whole) {
  private static final Pattern WRITTEN =
      Pattern.compile("\\s*(-?\\d*\\.?\\d+)\\s*(back|ahead)?\\s*", Pattern.CASE_INSENSITIVE);

  /** A place nearer than this to where a number stands was found by that number, metres. */
  private static final double STANDS_M = 1;

  static EnteredStretch of(RoadEvent e) {
    Entered entered = e.entered();
    return new EnteredStretch(entered.milepostFrom(), entered.milepostTo(), e.kind().fact());
  }

  boolean byMilepost() {
    return from != null || (whole && to != null);
  }

  String text() {
    String first = from == null ? "the start" : from;
    if (to == null) {
      return whole ? first + " to the end" : first;
    }
    return first + " to " + to;
  }

  /**
   * A place found, or why there is none.
   *
   * @param problem empty when found
   */
  record Found(double fromM, double toM, String problem) {
    static Found none(String problem) {
      return new Found(0, 0, problem);
    }
  }

  /** True where the event lies where this route's numbers put what was entered. */
  boolean standsAt(Route route, RoadEvent e) {
    if (!whole && to == null) {
      // An event that was cut off at the road's end no longer lies evenly about its number.
      Found at = look(route, from);
      return at.problem().isEmpty()
          && at.fromM() >= e.fromAlongM() - STANDS_M
          && at.fromM() <= e.toAlongM() + STANDS_M;
    }
    Found found = find(route, e);
    return found.problem().isEmpty()
        && Math.abs(found.fromM() - e.fromAlongM()) <= STANDS_M
        && Math.abs(found.toM() - e.toAlongM()) <= STANDS_M;
  }

  /** Where this route's numbers put it; as long as the event where no second number was given. */
  Found find(Route route, RoadEvent e) {
    double end = route.lengthM();
    Found first = from == null ? new Found(0, 0, "") : look(route, from);
    if (!first.problem().isEmpty()) {
      return first;
    }
    if (to == null && !whole) {
      double half = e.lengthM() / 2;
      double low = Math.max(0, first.fromM() - half);
      // At the route's end an event reaches only as far as the road does.
      return onRoad(route, new Found(low, Math.min(end, first.fromM() + half), ""));
    }
    Found second = to == null ? new Found(end, end, "") : look(route, to);
    if (!second.problem().isEmpty()) {
      return second;
    }
    double low = Math.min(first.fromM(), second.fromM());
    double high = Math.max(first.fromM(), second.fromM());
    Found both = new Found(low, high, "");
    return whole ? both : onRoad(route, both);
  }

  private Found look(Route route, String written) {
    Optional<Milepost> milepost = parse(written);
    if (milepost.isEmpty()) {
      return Found.none("it was entered at '" + written + "', which is no milepost");
    }
    MilepostLookup found = route.mileposts().find(milepost.get());
    if (found instanceof MilepostLookup.Found f) {
      return new Found(f.alongM(), f.alongM(), "");
    }
    if (found instanceof MilepostLookup.Ambiguous) {
      return Found.none(
          "milepost " + written + " now occurs twice on " + route.id() + ", back and ahead");
    }
    return Found.none(((MilepostLookup.Missing) found).why());
  }

  private static Found onRoad(Route route, Found place) {
    double middle = (place.fromM() + place.toM()) / 2;
    boolean drawn =
        route.parts().stream().anyMatch(p -> middle >= p.fromAlong() && middle <= p.toAlong());
    return drawn ? place : Found.none("its milepost now falls in a gap of " + route.id());
  }

  private static Optional<Milepost> parse(String written) {
    Matcher m = WRITTEN.matcher(written);
    if (!m.matches()) {
      return Optional.empty();
    }
    EquationSide side =
        m.group(2) == null
            ? EquationSide.ONLY
            : EquationSide.valueOf(m.group(2).toUpperCase(Locale.ROOT));
    return Optional.of(new Milepost(Double.parseDouble(m.group(1)), side));
  }
}
