package lanemend.network;

/**
 * A milepost sign (or an equation) at a measured place of a route. At an ordinary post {@code
 * backMiles == aheadMiles}; at an equation the first ends the mileposts before and the second
 * starts those after.
 *
 * @param alongM ground metres from the start of the route
 */
public record CalibrationPost(double alongM, double backMiles, double aheadMiles) {

  /** An ordinary post. */
  public static CalibrationPost at(double alongM, double miles) {
    return new CalibrationPost(alongM, miles, miles);
  }

  public boolean isEquation() {
    return backMiles != aheadMiles;
  }
}
