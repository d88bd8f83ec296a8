package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Puts the fixes of a track together into chains, leaving out those that help nothing. */
final class TrackTrellis {
  /** What became of a fix. */
  enum Use {
    /** On a road and in the chain. */
    TAKEN,
    /** So near the one before that it tells nothing new. */
    REPEATS,
    /** No road near it. */
    OFF_ROAD,
    /** No way leads to it and on to the fixes after it. */
    STRAY
  }

  /** Fixes looked past to find one that can be reached again. */
  private static final int LOOK_PAST = 12;

  /** Faster than this nobody patrols, metres a second (Newson and Krumm, from memory). */
  private static final double FASTEST_M_S = 50;

  /** A way this much longer than the straight line is no way (Newson and Krumm, from memory). */
  private static final double MOST_DETOUR_M = 2_000;

  /** States this unlikely (as a logarithm) are not followed. */
  private static final double HOPELESS = -40;

  /** Without a fix for so long, and having moved so far, what was driven between is unknown. */
  private static final double GAP_SECONDS = 180;

  private static final double GAP_M = 300;
  private static final double FAR_GAP_M = 1_000;

  private final TrackRoads roads;
  private final NearWays ways;
  private final NearWays back;
  private final List<TrackFix> fixes;
  private final TrackSettings settings;
  private final double sigmaM;
  private final double betaM;
  private final Use[] uses;
  private final List<TrackChain> chains = new ArrayList<>();

  TrackTrellis(
      TrackRoads roads,
      HaulGraph graph,
      List<TrackFix> fixes,
      TrackSettings settings,
      double sigmaM,
      double betaM) {
    this.roads = roads;
    this.ways = new NearWays(graph.onward(), /* against= */ false);
    this.back = new NearWays(graph.backward(), /* against= */ true);
    this.fixes = fixes;
    this.settings = settings;
    this.sigmaM = sigmaM;
    this.betaM = betaM;
    this.uses = new Use[fixes.size()];
    build();
  }

  List<TrackChain> chains() {
    return chains;
  }

  /** How many fixes were used so. */
  int count(Use use) {
    return (int) Arrays.stream(uses).filter(u -> u == use).count();
  }

  /** How far from a fix its road may be. */
  double reachM() {
    return Math.max(40, 5 * sigmaM);
  }

  /** Driving back this little against a one-way road is the receiver's error. */
  double standingM() {
    return Math.max(15, 3 * sigmaM);
  }

  private void build() {
    TrackChain chain = null;
    for (int i = 0; i < fixes.size(); i++) {
      if (uses[i] != null) {
        continue;
      }
      if (chain != null && gapBefore(i)) {
        chain = null;
      }
      if (chain != null && repeats(chain.last().fix(), i)) {
        uses[i] = Use.REPEATS;
        continue;
      }
      List<TrackRoads.State> states = states(i);
      if (states.isEmpty()) {
        uses[i] = Use.OFF_ROAD;
        continue;
      }
      if (chain != null && extend(chain, i, states)) {
        uses[i] = Use.TAKEN;
        continue;
      }
      int beyond = chain == null ? -1 : beyond(chain, i);
      if (beyond >= 0) {
        for (int k = i; k < beyond; k++) {
          uses[k] = uses[k] == null ? Use.STRAY : uses[k];
        }
        uses[beyond] = Use.TAKEN;
        continue;
      }
      uses[i] = Use.TAKEN;
      chain = new TrackChain(sigmaM, betaM, new TrackChain.Step(i, states, 1, new double[0][0], 0));
      chains.add(chain);
    }
  }

  private boolean gapBefore(int i) {
    TrackFix a = fixes.get(i - 1);
    double moved = a.metersTo(fixes.get(i));
    return moved > FAR_GAP_M || (moved > GAP_M && a.secondsTo(fixes.get(i)) > GAP_SECONDS);
  }

  /** Closer than two standard deviations movement cannot be told from error (as the paper does). */
  private boolean repeats(int before, int i) {
    return fixes.get(before).metersTo(fixes.get(i)) < 2 * sigmaM;
  }

  private List<TrackRoads.State> states(int i) {
    return roads.near(fixes.get(i).x(), fixes.get(i).y(), reachM());
  }

  /** The first fix after an unreachable one that can be reached past it, added; else -1. */
  private int beyond(TrackChain chain, int from) {
    for (int i = from + 1; i < Math.min(fixes.size(), from + 1 + LOOK_PAST); i++) {
      if (gapBefore(i)) {
        return -1;
      }
      if (repeats(chain.last().fix(), i)) {
        continue;
      }
      List<TrackRoads.State> states = states(i);
      if (!states.isEmpty() && extend(chain, i, states)) {
        return i;
      }
    }
    return -1;
  }

  private boolean extend(TrackChain chain, int i, List<TrackRoads.State> states) {
    TrackChain.Step before = chain.last();
    TrackFix a = fixes.get(before.fix());
    double straight = a.metersTo(fixes.get(i));
    double seconds = a.secondsTo(fixes.get(i));
    double limit = straight + Math.min(MOST_DETOUR_M, 500 + straight);
    if (seconds >= 0) {
      limit = Math.min(limit, FASTEST_M_S * seconds + 4 * sigmaM);
    }
    double[] scores = chain.lastScores();
    double[][] meters = new double[before.states().size()][states.size()];
    for (int k = 0; k < meters.length; k++) {
      if (scores[k] < HOPELESS) {
        Arrays.fill(meters[k], Double.POSITIVE_INFINITY);
      } else {
        drive(before.states().get(k).place(), states, limit, meters[k]);
      }
    }
    return chain.add(new TrackChain.Step(i, states, weight(seconds), meters, straight));
  }

  private void drive(
      PlaceOnLink from, List<TrackRoads.State> states, double limit, double[] meters) {
    ways.search(from, limit);
    boolean backSearched = false;
    for (int j = 0; j < meters.length; j++) {
      PlaceOnLink to = states.get(j).place();
      meters[j] = ways.metersTo(to);
      if (meters[j] > limit) {
        meters[j] = Double.POSITIVE_INFINITY;
      }
      if (meters[j] > standingM() && (from.oneWay() || to.oneWay())) {
        if (!backSearched) {
          back.search(from, standingM());
          backSearched = true;
        }
        double behind = back.metersTo(to);
        if (behind <= standingM()) {
          meters[j] = Math.min(meters[j], behind);
        }
      }
    }
  }

  /**
   * Share of new information in a fix so many seconds after the last: (1 - r) / (1 + r) with r =
   * exp(-seconds / errorSeconds), the effective sample size of a first-order autoregressive error.
   */
  private double weight(double seconds) {
    if (!(seconds >= 0) || settings.errorSeconds() == 0) {
      return Double.isNaN(seconds) ? 0.2 : 1;
    }
    double r = Math.exp(-seconds / settings.errorSeconds());
    return Math.max(0.02, (1 - r) / (1 + r));
  }
}
