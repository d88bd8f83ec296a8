package lanemend.inventory;

/**
 * What one event table says over one stretch of a route, or at one spot of it: the view of an
 * attribute, a defect or a past repair that {@link Segmentation} works on.
 *
 * @param table the event table, for instance {@code posted_speed_kmh}
 * @param fromAlongM ground metres from the route's start; equal to {@code toAlongM} for a spot
 * @param value as the table has it, for instance {@code 88.5}
 */
public record LinearEvent(String table, double fromAlongM, double toAlongM, String value) {

  /**
   * Checks the stretch.
   *
   * @throws IllegalArgumentException when an end is not a finite number or they are the wrong way
   *     round
   */
  public LinearEvent {
    if (!(Double.isFinite(fromAlongM) && Double.isFinite(toAlongM) && fromAlongM <= toAlongM)) {
      throw new IllegalArgumentException(
          table + " " + value + " runs from " + fromAlongM + " to " + toAlongM);
    }
    if (value == null) {
      throw new IllegalArgumentException(table + " has no value at " + fromAlongM);
    }
    // Minus zero is the same place as zero, but sorts before it.
    fromAlongM += 0.0;
    toAlongM += 0.0;
  }

  boolean isSpot() {
    return fromAlongM == toAlongM;
  }
}
