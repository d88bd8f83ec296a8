package lanemend.inventory;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Event tables gathered for a segmentation: attributes by their names, defects and past repairs as
 * tables of their own.
 */
public final class LinearEvents {
  /** Table of defects; its values are their ids. */
  public static final EventTable DEFECTS = EventTable.several("defects");

  /** Table of past repairs; its values are their ids. */
  public static final EventTable PATCHES = EventTable.several("patches");

  private final Map<String, List<LinearEvent>> byRoute = new HashMap<>();

  /** Adds the attributes of these names that hold on a day. */
  public LinearEvents attributes(
      List<RoadAttribute> attributes, Set<String> names, LocalDate onDay) {
    List<RoadAttribute> wanted = attributes.stream().filter(a -> names.contains(a.name())).toList();
    for (RoadAttribute a : FactsInTime.on(wanted, onDay)) {
      add(a.routeId(), new LinearEvent(a.name(), a.fromAlongM(), a.toAlongM(), a.value()));
    }
    return this;
  }

  /** Adds defects. */
  public LinearEvents defects(List<Defect> defects) {
    defects.forEach(d -> add(DEFECTS, d.place(), d.id()));
    return this;
  }

  /** Adds past repairs. */
  public LinearEvents patches(List<PastPatch> patches) {
    patches.forEach(p -> add(PATCHES, p.place(), p.id()));
    return this;
  }

  private void add(EventTable table, Place place, String id) {
    add(place.routeId(), new LinearEvent(table.name(), place.fromAlongM(), place.toAlongM(), id));
  }

  /** Adds one event of any table. */
  public LinearEvents add(String routeId, LinearEvent event) {
    byRoute.computeIfAbsent(routeId, k -> new ArrayList<>()).add(event);
    return this;
  }

  /** All events under their route's id, in the order added. */
  public Map<String, List<LinearEvent>> byRoute() {
    return byRoute;
  }
}
