package lanemend.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Lays the pieces of one named road out as roadways: the main one in order of travel, the roadway
 * of opposite traffic where the road is divided, and branches that hang on the side.
 */
final class RouteLayout {
  /** A stretch that runs this near the main roadway for half its length is beside it. */
  private static final double BESIDE_M = 60;

  private static final int SAMPLES = 20;

  /** Stretches of the opposite roadway may overlap by this much, seen along the main one. */
  private static final double OVERLAP_M = 30;

  /** Shorter stretches off the through road are arms of a junction: slips, flares, half rings. */
  private static final double ARM_M = 60;

  private final LineCleaner nodes;
  private final RouteDrawing drawing;

  private final List<Chain> main = new ArrayList<>();
  private final List<Chain> opposite = new ArrayList<>();
  private final List<Chain> branches = new ArrayList<>();
  private final List<Chain> arms = new ArrayList<>();

  RouteLayout(LineCleaner nodes, RouteDrawing drawing) {
    this.nodes = nodes;
    this.drawing = drawing;
  }

  List<Chain> main() {
    return main;
  }

  List<Chain> opposite() {
    return opposite;
  }

  List<Chain> branches() {
    return branches;
  }

  /** Stretches too short to be roads of their own. */
  List<Chain> arms() {
    return arms;
  }

  /** What one through road of a connected group came to. */
  private record Block(List<Chain> chains, double lengthM) {
    boolean turnable() {
      return chains.stream().allMatch(Chain::turnable);
    }

    Block turned() {
      List<Chain> turned = new ArrayList<>();
      chains.forEach(c -> turned.add(0, c.turned()));
      return new Block(turned, lengthM);
    }

    int from() {
      return chains.get(0).from();
    }

    int to() {
      return chains.get(chains.size() - 1).to();
    }
  }

  void layOut(List<Piece> pieces) {
    List<Block> blocks = new ArrayList<>();
    for (List<Piece> group : PieceGraph.connected(pieces)) {
      blocks.add(throughRoad(group));
    }
    blocks.sort(
        Comparator.comparingDouble((Block b) -> -Math.rint(b.lengthM * 1000))
            .thenComparingInt(Block::from));
    for (Block block : blocks) {
      place(block);
    }
    Set<Piece> left = new HashSet<>(pieces);
    main.forEach(chain -> chain.path().forEach(t -> left.remove(t.piece())));
    layOutLeft(pieces.stream().filter(left::contains).toList());
  }

  private Block throughRoad(List<Piece> group) {
    List<Chain> chains = Chain.withTraffic(new MainPath(group, nodes).find());
    if (chains.isEmpty()) {
      // Every way out of the loose ends runs against traffic: lay the pieces out one by one.
      chains =
          group.stream()
              .filter(p -> !p.filler())
              .map(p -> new Chain(List.of(new Travelled(p, false))))
              .toList();
    }
    return new Block(chains, chains.stream().mapToDouble(Chain::lengthM).sum());
  }

  /** Puts a block where it adds the least gap, unless it runs beside what is there. */
  private void place(Block block) {
    if (main.isEmpty()) {
      main.addAll(block.chains);
      return;
    }
    if (isBeside(block)) {
      return;
    }
    Block best = null;
    int bestAt = 0;
    double bestGap = Double.POSITIVE_INFINITY;
    List<Block> ways = block.turnable() ? List.of(block, block.turned()) : List.of(block);
    for (Block way : ways) {
      for (int at = 0; at <= main.size(); at++) {
        double gap = addedGap(way, at);
        if (gap < bestGap - 1e-6) {
          best = way;
          bestAt = at;
          bestGap = gap;
        }
      }
    }
    main.addAll(bestAt, best.chains);
  }

  private double addedGap(Block block, int at) {
    double gap = 0;
    if (at > 0) {
      gap += apart(main.get(at - 1).to(), block.from());
    }
    if (at < main.size()) {
      gap += apart(block.to(), main.get(at).from());
    }
    if (at > 0 && at < main.size()) {
      gap -= apart(main.get(at - 1).to(), main.get(at).from());
    }
    return gap;
  }

  private double apart(int a, int b) {
    return Math.hypot(
        nodes.node(a)[0] - nodes.node(b)[0], nodes.node(a)[1] - nodes.node(b)[1]);
  }

  private boolean isBeside(Block block) {
    SegmentIndex index = new SegmentIndex(drawing.parts(main));
    int near = 0;
    int all = 0;
    for (CenterlinePart part : drawing.parts(block.chains)) {
      for (int i = 0; i <= SAMPLES; i++) {
        double along = part.fromAlong() + (part.toAlong() - part.fromAlong()) * i / SAMPLES;
        double[] p = Piece.at(part, along);
        near += index.near(p[0], p[1], BESIDE_M).isEmpty() ? 0 : 1;
        all++;
      }
    }
    return 2 * near > all;
  }

  private record Beside(Chain chain, double startAlong, double endAlong) {}

  /** Splits what is not on the main roadway into the opposite roadway and branches. */
  private void layOutLeft(List<Piece> left) {
    SegmentIndex index = new SegmentIndex(drawing.parts(main));
    List<Beside> found = new ArrayList<>();
    List<Piece> remaining = new ArrayList<>(left);
    while (remaining.stream().anyMatch(p -> !p.filler())) {
      Set<Piece> taken = new HashSet<>();
      for (List<Piece> group : PieceGraph.connected(remaining)) {
        for (Chain chain : throughRoad(group).chains) {
          chain.path().forEach(t -> taken.add(t.piece()));
          found.add(new Beside(chain, footAlong(index, chain.from()), footAlong(index, chain.to())));
        }
      }
      remaining.removeIf(taken::contains);
    }
    found.sort(
        Comparator.comparingDouble((Beside b) -> -Math.rint(b.startAlong * 1000))
            .thenComparingDouble(b -> -b.chain.lengthM())
            .thenComparingInt(b -> b.chain.from()));
    double reached = Double.POSITIVE_INFINITY;
    for (Beside b : found) {
      if (b.chain.lengthM() < ARM_M) {
        arms.add(b.chain);
        continue;
      }
      boolean falls = b.chain.allOneWay() && b.startAlong > b.endAlong;
      if (falls && b.startAlong <= reached + OVERLAP_M) {
        opposite.add(b.chain);
        reached = b.endAlong;
      } else {
        branches.add(b.chain);
      }
    }
    branches.sort(Comparator.comparingDouble(c -> footAlong(index, c.from())));
  }

  private double footAlong(SegmentIndex index, int node) {
    double[] p = nodes.node(node);
    return index.nearest(p[0], p[1], index.reach(p[0], p[1])).alongM();
  }
}
