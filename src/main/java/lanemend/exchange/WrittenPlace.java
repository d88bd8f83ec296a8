package lanemend.exchange;

import java.time.Instant;
import java.util.OptionalDouble;

/**
 * A place as a row gives it, before it is looked up.
 *
 * @param route road name or route id, or empty
 * @param direction roadway of a divided road, or empty
 * @param milepostFrom as written, or empty
 * @param milepostTo as written, or empty
 * @param longitude degrees, WGS 84; present with {@code latitude} or not at all
 * @param seenAt when it was seen, to look it up on the patrol's track, or null
 */
public record WrittenPlace(
    String route,
    String direction,
    String milepostFrom,
    String milepostTo,
    OptionalDouble longitude,
    OptionalDouble latitude,
    Instant seenAt) {

  /** Route and milepost go before coordinates when a row has both. */
  public boolean byMilepost() {
    return !milepostFrom.isEmpty();
  }
}
