package lanemend.inventory;

/**
 * Where an event lies.
 *
 * @param fromAlongM ground metres from the route's start; {@code fromAlongM <= toAlongM}
 * @param x projected x of the event's middle on the centreline
 */
public record Place(
    String routeId, double fromAlongM, double toAlongM, double x, double y, Entered entered) {

  public Place {
    if (!(fromAlongM <= toAlongM)) {
      throw new IllegalArgumentException("a place runs from " + fromAlongM + " to " + toAlongM);
    }
  }

  public double middleAlongM() {
    return (fromAlongM + toAlongM) / 2;
  }
}
