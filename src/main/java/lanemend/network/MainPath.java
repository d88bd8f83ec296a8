package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The through road among connected pieces: of the shortest ways between their loose ends, the
 * longest. Ways follow one-way traffic where they can (a piece against its traffic costs eight
 * times its length), pass no piece twice and do not turn back on themselves at a junction, so that
 * the two roadways of a divided road stay apart and a roundabout is passed on its right side.
 */
final class MainPath {
  private static final double AGAINST_COST = 8;
  private static final double HEADING_OVER_M = 8;

  /** A turn sharper than this at a junction is a turn back. */
  private static final double TURN_BACK = Math.toRadians(140);

  /** Ways this close to the longest are as good; then the usual direction of mileposts decides. */
  static final double AS_GOOD = 0.97;

  private final List<Piece> pieces;
  private final LineCleaner nodes;
  private final Map<Integer, List<Integer>> leaving = new TreeMap<>();
  private final List<Way> ways = new ArrayList<>();

  MainPath(List<Piece> pieces, LineCleaner nodes) {
    this.pieces = pieces;
    this.nodes = nodes;
    for (int i = 0; i < pieces.size(); i++) {
      leaving.computeIfAbsent(pieces.get(i).nodeA(), n -> new ArrayList<>()).add(2 * i);
      leaving.computeIfAbsent(pieces.get(i).nodeB(), n -> new ArrayList<>()).add(2 * i + 1);
    }
  }

  /** A way found: the half-pieces passed, and its length less what runs against traffic. */
  private record Way(int[] states, double score) {}

  /** The pieces of the through road in order; some may still run against their traffic. */
  List<Travelled> find() {
    if (ways.isEmpty()) {
      for (int source : sources()) {
        ways.addAll(longestFrom(source));
      }
    }
    return inUsualDirection(travelled(longest(ways)));
  }

  /** The through road the other way: by the other roadway where there is one. */
  List<Travelled> findOtherWay() {
    List<Travelled> first = find();
    boolean usual = usual(first.get(0).from(), last(first));
    List<Way> others = ways.stream().filter(w -> usualDirection(w.states) != usual).toList();
    List<Travelled> turned = new ArrayList<>();
    first.forEach(t -> turned.add(0, t.turned()));
    if (others.isEmpty() || longest(others).score < rightLength(turned)) {
      return turned;
    }
    return travelled(longest(others));
  }

  private static double rightLength(List<Travelled> path) {
    return path.stream().mapToDouble(t -> (t.against() ? -1 : 1) * t.piece().lengthM()).sum();
  }

  /**
   * A way that comes back to a place it passed (a lollipop, a ring) is taken only where it uses up
   * every piece; else it would rather go on than round.
   */
  private Way longest(List<Way> among) {
    List<Way> fit = among.stream().filter(this::fits).toList();
    return longestOf(fit.isEmpty() ? among : fit);
  }

  private boolean fits(Way way) {
    return way.states.length == pieces.size() || !passesAPlaceTwice(way.states);
  }

  private Way longestOf(List<Way> among) {
    double best = among.stream().mapToDouble(Way::score).max().orElseThrow();
    double enough = best - Math.abs(best) * (1 - AS_GOOD);
    return among.stream()
        .filter(w -> w.score >= enough)
        .min(
            Comparator.comparing((Way w) -> !usualDirection(w.states))
                .thenComparing(w -> -Math.rint(w.score * 1000))
                .thenComparing(w -> nodes.node(fromNode(w.states[0])), Arrays::compare)
                .thenComparing(Way::states, Arrays::compare))
        .orElseThrow();
  }

  private List<Travelled> travelled(Way way) {
    List<Travelled> path = new ArrayList<>();
    for (int state : way.states) {
      path.add(new Travelled(pieces.get(state / 2), state % 2 == 1));
    }
    return path;
  }

  /** A road without one-way traffic is turned to start at its south or west end. */
  private List<Travelled> inUsualDirection(List<Travelled> path) {
    if (path.stream().anyMatch(t -> t.piece().oneWay()) || usual(path.get(0).from(), last(path))) {
      return path;
    }
    List<Travelled> turned = new ArrayList<>();
    path.forEach(t -> turned.add(0, t.turned()));
    return turned;
  }

  private boolean passesAPlaceTwice(int[] states) {
    Set<Integer> seen = new HashSet<>(Set.of(fromNode(states[0])));
    for (int state : states) {
      if (!seen.add(toNode(state))) {
        return true;
      }
    }
    return false;
  }

  private static int last(List<Travelled> path) {
    return path.get(path.size() - 1).to();
  }

  private boolean usualDirection(int[] states) {
    return usual(fromNode(states[0]), toNode(states[states.length - 1]));
  }

  /** Mileposts usually rise northward, or eastward on a road that runs more east than north. */
  private boolean usual(int from, int to) {
    return usual(nodes.node(from), nodes.node(to));
  }

  static boolean usual(double[] from, double[] to) {
    double dx = to[0] - from[0];
    double dy = to[1] - from[1];
    return Math.abs(dy) >= Math.abs(dx) ? dy >= 0 : dx >= 0;
  }

  /** Where a through road may start: loose ends and turning-back places; on a ring, its south. */
  private Set<Integer> sources() {
    TreeSet<Integer> sources = new TreeSet<>();
    leaving.forEach(
        (node, out) -> {
          if (out.size() == 1 || (out.size() == 2 && turnsBack(out.get(0) ^ 1, out.get(1)))) {
            sources.add(node);
          }
        });
    if (sources.isEmpty()) {
      sources.add(
          Collections.min(
              leaving.keySet(),
              Comparator.comparingDouble((Integer n) -> nodes.node(n)[1])
                  .thenComparing(n -> nodes.node(n)[0])));
    }
    return sources;
  }

  private int fromNode(int state) {
    Piece piece = pieces.get(state / 2);
    return state % 2 == 0 ? piece.nodeA() : piece.nodeB();
  }

  private int toNode(int state) {
    return fromNode(state ^ 1);
  }

  private boolean against(int state) {
    return state % 2 == 1 && pieces.get(state / 2).oneWay();
  }

  /** True where going on from one half-piece to the next is a turn back at a junction. */
  private boolean turnsBack(int into, int out) {
    Piece a = pieces.get(into / 2);
    Piece b = pieces.get(out / 2);
    boolean junction = leaving.get(toNode(into)).size() > 2;
    if (!junction && !(a.oneWay() && b.oneWay())) {
      return false;
    }
    double arriving =
        Piece.headingFrom(a.geometry(), (into ^ 1) % 2 == 1, HEADING_OVER_M) + Math.PI;
    double going = Piece.headingFrom(b.geometry(), out % 2 == 1, HEADING_OVER_M);
    return Math.abs(Math.IEEEremainder(going - arriving, 2 * Math.PI)) > TURN_BACK;
  }

  private record Reached(int state, double cost) {}

  /** Shortest ways from a node to every half-piece; those near the longest, as the caller ranks. */
  private List<Way> longestFrom(int source) {
    int n = 2 * pieces.size();
    double[] cost = new double[n];
    double[] score = new double[n];
    int[] before = new int[n];
    boolean[] done = new boolean[n];
    Arrays.fill(cost, Double.POSITIVE_INFINITY);
    Arrays.fill(before, -1);
    PriorityQueue<Reached> queue =
        new PriorityQueue<>(
            Comparator.comparingDouble(Reached::cost).thenComparingInt(Reached::state));
    for (int state : leaving.get(source)) {
      reach(state, -1, cost, score, before, queue);
    }
    while (!queue.isEmpty()) {
      int state = queue.poll().state;
      if (done[state]) {
        continue;
      }
      done[state] = true;
      for (int next : leaving.get(toNode(state))) {
        if (!done[next] && !turnsBack(state, next) && !passed(state, next / 2, before)) {
          reach(next, state, cost, score, before, queue);
        }
      }
    }
    return best(score, before, done);
  }

  private void reach(
      int state,
      int from,
      double[] cost,
      double[] score,
      int[] before,
      PriorityQueue<Reached> queue) {
    double length = pieces.get(state / 2).lengthM();
    double total = (from < 0 ? 0 : cost[from]) + length * (against(state) ? AGAINST_COST : 1);
    if (total < cost[state]) {
      cost[state] = total;
      score[state] = (from < 0 ? 0 : score[from]) + (against(state) ? -length : length);
      before[state] = from;
      queue.add(new Reached(state, total));
    }
  }

  private static boolean passed(int state, int piece, int[] before) {
    for (int s = state; s >= 0; s = before[s]) {
      if (s / 2 == piece) {
        return true;
      }
    }
    return false;
  }

  /** The longest ways first, until a fit one is found and the rest is clearly shorter. */
  private List<Way> best(double[] score, int[] before, boolean[] done) {
    List<Integer> order = new ArrayList<>();
    for (int s = 0; s < score.length; s++) {
      if (done[s]) {
        order.add(s);
      }
    }
    order.sort(Comparator.comparingDouble((Integer s) -> -score[s]).thenComparingInt(s -> s));
    List<Way> ways = new ArrayList<>();
    double longestFit = Double.NaN;
    for (int s : order) {
      if (score[s] < longestFit - Math.abs(longestFit) * (1 - AS_GOOD)) {
        break;
      }
      Way way = new Way(statesTo(s, before), score[s]);
      ways.add(way);
      if (Double.isNaN(longestFit) && fits(way)) {
        longestFit = score[s];
      }
    }
    return ways;
  }

  private static int[] statesTo(int state, int[] before) {
    int n = 0;
    for (int s = state; s >= 0; s = before[s]) {
      n++;
    }
    int[] states = new int[n];
    for (int s = state; s >= 0; s = before[s]) {
      states[--n] = s;
    }
    return states;
  }
}
