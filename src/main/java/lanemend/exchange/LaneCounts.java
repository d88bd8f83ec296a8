package lanemend.exchange;

import java.util.OptionalInt;

/** How many lanes a roadway has, as far as that is recorded. */
public interface LaneCounts {
  /** Nothing recorded: any lane up to {@link Integer#MAX_VALUE} may exist. */
  LaneCounts UNKNOWN = (routeId, alongM) -> OptionalInt.empty();

  /** Lanes of the roadway at this place, both directions of an undivided road together. */
  OptionalInt lanes(String routeId, double alongM);
}
