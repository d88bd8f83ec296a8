package lanemend.network;

import java.util.List;
import java.util.Map;

/**
 * One road line as a file gave it, already in longitude and latitude.
 *
 * @param origin where it stands, for instance {@code roads.geojson:17}
 * @param routeNames names it is signed with; several where routes run together, none for a
 *     connector
 * @param direction signed direction of a divided road's roadway, else empty
 * @param oneWay traffic runs only in the order of the vertices
 * @param level grade level; lines that meet at different levels are not joined unless they share an
 *     end point
 * @param attributes further facts by {@code inventory} attribute key, units already those of the
 *     key
 */
public record SourceLine(
    String origin,
    List<String> routeNames,
    String direction,
    RoadClass roadClass,
    double[] longitude,
    double[] latitude,
    boolean oneWay,
    int level,
    Map<String, String> attributes) {
  public SourceLine {
    routeNames = List.copyOf(routeNames);
    attributes = Map.copyOf(attributes);
  }
}
