package lanemend.network;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * All roads of an agency in one projected coordinate system.
 *
 * @param crsWkt the projected system as well-known text
 * @param routes current editions, in the order imported
 */
public record Network(String crsWkt, Map<String, Route> routes, List<Connector> connectors) {

  public Network {
    routes = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(routes));
    connectors = List.copyOf(connectors);
  }

  /** The route with this id. */
  public Optional<Route> route(String id) {
    return Optional.ofNullable(routes.get(id));
  }

  /** Every roadway signed with this name; more than one on a divided road. */
  public List<Route> named(String name) {
    return routes.values().stream().filter(r -> r.name().equalsIgnoreCase(name)).toList();
  }
}
