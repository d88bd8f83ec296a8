package lanemend.network;

/**
 * A stretch of one route as driven.
 *
 * @param fromAlongM where it was entered; greater than {@code toAlongM} when driven against along
 */
public record RouteSpan(String routeId, double fromAlongM, double toAlongM) {

  /** True when driven towards growing along. */
  public boolean rising() {
    return toAlongM >= fromAlongM;
  }

  public double lengthM() {
    return Math.abs(toAlongM - fromAlongM);
  }
}
