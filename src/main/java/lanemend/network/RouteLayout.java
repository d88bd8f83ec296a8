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

  /** Shorter one-way stretches off the through road are arms of a junction: slips, half rings. */
  private static final double ARM_M = 100;

  /** Shorter two-way stretches are too short to be roads of their own. */
  private static final double STUB_M = 30;

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

  /**
   * What one through road of a connected group came to.
   *
   * @param leftOutM length left out because it runs against traffic
   */
  private record Block(List<Chain> chains, double lengthM, double leftOutM) {
    static Block of(List<Travelled> path) {
      List<Chain> chains = Chain.withTraffic(path);
      double length = chains.stream().mapToDouble(Chain::lengthM).sum();
      double all = path.stream().mapToDouble(t -> t.piece().lengthM()).sum();
      return new Block(chains, length, all - length);
    }

    int from() {
      return chains.get(0).from();
    }

    int to() {
      return chains.get(chains.size() - 1).to();
    }
  }

  /** A through road in each direction; the second may be empty of chains. */
  private record TwoWays(Block block, Block otherWay) {}

  void layOut(List<Piece> pieces) {
    List<TwoWays> blocks = new ArrayList<>();
    for (List<Piece> group : PieceGraph.connected(pieces)) {
      MainPath path = new MainPath(group, nodes);
      blocks.add(new TwoWays(throughRoad(group, path), Block.of(path.findOtherWay())));
    }
    blocks.sort(
        Comparator.comparingDouble((TwoWays b) -> -Math.rint(b.block.lengthM * 1000))
            .thenComparingInt(b -> b.block.from()));
    putUsualFirst(blocks);
    for (TwoWays block : blocks) {
      place(block);
    }
    Set<Piece> left = new HashSet<>(pieces);
    main.forEach(chain -> chain.path().forEach(t -> left.remove(t.piece())));
    layOutLeft(pieces.stream().filter(left::contains).toList());
  }

  /** Of two roadways of about one length, the main one is that on which mileposts usually rise. */
  private void putUsualFirst(List<TwoWays> blocks) {
    double enough = MainPath.AS_GOOD * blocks.get(0).block.lengthM;
    for (int i = 0; i < blocks.size() && blocks.get(i).block.lengthM >= enough; i++) {
      Block block = blocks.get(i).block;
      if (MainPath.usual(nodes.node(block.from()), nodes.node(block.to()))) {
        blocks.add(0, blocks.remove(i));
        return;
      }
    }
  }

  private static Block throughRoad(List<Piece> group, MainPath path) {
    Block block = Block.of(path.find());
    if (!block.chains.isEmpty()) {
      return block;
    }
    // Every way out of the loose ends runs against traffic: lay the pieces out one by one.
    List<Chain> chains =
        group.stream()
            .filter(p -> !p.filler())
            .map(p -> new Chain(List.of(new Travelled(p, false))))
            .toList();
    return new Block(chains, chains.stream().mapToDouble(Chain::lengthM).sum(), 0);
  }

  /**
   * Puts a block where and in the direction that adds the least gap and leaves the least out,
   * unless it runs beside what is there.
   */
  private void place(TwoWays two) {
    if (main.isEmpty()) {
      main.addAll(two.block.chains);
      return;
    }
    if (isBeside(two.block)) {
      return;
    }
    Block best = two.block;
    int bestAt = 0;
    double leastLoss = Double.POSITIVE_INFINITY;
    for (Block way : List.of(two.block, two.otherWay)) {
      for (int at = 0; at <= main.size() && !way.chains.isEmpty(); at++) {
        double loss = addedGap(way, at) + 2 * way.leftOutM;
        if (loss < leastLoss - 1e-6) {
          best = way;
          bestAt = at;
          leastLoss = loss;
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
    return Math.hypot(nodes.node(a)[0] - nodes.node(b)[0], nodes.node(a)[1] - nodes.node(b)[1]);
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
        for (Chain chain : throughRoad(group, new MainPath(group, nodes)).chains) {
          chain.path().forEach(t -> taken.add(t.piece()));
          found.add(
              new Beside(chain, footAlong(index, chain.from()), footAlong(index, chain.to())));
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
      if (b.chain.lengthM() < (b.chain.mostlyOneWay() ? ARM_M : STUB_M)) {
        arms.add(b.chain);
        continue;
      }
      if (b.chain.mostlyOneWay() && runsAgainst(b) && b.startAlong <= reached + OVERLAP_M) {
        opposite.add(b.chain);
        reached = b.endAlong;
      } else if (!fillsGap(b.chain)) {
        branches.add(b.chain);
      }
    }
    branches.sort(Comparator.comparingDouble(c -> footAlong(index, c.from())));
  }

  /**
   * Milepost falls along it; off either end of the main roadway: away from its start, or to its
   * end.
   */
  private boolean runsAgainst(Beside b) {
    if (b.startAlong != b.endAlong) {
      return b.startAlong > b.endAlong;
    }
    int start = main.get(0).from();
    int end = main.get(main.size() - 1).to();
    return b.startAlong == 0
        ? apart(start, b.chain.from()) < apart(start, b.chain.to())
        : apart(end, b.chain.from()) > apart(end, b.chain.to());
  }

  /** Puts a chain into a gap of the main roadway that it fills for the better part. */
  private boolean fillsGap(Chain chain) {
    Block block = new Block(List.of(chain), chain.lengthM(), 0);
    for (int at = 1; at < main.size(); at++) {
      if (addedGap(block, at) < -0.5 * chain.lengthM()) {
        main.add(at, chain);
        return true;
      }
    }
    return false;
  }

  private double footAlong(SegmentIndex index, int node) {
    double[] p = nodes.node(node);
    return index.nearest(p[0], p[1], index.reach(p[0], p[1])).alongM();
  }
}
