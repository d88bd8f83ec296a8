package lanemend.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;

/**
 * Finds the short way over lines that do not carry a route's name, where the route breaks off and
 * goes on: most often a roundabout that nobody named.
 */
final class PassThrough {
  private final Map<Integer, List<Travelled>> leaving = new HashMap<>();

  PassThrough(List<CleanLine> allLines, LineCleaner nodes) {
    for (Piece piece : new LineSplitter(nodes).split(allLines, true)) {
      leaving
          .computeIfAbsent(piece.nodeA(), n -> new ArrayList<>())
          .add(new Travelled(piece, false));
      if (!piece.oneWay()) {
        leaving
            .computeIfAbsent(piece.nodeB(), n -> new ArrayList<>())
            .add(new Travelled(piece, true));
      }
    }
  }

  private record Reached(int node, double lengthM, Travelled by, Reached before) {}

  /** The shortest way with traffic of at most this length, not over the route's own lines. */
  List<Piece> way(int from, int to, double maxM, Set<CleanLine> own) {
    PriorityQueue<Reached> queue =
        new PriorityQueue<>(
            Comparator.comparingDouble(Reached::lengthM).thenComparingInt(Reached::node));
    Set<Integer> done = new HashSet<>();
    queue.add(new Reached(from, 0, null, null));
    while (!queue.isEmpty()) {
      Reached here = queue.poll();
      if (here.node == to) {
        List<Piece> way = new ArrayList<>();
        for (Reached r = here; r.by != null; r = r.before) {
          way.add(0, r.by.piece());
        }
        return way;
      }
      if (!done.add(here.node)) {
        continue;
      }
      for (Travelled next : leaving.getOrDefault(here.node, List.of())) {
        double length = here.lengthM + next.piece().lengthM();
        if (length <= maxM && !done.contains(next.to()) && !own.contains(next.piece().line())) {
          queue.add(new Reached(next.to(), length, next, here));
        }
      }
    }
    return List.of();
  }
}
