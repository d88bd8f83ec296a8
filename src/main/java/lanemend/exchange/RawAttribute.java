package lanemend.exchange;

import java.time.LocalDate;

/**
 * A row of an attributes file; known facts are already in the unit of their name.
 *
 * @param place blank mileposts stand for the ends of the route
 * @param validFrom or null: always
 * @param validTo first day no longer valid, or null
 */
public record RawAttribute(
    RowOrigin origin,
    WrittenPlace place,
    String name,
    String value,
    LocalDate validFrom,
    LocalDate validTo) {}
