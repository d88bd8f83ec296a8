package lanemend.exchange;

import java.time.Instant;

/**
 * A point of a GPX file: a fix of its track, or a waypoint.
 *
 * @param longitude degrees, WGS 84
 * @param at when, or null
 * @param name as given, or empty
 * @param text the comment or description, or empty
 */
public record GpxPoint(
    RowOrigin origin, double longitude, double latitude, Instant at, String name, String text) {}
