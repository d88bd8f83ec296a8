package lanemend.network;

import java.util.Arrays;
import java.util.Comparator;
import java.util.PriorityQueue;

/**
 * Shortest ways, in metres, from one place to others close by: Dijkstra's search that gives up
 * beyond a limit. It clears only what it touched, so that thousands of short searches on a large
 * network cost what they reach. One for each thread.
 */
final class NearWays {
  private record Reached(int node, double meters) {}

  private final LinkArcs arcs;
  private final boolean against;
  private final double[] meters;
  private final int[] by;
  private final PriorityQueue<Reached> queue =
      new PriorityQueue<>(
          Comparator.comparingDouble(Reached::meters).thenComparingInt(Reached::node));
  private int[] touched = new int[64];
  private int touchedCount;
  private PlaceOnLink start;

  /**
   * @param against searches against the traffic, over arcs turned round
   */
  NearWays(LinkArcs arcs, boolean against) {
    this.arcs = arcs;
    this.against = against;
    int nodes = arcs.first().length - 1;
    meters = new double[nodes];
    by = new int[nodes];
    Arrays.fill(meters, Double.POSITIVE_INFINITY);
  }

  /** Searches as far as the limit. */
  void search(PlaceOnLink from, double limitM) {
    for (int i = 0; i < touchedCount; i++) {
      meters[touched[i]] = Double.POSITIVE_INFINITY;
    }
    touchedCount = 0;
    queue.clear();
    start = from;
    // Against a one-way link its start leads on, with it its end.
    if (!from.oneWay() || against || from.fromKm() == 0) {
      reach(from.from(), 1000 * from.fromKm(), -1, limitM);
    }
    if (!from.oneWay() || !against || from.toKm() == 0) {
      reach(from.to(), 1000 * from.toKm(), -1, limitM);
    }
    while (!queue.isEmpty()) {
      Reached next = queue.poll();
      if (next.meters > meters[next.node]) {
        continue;
      }
      for (int arc = arcs.first()[next.node]; arc < arcs.first()[next.node + 1]; arc++) {
        reach(arcs.head()[arc], next.meters + 1000 * arcs.km()[arc], arc, limitM);
      }
    }
  }

  private void reach(int node, double at, int arc, double limitM) {
    if (at <= limitM && at < meters[node]) {
      if (meters[node] == Double.POSITIVE_INFINITY) {
        if (touchedCount == touched.length) {
          touched = Arrays.copyOf(touched, 2 * touchedCount);
        }
        touched[touchedCount++] = node;
      }
      meters[node] = at;
      by[node] = arc;
      queue.add(new Reached(node, at));
    }
  }

  /** Metres to a place; infinite where the search found no way. */
  double metersTo(PlaceOnLink goal) {
    double best = Math.min(byStart(goal), byEnd(goal));
    if (against ? goal.leadsTo(start) : start.leadsTo(goal)) {
      best = Math.min(best, Math.abs(goal.along() - start.along()));
    }
    return best;
  }

  private double byStart(PlaceOnLink goal) {
    boolean allowed = !against || !goal.oneWay() || goal.fromKm() == 0;
    return allowed ? meters[goal.from()] + 1000 * goal.fromKm() : Double.POSITIVE_INFINITY;
  }

  private double byEnd(PlaceOnLink goal) {
    boolean allowed = against || !goal.oneWay() || goal.toKm() == 0;
    return allowed ? meters[goal.to()] + 1000 * goal.toKm() : Double.POSITIVE_INFINITY;
  }

  /** True when the way along the link both places share is the shortest. */
  boolean direct(PlaceOnLink goal) {
    return start.leadsTo(goal)
        && Math.abs(goal.along() - start.along()) <= Math.min(byStart(goal), byEnd(goal));
  }

  /** True when the shortest way enters the goal's link by its start. */
  boolean entersByStart(PlaceOnLink goal) {
    return byStart(goal) <= byEnd(goal);
  }

  /** True when the shortest way to a node left the link it began on by its start. */
  boolean leftByStart(int node) {
    boolean mayByStart = !start.oneWay() || start.fromKm() == 0;
    return node == start.from() && mayByStart && meters[node] == 1000 * start.fromKm();
  }

  /** The arc a node was reached by; -1 at an end of the link the search started on. */
  int arcTo(int node) {
    return by[node];
  }
}
