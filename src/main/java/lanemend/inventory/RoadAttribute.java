package lanemend.inventory;

import java.time.LocalDate;

/**
 * A fact that holds over a stretch of a route, for instance {@code posted_speed_mph = 45}.
 *
 * @param name one of {@link AttributeName} in lower case, or the agency's own
 * @param validTo first day no longer valid, or null
 * @param entered the mileposts it was entered by, a missing one for that end of the route; null
 *     where the stretch was drawn and not entered
 */
public record RoadAttribute(
    String routeId,
    double fromAlongM,
    double toAlongM,
    String name,
    String value,
    LocalDate validFrom,
    LocalDate validTo,
    Entered entered) {

  /** A fact of a stretch that was drawn. */
  public RoadAttribute(
      String routeId,
      double fromAlongM,
      double toAlongM,
      String name,
      String value,
      LocalDate validFrom,
      LocalDate validTo) {
    this(routeId, fromAlongM, toAlongM, name, value, validFrom, validTo, null);
  }

  /** True where the fact holds on this day. */
  public boolean holdsOn(LocalDate day) {
    return (validFrom == null || !validFrom.isAfter(day))
        && (validTo == null || validTo.isAfter(day));
  }

  /** The same fact of another stretch. */
  public RoadAttribute over(String route, double fromM, double toM) {
    return new RoadAttribute(route, fromM, toM, name, value, validFrom, validTo, entered);
  }

  /** The same fact at another time. */
  public RoadAttribute during(LocalDate from, LocalDate to) {
    return new RoadAttribute(routeId, fromAlongM, toAlongM, name, value, from, to, entered);
  }
}
