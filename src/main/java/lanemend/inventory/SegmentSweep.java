package lanemend.inventory;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import lanemend.network.CenterlinePart;
import lanemend.network.Route;

/** Segments one route: shares its events out to the runs of road without a gap, sweeps each. */
final class SegmentSweep {

  /** Road without a gap. */
  private record Run(double from, double to) {}

  private final String routeId;
  private final List<Run> runs;
  private final List<EventTable> tables;
  private final List<LinearEvent> events;
  private final int[] tableOf;

  /** Events are kept by growing start, so that a later one in the list is the one that wins. */
  SegmentSweep(Route route, List<EventTable> tables, List<LinearEvent> given) {
    this.routeId = route.id();
    this.runs = runs(route);
    this.tables = List.copyOf(tables);
    this.events = new ArrayList<>(given);
    events.sort(Comparator.comparingDouble(LinearEvent::fromAlongM));
    this.tableOf = tablesOf(this.tables, events);
  }

  private static List<Run> runs(Route route) {
    List<Run> runs = new ArrayList<>();
    for (CenterlinePart part : route.parts()) {
      int last = runs.size() - 1;
      if (last >= 0 && part.fromAlong() <= runs.get(last).to()) {
        runs.set(last, new Run(runs.get(last).from(), part.toAlong()));
      } else {
        runs.add(new Run(part.fromAlong(), part.toAlong()));
      }
    }
    return runs;
  }

  private static int[] tablesOf(List<EventTable> tables, List<LinearEvent> events) {
    Map<String, Integer> index = new HashMap<>();
    tables.forEach(t -> index.put(t.name(), index.size()));
    int[] tableOf = new int[events.size()];
    for (int i = 0; i < tableOf.length; i++) {
      Integer table = index.get(events.get(i).table());
      if (table == null) {
        throw new IllegalArgumentException(
            "an event of " + events.get(i).table() + ", which is none of the tables given");
      }
      tableOf[i] = table;
    }
    return tableOf;
  }

  Segmentation run() {
    List<IntStream.Builder> onRun = new ArrayList<>();
    runs.forEach(r -> onRun.add(IntStream.builder()));
    List<Segmentation.OffRoad> offRoad = new ArrayList<>();
    int first = 0;
    for (int e = 0; e < events.size(); e++) {
      LinearEvent event = events.get(e);
      while (first < runs.size() && runs.get(first).to() < event.fromAlongM()) {
        first++;
      }
      boolean laid = false;
      for (int r = first; r < runs.size() && runs.get(r).from() <= event.toAlongM(); r++) {
        if (overlaps(event, runs.get(r))) {
          onRun.get(r).add(e);
          laid = true;
        }
      }
      if (!laid) {
        offRoad.add(new Segmentation.OffRoad(routeId, event));
      }
    }
    Segmentation found = new Segmentation(new ArrayList<>(), new ArrayList<>(), offRoad);
    for (int r = 0; r < runs.size(); r++) {
      sweep(runs.get(r), onRun.get(r).build().toArray(), found);
    }
    return found;
  }

  /** A stretch that only touches the run has no metre on it; a spot needs none. */
  private static boolean overlaps(LinearEvent event, Run run) {
    return event.isSpot()
        ? run.from() <= event.fromAlongM() && event.fromAlongM() <= run.to()
        : Math.max(run.from(), event.fromAlongM()) < Math.min(run.to(), event.toAlongM());
  }

  private void sweep(Run run, int[] onRun, Segmentation found) {
    Breaks breaks = new Breaks(run.from(), run.to(), events, onRun);
    SweepState state = new SweepState(routeId, tables, events, tableOf, found, run.from());
    Breaks.Bucket starts = breaks.starts();
    Breaks.Bucket ends = breaks.ends();
    int end = breaks.count() - 1;
    for (int b = 0; b < end; b++) {
      double at = breaks.at(b);
      for (int i = ends.from(b); i < ends.from(b + 1); i++) {
        state.end(ends.event(i), at);
      }
      for (int i = starts.from(b); i < starts.from(b + 1); i++) {
        state.start(starts.event(i), at);
      }
      state.cutWhereChanged(at);
      spots(breaks.spots(), b, state, at);
    }
    // At the end of the road a spot belongs to the piece that ends there.
    spots(breaks.spots(), end, state, breaks.at(end));
    state.close(breaks.at(end));
  }

  private static void spots(Breaks.Bucket spots, int b, SweepState state, double at) {
    if (spots.from(b) < spots.from(b + 1)) {
      for (int i = spots.from(b); i < spots.from(b + 1); i++) {
        state.spot(spots.event(i));
      }
      state.spotsDone(at);
    }
  }
}
