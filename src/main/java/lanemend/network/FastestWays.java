package lanemend.network;

import java.util.Arrays;

/**
 * Closest-first search (Dijkstra, Numerische Mathematik 1, 1959) over packed arcs with a 4-ary
 * heap. One for each thread; nothing is allocated while it searches.
 */
final class FastestWays {
  private static final int CHILDREN = 4;

  private final LinkArcs arcs;

  /** By node, valid until the next search: infinite where there is no way. */
  private final double[] minutes;

  private final double[] km;

  /** Arc a node is reached by; -1 at the ends of the link the search starts on. */
  private final int[] by;

  private final int[] heap;
  private final int[] heapAt;
  private int heapSize;
  private final boolean[] wanted;
  private int wantedCount;

  FastestWays(LinkArcs arcs) {
    this.arcs = arcs;
    int nodes = arcs.first().length - 1;
    minutes = new double[nodes];
    km = new double[nodes];
    by = new int[nodes];
    heap = new int[nodes];
    heapAt = new int[nodes];
    wanted = new boolean[nodes];
  }

  /** Sets the places the searches that follow must settle. */
  void aimAt(PlaceOnLink[] goals) {
    Arrays.fill(wanted, false);
    wantedCount = 0;
    for (PlaceOnLink goal : goals) {
      want(goal.from());
      want(goal.to());
    }
  }

  private void want(int node) {
    if (!wanted[node]) {
      wanted[node] = true;
      wantedCount++;
    }
  }

  double minutesTo(int node) {
    return minutes[node];
  }

  double kmTo(int node) {
    return km[node];
  }

  int arcTo(int node) {
    return by[node];
  }

  /**
   * Searches from a link's two ends, each already some minutes and kilometres away; an end at
   * infinite minutes is not started from.
   */
  void search(PlaceOnLink start, double startMinutes, double endMinutes) {
    Arrays.fill(minutes, Double.POSITIVE_INFINITY);
    Arrays.fill(heapAt, -1);
    heapSize = 0;
    reach(start.from(), startMinutes, start.fromKm(), -1);
    reach(start.to(), endMinutes, start.toKm(), -1);
    int left = wantedCount;
    int[] first = arcs.first();
    int[] head = arcs.head();
    double[] arcMinutes = arcs.minutes();
    double[] arcKm = arcs.km();
    while (heapSize > 0) {
      int node = takeNearest();
      if (wanted[node] && --left == 0) {
        return;
      }
      double here = minutes[node];
      for (int arc = first[node]; arc < first[node + 1]; arc++) {
        reach(head[arc], here + arcMinutes[arc], km[node] + arcKm[arc], arc);
      }
    }
  }

  private void reach(int node, double at, double length, int arc) {
    if (at < minutes[node]) {
      minutes[node] = at;
      km[node] = length;
      by[node] = arc;
      if (heapAt[node] < 0) {
        heapAt[node] = heapSize++;
      }
      up(heapAt[node], node, at);
    }
  }

  private void up(int from, int node, double at) {
    int i = from;
    while (i > 0) {
      int parent = (i - 1) / CHILDREN;
      int above = heap[parent];
      if (minutes[above] <= at) {
        break;
      }
      heap[i] = above;
      heapAt[above] = i;
      i = parent;
    }
    heap[i] = node;
    heapAt[node] = i;
  }

  private int takeNearest() {
    int nearest = heap[0];
    int moved = heap[--heapSize];
    double at = minutes[moved];
    int i = 0;
    for (int child = 1; child < heapSize; child = CHILDREN * i + 1) {
      int least = child;
      int end = Math.min(child + CHILDREN, heapSize);
      for (int c = child + 1; c < end; c++) {
        if (minutes[heap[c]] < minutes[heap[least]]) {
          least = c;
        }
      }
      if (minutes[heap[least]] >= at) {
        break;
      }
      heap[i] = heap[least];
      heapAt[heap[i]] = i;
      i = least;
    }
    heap[i] = moved;
    heapAt[moved] = i;
    return nearest;
  }
}
