package lanemend.inventory;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;

/** What holds where the sweep of one run of road stands, and the piece and conflicts under way. */
final class SweepState {
  private final String routeId;
  private final List<LinearEvent> events;
  private final int[] tableOf;
  private final List<String> names;
  private final ActiveValues[] active;
  private final Segmentation found;

  /** What holds on the piece under way, which began at {@code pieceFrom}. */
  private String[] values;

  private double pieceFrom;

  /** Tables in which an event started or ended at the break at hand. */
  private final int[] touched;

  private final boolean[] isTouched;
  private int touchedCount;

  /** Per table, where the conflict under way began and its values; null while there is none. */
  private final Double[] conflictFrom;

  private final List<Set<String>> conflictValues = new ArrayList<>();

  private final List<Integer> spotsHere = new ArrayList<>();
  private final List<Segment> spotsOfPiece = new ArrayList<>();

  SweepState(
      String routeId,
      List<EventTable> tables,
      List<LinearEvent> events,
      int[] tableOf,
      Segmentation found,
      double from) {
    this.routeId = routeId;
    this.events = events;
    this.tableOf = tableOf;
    this.names = tables.stream().map(EventTable::name).toList();
    this.active = new ActiveValues[tables.size()];
    for (int t = 0; t < active.length; t++) {
      active[t] = tables.get(t).several() ? new ActiveValues.All() : new ActiveValues.Last();
      conflictValues.add(null);
    }
    this.found = found;
    this.values = new String[tables.size()];
    this.pieceFrom = from;
    this.touched = new int[tables.size()];
    this.isTouched = new boolean[tables.size()];
    this.conflictFrom = new Double[tables.size()];
  }

  void end(int event, double at) {
    int t = tableOf[event];
    active[t].remove(events.get(event), at);
    touch(t);
    if (conflictFrom[t] != null && !active[t].inConflict()) {
      closeConflict(t, at);
    }
  }

  void start(int event, double at) {
    int t = tableOf[event];
    String before = active[t].value();
    active[t].add(events.get(event));
    touch(t);
    if (active[t].inConflict()) {
      if (conflictFrom[t] == null) {
        conflictFrom[t] = at;
        // No conflict until now means that all before had this one value.
        conflictValues.set(t, new LinkedHashSet<>(List.of(before)));
      }
      conflictValues.get(t).add(events.get(event).value());
    }
  }

  private void touch(int table) {
    if (!isTouched[table]) {
      isTouched[table] = true;
      touched[touchedCount++] = table;
    }
  }

  /** Ends the piece under way where a value that holds is another than before. */
  void cutWhereChanged(double at) {
    String[] now = null;
    for (int i = 0; i < touchedCount; i++) {
      int t = touched[i];
      isTouched[t] = false;
      String value = active[t].value();
      if (!Objects.equals(value, values[t])) {
        now = now == null ? values.clone() : now;
        now[t] = value;
      }
    }
    touchedCount = 0;
    if (now != null) {
      endPiece(at);
      values = now;
    }
  }

  void spot(int event) {
    spotsHere.add(event);
  }

  /** Lays the spots of one place over what holds there. */
  void spotsDone(double at) {
    String[] here = values.clone();
    Map<Integer, Set<String>> said = new TreeMap<>();
    for (int event : spotsHere) {
      int t = tableOf[event];
      String value = events.get(event).value();
      Set<String> all = said.computeIfAbsent(t, k -> active[k].values());
      all.add(value);
      here[t] = active[t].withSpot(all, value);
    }
    said.forEach(
        (t, all) -> {
          if (active[t].oneOnly() && all.size() > 1) {
            found.conflicts().add(conflict(t, at, at, all));
          }
        });
    spotsHere.clear();
    spotsOfPiece.add(Segment.of(routeId, at, at, names, here));
  }

  void close(double at) {
    endPiece(at);
    for (int t = 0; t < active.length; t++) {
      if (conflictFrom[t] != null) {
        closeConflict(t, at);
      }
    }
  }

  private void endPiece(double at) {
    if (pieceFrom < at) {
      found.segments().add(Segment.of(routeId, pieceFrom, at, names, values));
    }
    if (!spotsOfPiece.isEmpty()) {
      found.segments().addAll(spotsOfPiece);
      spotsOfPiece.clear();
    }
    pieceFrom = at;
  }

  private void closeConflict(int table, double at) {
    found.conflicts().add(conflict(table, conflictFrom[table], at, conflictValues.get(table)));
    conflictFrom[table] = null;
    conflictValues.set(table, null);
  }

  private EventConflict conflict(int table, double from, double to, Set<String> said) {
    return new EventConflict(routeId, from, to, names.get(table), new ArrayList<>(said));
  }
}
