package lanemend.web.sheet;

import java.util.List;

/** The drawn shape of a stretch of road; the network's locator answers it. */
@FunctionalInterface
public interface RoadShapes {

  /**
   * Polylines of {@code {x, y}}, projected, from one along to another; more than one where the
   * centreline has gaps.
   */
  List<double[][]> shape(String routeId, double fromAlongM, double toAlongM);
}
