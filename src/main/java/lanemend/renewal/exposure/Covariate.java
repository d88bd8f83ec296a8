package lanemend.renewal.exposure;

import java.util.OptionalDouble;
import lanemend.inventory.AttributeName;
import lanemend.inventory.RoadAttributes;

/**
 * An attribute that shifts the repair rate within a family: {@code (x - center) / scale}, or {@code
 * (ln x - ln center) / scale} when {@code logarithm}.
 */
public record Covariate(AttributeName attribute, boolean logarithm, double center, double scale) {

  /** The covariate's value at a place; empty where the attribute is not known. */
  public OptionalDouble at(String routeId, double alongM, RoadAttributes attributes) {
    OptionalDouble raw = attributes.number(routeId, alongM, attribute);
    if (raw.isEmpty() || (logarithm && !(raw.getAsDouble() > 0))) {
      return OptionalDouble.empty();
    }
    double x = raw.getAsDouble();
    return OptionalDouble.of((logarithm ? Math.log(x / center) : x - center) / scale);
  }
}
