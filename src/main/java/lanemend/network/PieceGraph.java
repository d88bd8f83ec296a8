package lanemend.network;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jgrapht.alg.util.UnionFind;

/**
 * The lines of one roadway cut into pieces where they meet, and what fills the small holes between
 * them: where two loose ends lie near, a short way over other lines, else a straight when the ends
 * nearly touch and point at each other.
 */
final class PieceGraph {
  /** Loose ends at most this far apart, pointing at each other, are joined by a straight. */
  static final double BRIDGE_M = 15;

  /** Loose ends at most this far apart may be joined over lines without the name. */
  static final double PASS_THROUGH_M = 150;

  /**
   * A one-way stretch that stops this near the road is joined to it over lines without the name.
   */
  private static final double BACK_M = 60;

  private static final double HEADING_OVER_M = 8;

  /** Ends joined by a straight must face each other to within this. */
  private static final double FACING = Math.toRadians(75);

  /** Ends joined over other lines may turn more, but not back. */
  private static final double FACING_OVER_LINES = Math.toRadians(120);

  private final String routeId;
  private final LineCleaner nodes;
  private final ProjectedCrs crs;
  private final PassThrough others;
  private final List<AssemblyNote> notes;

  PieceGraph(
      String routeId,
      LineCleaner nodes,
      ProjectedCrs crs,
      PassThrough others,
      List<AssemblyNote> notes) {
    this.routeId = routeId;
    this.nodes = nodes;
    this.crs = crs;
    this.others = others;
    this.notes = notes;
  }

  List<Piece> pieces(List<CleanLine> lines) {
    List<Piece> pieces = new LineSplitter(nodes).split(lines, false);
    pieces.addAll(fillers(pieces, new HashSet<>(lines)));
    return pieces;
  }

  /** A loose end: a node where exactly one piece ends. */
  private record LooseEnd(int node, double[] at, Piece piece) {
    /** Heading out of the road, beyond its end. */
    double outward() {
      return Piece.headingFrom(piece.geometry(), piece.nodeB() == node, HEADING_OVER_M) + Math.PI;
    }

    boolean trafficLeaves() {
      return piece.oneWay() && piece.nodeB() == node;
    }

    boolean trafficEnters() {
      return piece.oneWay() && piece.nodeA() == node;
    }
  }

  private record Near(LooseEnd a, LooseEnd b, double distance) {
    boolean clash() {
      return (a.trafficLeaves() && b.trafficLeaves()) || (a.trafficEnters() && b.trafficEnters());
    }

    boolean bothOneWay() {
      return a.piece.oneWay() && b.piece.oneWay();
    }

    boolean facing(double within) {
      double turn = Math.abs(Math.IEEEremainder(a.outward() - b.outward(), 2 * Math.PI));
      return turn >= Math.PI - within;
    }

    boolean aToB() {
      return !a.trafficEnters() && !b.trafficLeaves();
    }

    boolean bToA() {
      return !b.trafficEnters() && !a.trafficLeaves();
    }
  }

  private List<Piece> fillers(List<Piece> pieces, Set<CleanLine> own) {
    UnionFind<Integer> joined = joined(pieces);
    List<Piece> fillers = new ArrayList<>();
    Set<Integer> used = new HashSet<>();
    for (Near pair : nearPairs(looseEnds(pieces))) {
      if (used.contains(pair.a.node) || used.contains(pair.b.node)) {
        continue;
      }
      boolean apart = !joined.find(pair.a.node).equals(joined.find(pair.b.node));
      List<Piece> filling = List.of();
      if (apart || pair.bothOneWay()) {
        filling = overOtherLines(pair, own);
      }
      if (filling.isEmpty() && apart && pair.distance <= BRIDGE_M && pair.facing(FACING)) {
        filling = List.of(straight(pair));
      }
      if (!filling.isEmpty()) {
        fillers.addAll(filling);
        used.add(pair.a.node);
        used.add(pair.b.node);
        joined.union(pair.a.node, pair.b.node);
      }
    }
    for (LooseEnd end : looseEnds(pieces)) {
      if (end.piece.oneWay() && !used.contains(end.node)) {
        fillers.addAll(backToTheRoad(end, pieces, own));
      }
    }
    return fillers.stream().distinct().toList();
  }

  /** A one-way stretch that stops just short of the road it came from or goes on into. */
  private List<Piece> backToTheRoad(LooseEnd end, List<Piece> pieces, Set<CleanLine> own) {
    Map<Integer, Double> near = new TreeMap<>();
    for (Piece piece : pieces) {
      for (int node : new int[] {piece.nodeA(), piece.nodeB()}) {
        double dx = nodes.node(node)[0] - end.at[0];
        double dy = nodes.node(node)[1] - end.at[1];
        double turn = Math.IEEEremainder(Math.atan2(dy, dx) - end.outward(), 2 * Math.PI);
        double distance = Math.hypot(dx, dy);
        if (node != end.node && distance <= BACK_M && Math.abs(turn) <= FACING) {
          near.put(node, distance);
        }
      }
    }
    List<Integer> nodesByDistance = new ArrayList<>(near.keySet());
    nodesByDistance.sort(Comparator.comparingDouble(near::get));
    for (int node : nodesByDistance) {
      double most = 2.5 * near.get(node) + 40;
      List<Piece> way =
          end.trafficLeaves()
              ? others.way(end.node, node, most, own)
              : others.way(node, end.node, most, own);
      if (!way.isEmpty()) {
        note(
            end,
            "its end stops %.0f m short of the road; joined over %s without its name"
                .formatted(near.get(node), origins(way)));
        return way;
      }
    }
    return List.of();
  }

  private static String origins(Collection<Piece> way) {
    return way.stream()
        .map(p -> p.line().source().origin())
        .distinct()
        .collect(Collectors.joining(", "));
  }

  private static List<Near> nearPairs(List<LooseEnd> ends) {
    List<Near> pairs = new ArrayList<>();
    for (int i = 0; i < ends.size(); i++) {
      for (int k = i + 1; k < ends.size(); k++) {
        LooseEnd a = ends.get(i);
        LooseEnd b = ends.get(k);
        Near pair = new Near(a, b, Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]));
        if (pair.distance <= PASS_THROUGH_M && !pair.clash() && pair.facing(FACING_OVER_LINES)) {
          pairs.add(pair);
        }
      }
    }
    pairs.sort(
        Comparator.comparingDouble(Near::distance)
            .thenComparingInt(p -> p.a.node)
            .thenComparingInt(p -> p.b.node));
    return pairs;
  }

  /** The ways over other lines in each direction that traffic may take; empty if one is missing. */
  private List<Piece> overOtherLines(Near pair, Set<CleanLine> own) {
    double most = 2.5 * pair.distance + 40;
    Set<Piece> ways = new LinkedHashSet<>();
    if (pair.aToB()) {
      List<Piece> way = others.way(pair.a.node, pair.b.node, most, own);
      ways.addAll(way);
      if (way.isEmpty()) {
        return List.of();
      }
    }
    if (pair.bToA()) {
      List<Piece> way = others.way(pair.b.node, pair.a.node, most, own);
      ways.addAll(way);
      if (way.isEmpty()) {
        return List.of();
      }
    }
    note(
        pair.a,
        "it stops, and goes on %.0f m away as %s; joined over %s without its name"
            .formatted(pair.distance, pair.b.piece.line().source().origin(), origins(ways)));
    return List.copyOf(ways);
  }

  private Piece straight(Near pair) {
    boolean oneWay = pair.a.piece.oneWay() || pair.b.piece.oneWay();
    LooseEnd from = pair.aToB() ? pair.a : pair.b;
    LooseEnd to = pair.aToB() ? pair.b : pair.a;
    double[] x = {from.at[0], to.at[0]};
    double[] y = {from.at[1], to.at[1]};
    double length = crs.groundM(x[0], y[0], x[1], y[1]);
    note(
        from,
        "its end stops %.1f m short of %s; joined by a straight"
            .formatted(length, to.piece.line().source().origin()));
    CenterlinePart shape = new CenterlinePart(x, y, new double[] {0, length});
    return new Piece(null, shape, from.node, to.node, oneWay, true);
  }

  private void note(LooseEnd end, String text) {
    notes.add(new AssemblyNote(routeId, end.piece.line().source().origin(), text));
  }

  private List<LooseEnd> looseEnds(List<Piece> pieces) {
    Map<Integer, List<Piece>> at = new TreeMap<>();
    for (Piece piece : pieces) {
      at.computeIfAbsent(piece.nodeA(), n -> new ArrayList<>()).add(piece);
      at.computeIfAbsent(piece.nodeB(), n -> new ArrayList<>()).add(piece);
    }
    List<LooseEnd> ends = new ArrayList<>();
    at.forEach(
        (node, there) -> {
          if (there.size() == 1) {
            ends.add(new LooseEnd(node, nodes.node(node), there.get(0)));
          }
        });
    return ends;
  }

  private static UnionFind<Integer> joined(List<Piece> pieces) {
    Set<Integer> ends = new LinkedHashSet<>();
    for (Piece piece : pieces) {
      ends.add(piece.nodeA());
      ends.add(piece.nodeB());
    }
    UnionFind<Integer> joined = new UnionFind<>(ends);
    pieces.forEach(piece -> joined.union(piece.nodeA(), piece.nodeB()));
    return joined;
  }

  /** Pieces grouped by what hangs together, in the order of their first piece. */
  static List<List<Piece>> connected(List<Piece> pieces) {
    UnionFind<Integer> joined = joined(pieces);
    Map<Integer, List<Piece>> groups = new LinkedHashMap<>();
    for (Piece piece : pieces) {
      groups.computeIfAbsent(joined.find(piece.nodeA()), n -> new ArrayList<>()).add(piece);
    }
    return List.copyOf(groups.values());
  }
}
