package lanemend.renewal.exposure;

/**
 * A short length of one lane, the unit repairs are counted by.
 *
 * @param number counts from 0 at the route's start; the lanes beside one another share it
 * @param lane written as {@link lanemend.network.Lane#code()}
 * @param toAlongM ground metres from the route's start; the last cell of a route may be short
 */
public record Cell(String routeId, int number, String lane, double fromAlongM, double toAlongM) {

  public double lengthM() {
    return toAlongM - fromAlongM;
  }
}
