package lanemend.inventory;

import java.time.LocalDate;

/**
 * A fact that holds over a stretch of a route, for instance {@code posted_speed_mph = 45}.
 *
 * @param name one of {@link AttributeName} in lower case, or the agency's own
 * @param validTo first day no longer valid, or null
 */
public record RoadAttribute(
    String routeId,
    double fromAlongM,
    double toAlongM,
    String name,
    String value,
    LocalDate validFrom,
    LocalDate validTo) {}
