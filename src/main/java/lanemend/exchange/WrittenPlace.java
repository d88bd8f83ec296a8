package lanemend.exchange;

import java.util.OptionalDouble;

/**
 * A place as a row gives it, before it is looked up.
 *
 * @param route road name or route id, or empty
 * @param direction roadway of a divided road, or empty
 * @param milepostFrom as written, or empty
 * @param milepostTo as written, or empty
 * @param longitude degrees, WGS 84; present with {@code latitude} or not at all
 */
public record WrittenPlace(
    String route,
    String direction,
    String milepostFrom,
    String milepostTo,
    OptionalDouble longitude,
    OptionalDouble latitude) {

  /** Route and milepost go before coordinates when a row has both. */
  public boolean byMilepost() {
    return !milepostFrom.isEmpty();
  }
}
