package lanemend.renewal.exposure;

import java.time.LocalDate;
import java.util.Set;
import lanemend.measure.Conversion;

/**
 * How histories are cut.
 *
 * @param cellM length of a cell, ground metres
 * @param recordsFrom first day the repair records cover
 * @param recordsTo first day they no longer cover
 * @param inferAcrossM longest stretch without a surfacing year that takes the year of its two
 *     neighbours where they agree; 0 never infers
 * @param notRepairs kinds of work that are upkeep, not a failure put right; lower case with
 *     underscores
 * @param lanesUnknown lanes taken for an undivided road, and for each roadway of a divided one,
 *     where the attribute is missing
 */
public record ExposureSettings(
    double cellM,
    LocalDate recordsFrom,
    LocalDate recordsTo,
    double inferAcrossM,
    Set<String> notRepairs,
    int lanesUnknown) {

  public static final String RESURFACING = "resurfacing";
  public static final double DAYS_PER_YEAR = 365.25;

  public ExposureSettings {
    notRepairs = Set.copyOf(notRepairs);
    if (!(cellM > 0) || !recordsFrom.isBefore(recordsTo)) {
      throw new IllegalArgumentException(
          "cells of " + cellM + " m, records from " + recordsFrom + " to " + recordsTo);
    }
  }

  /**
   * Tenth-of-a-mile cells; a gap of up to half a mile between equal years is one paving job (common
   * practice, no source); crack and surface treatments are upkeep; two lanes.
   */
  public static ExposureSettings standard(LocalDate recordsFrom, LocalDate recordsTo) {
    return new ExposureSettings(
        Conversion.M_PER_MILE / 10,
        recordsFrom,
        recordsTo,
        Conversion.M_PER_MILE / 2,
        Set.of("crack_treatment", "surface_treatment", "defer_to_overlay"),
        2);
  }

  /** The same with the records cut at an earlier day, as a hindcast needs. */
  public ExposureSettings until(LocalDate day) {
    return new ExposureSettings(cellM, recordsFrom, day, inferAcrossM, notRepairs, lanesUnknown);
  }

  /** The calendar year that begins nearest to the end of the records: the first one forecast. */
  public int yearAhead() {
    return recordsTo.plusMonths(6).getYear();
  }
}
