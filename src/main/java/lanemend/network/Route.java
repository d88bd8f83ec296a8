package lanemend.network;

import java.util.List;

/**
 * One roadway of a named road: a divided road is two routes that share a name and differ in
 * direction.
 *
 * @param id unique, stable; {@code name} or {@code name + ' ' + direction}
 * @param name the signed name, for instance {@code SR 12}
 * @param direction signed direction of a divided road's roadway ({@code NB}), else empty
 * @param parts unbroken pieces in order; between two parts lies a gap whose straight ground length
 *     is counted in along, so that along never repeats
 * @param mileposts along to milepost and back
 */
public record Route(
    String id,
    String name,
    String direction,
    RoadClass roadClass,
    List<CenterlinePart> parts,
    MilepostMap mileposts,
    Edition edition) {

  public Route {
    parts = List.copyOf(parts);
    if (parts.isEmpty()) {
      throw new IllegalArgumentException("route " + id + " has no centreline");
    }
  }

  /** The same road as it holds in another time. */
  public Route withEdition(Edition now) {
    return new Route(id, name, direction, roadClass, parts, mileposts, now);
  }

  /** The same road with other posts along it. */
  public Route withMileposts(MilepostMap now) {
    return new Route(id, name, direction, roadClass, parts, now, edition);
  }

  /** Along at the end of the last part, in metres. */
  public double lengthM() {
    return parts.get(parts.size() - 1).toAlong();
  }

  public boolean divided() {
    return !direction.isEmpty();
  }
}
