package lanemend.web.sheet;

import java.util.List;

/** The roads driven between two places of a day; the haul graph answers it. */
@FunctionalInterface
public interface DrivePaths {

  /** Nothing known of the way: the map leaves it out. */
  DrivePaths UNKNOWN = (from, to) -> List.of();

  /** Where a drive starts or ends: projected, and on a route unless {@code routeId} is empty. */
  record End(String label, double x, double y, String routeId, double alongM) {}

  /** Vertices {@code {x, y}} of the way, projected; empty when there is none. */
  List<double[]> between(End from, End to);
}
