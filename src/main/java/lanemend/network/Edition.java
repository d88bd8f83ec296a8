package lanemend.network;

import java.time.LocalDate;

/**
 * A version of a route in time.
 *
 * @param number counts from 1
 * @param validFrom first day
 * @param validTo first day no longer valid, or null while current
 */
public record Edition(int number, LocalDate validFrom, LocalDate validTo) {}
