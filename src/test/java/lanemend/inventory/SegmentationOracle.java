package lanemend.inventory;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import lanemend.network.Route;

/**
 * The rules of a segmentation read slowly: every elementary interval asks every event. Alongs are
 * whole metres, so that each interval is one metre and its middle lies half-way.
 */
final class SegmentationOracle {
  private final Route route;
  private final List<EventTable> tables;
  private final List<LinearEvent> events;

  SegmentationOracle(Route route, List<EventTable> tables, List<LinearEvent> events) {
    this.route = route;
    this.tables = tables;
    this.events = events;
  }

  private boolean road(double along) {
    return route.parts().stream().anyMatch(p -> p.fromAlong() < along && along < p.toAlong());
  }

  private boolean onRoad(double along) {
    return route.parts().stream().anyMatch(p -> p.fromAlong() <= along && along <= p.toAlong());
  }

  /** Stretches of a table over a place, by start, then by their order in the list. */
  private List<LinearEvent> over(EventTable table, double middle) {
    List<LinearEvent> found = new ArrayList<>();
    for (LinearEvent e : events) {
      if (e.table().equals(table.name()) && e.fromAlongM() < middle && middle < e.toAlongM()) {
        found.add(e);
      }
    }
    found.sort((a, b) -> Double.compare(a.fromAlongM(), b.fromAlongM()));
    return found;
  }

  private String value(EventTable table, double middle) {
    List<LinearEvent> over = over(table, middle);
    if (over.isEmpty()) {
      return null;
    }
    return table.several() ? joined(valuesOf(over)) : over.get(over.size() - 1).value();
  }

  private static String joined(Collection<String> values) {
    return String.join(";", new TreeSet<>(values));
  }

  private static Set<String> valuesOf(List<LinearEvent> events) {
    return events.stream()
        .map(LinearEvent::value)
        .collect(Collectors.toCollection(LinkedHashSet::new));
  }

  private List<String> values(double middle) {
    return tables.stream().map(t -> value(t, middle)).collect(Collectors.toList());
  }

  private List<LinearEvent> spots(double at) {
    return events.stream().filter(e -> e.fromAlongM() == at && e.toAlongM() == at).toList();
  }

  /** The interval that a spot belongs to: the one that begins there, else the one that ends. */
  private double middleOf(double spot) {
    return road(spot + 0.5) ? spot + 0.5 : spot - 0.5;
  }

  List<Segment> segments() {
    List<Segment> found = new ArrayList<>();
    for (double m = 0; m < route.lengthM(); m++) {
      if (!road(m + 0.5)) {
        continue;
      }
      double to = m + 1;
      while (road(to + 0.5) && to < route.lengthM() && values(to + 0.5).equals(values(m + 0.5))) {
        to++;
      }
      found.add(segment(m, to, values(m + 0.5)));
      for (double at = m; at <= to; at++) {
        if (!spots(at).isEmpty() && middleOf(at) > m && middleOf(at) < to) {
          found.add(segment(at, at, valuesAtSpot(at)));
        }
      }
      m = to - 1;
    }
    return found;
  }

  private List<String> valuesAtSpot(double at) {
    List<String> here = new ArrayList<>(values(middleOf(at)));
    for (int t = 0; t < tables.size(); t++) {
      EventTable table = tables.get(t);
      List<LinearEvent> spots =
          spots(at).stream().filter(e -> e.table().equals(table.name())).toList();
      if (!spots.isEmpty()) {
        Set<String> all = valuesOf(over(table, middleOf(at)));
        all.addAll(valuesOf(spots));
        here.set(t, table.several() ? joined(all) : spots.get(spots.size() - 1).value());
      }
    }
    return here;
  }

  private Segment segment(double from, double to, List<String> values) {
    return new Segment(
        route.id(),
        from,
        to,
        tables.stream().map(EventTable::name).toList(),
        Collections.unmodifiableList(values));
  }

  List<EventConflict> conflicts() {
    List<EventConflict> found = new ArrayList<>();
    for (EventTable table : tables) {
      if (!table.several()) {
        stretchConflicts(table, found);
        spotConflicts(table, found);
      }
    }
    return found;
  }

  private void stretchConflicts(EventTable table, List<EventConflict> found) {
    for (double m = 0; m < route.lengthM(); m++) {
      if (!road(m + 0.5) || valuesOf(over(table, m + 0.5)).size() < 2) {
        continue;
      }
      Set<String> values = valuesOf(over(table, m + 0.5));
      double to = m + 1;
      // It goes on as long as two different values reach across the metre mark.
      while (road(to + 0.5) && stillInConflict(table, to)) {
        values.addAll(valuesOf(over(table, to + 0.5)));
        to++;
      }
      found.add(new EventConflict(route.id(), m, to, table.name(), new ArrayList<>(values)));
      m = to - 1;
    }
  }

  private boolean stillInConflict(EventTable table, double mark) {
    List<LinearEvent> across = new ArrayList<>(over(table, mark - 0.5));
    across.removeIf(e -> e.toAlongM() <= mark);
    return valuesOf(across).size() > 1;
  }

  private void spotConflicts(EventTable table, List<EventConflict> found) {
    TreeMap<Double, Set<String>> said = new TreeMap<>();
    for (LinearEvent e : events) {
      if (e.table().equals(table.name()) && e.isSpot() && onRoad(e.fromAlongM())) {
        said.computeIfAbsent(e.fromAlongM(), k -> new LinkedHashSet<>()).add(e.value());
      }
    }
    said.forEach(
        (at, values) -> {
          Set<String> all = new LinkedHashSet<>();
          String holds = value(table, middleOf(at));
          if (Objects.nonNull(holds)) {
            all.add(holds);
          }
          all.addAll(values);
          if (all.size() > 1) {
            found.add(new EventConflict(route.id(), at, at, table.name(), new ArrayList<>(all)));
          }
        });
  }

  List<LinearEvent> offRoad() {
    List<LinearEvent> off = new ArrayList<>();
    for (LinearEvent e : events) {
      boolean laid = e.isSpot() && onRoad(e.fromAlongM());
      for (double m = e.fromAlongM(); m < e.toAlongM(); m++) {
        laid |= road(m + 0.5);
      }
      if (!laid) {
        off.add(e);
      }
    }
    off.sort((a, b) -> Double.compare(a.fromAlongM(), b.fromAlongM()));
    return off;
  }

  /** The values of a conflict have an order of their own only in who begins first. */
  static String sortable(EventConflict c) {
    return c.table() + c.fromAlongM() + "-" + c.toAlongM() + new TreeSet<>(c.values());
  }
}
