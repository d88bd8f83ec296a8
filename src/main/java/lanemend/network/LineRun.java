package lanemend.network;

import java.util.Map;

/**
 * The stretch of a route that one source line drew, with the line's facts.
 *
 * @param attributes the line's own, and {@code one_way} ({@code yes}: towards growing along; {@code
 *     no}) and {@code level}
 */
public record LineRun(
    String routeId, double fromAlongM, double toAlongM, Map<String, String> attributes) {
  public LineRun {
    attributes = Map.copyOf(attributes);
  }
}
