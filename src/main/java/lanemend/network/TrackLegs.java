package lanemend.network;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** The way through a chain, link by link, with time and belief. */
final class TrackLegs {
  /** A fix with the belief in its place and in the places it may be taken for. */
  record Told(int fix, double belief, List<TrackRoads.State> others, double[] otherBeliefs) {}

  /**
   * A drive on one roadbed.
   *
   * @param from along of the bed's standing link
   * @param startShare how far between the two fixes it starts, 0 to 1
   * @param before the fix before it
   * @param after the fix after it
   */
  record Leg(
      int bed,
      double from,
      double to,
      double startShare,
      double endShare,
      Told before,
      Told after) {

    double lengthM() {
      return Math.abs(to - from);
    }
  }

  private record Drive(int bed, double from, double to) {}

  /** Another place believed less than this is not worth naming. */
  private static final double LEAST_BELIEF = 0.02;

  private final TrackRoads roads;
  private final HaulGraph graph;
  private final NearWays ways;
  private final NearWays back;
  private final double sameM;

  /**
   * @param sameM places this close by road are one place for a fix
   */
  TrackLegs(TrackRoads roads, HaulGraph graph, double sameM) {
    this.roads = roads;
    this.graph = graph;
    this.ways = new NearWays(graph.onward(), /* against= */ false);
    this.back = new NearWays(graph.backward(), /* against= */ true);
    this.sameM = sameM;
  }

  /** What each fix of the chain tells. */
  List<Told> told(TrackChain chain) {
    int[] best = chain.best();
    double[][] beliefs = chain.beliefs();
    List<Told> told = new ArrayList<>();
    for (int t = 0; t < best.length; t++) {
      TrackChain.Step step = chain.steps().get(t);
      PlaceOnLink place = step.states().get(best[t]).place();
      ways.search(place, sameM);
      back.search(place, sameM);
      double here = 0;
      List<TrackRoads.State> others = new ArrayList<>();
      List<Double> otherBeliefs = new ArrayList<>();
      for (int k = 0; k < step.states().size(); k++) {
        TrackRoads.State state = step.states().get(k);
        if (k == best[t]
            || ways.metersTo(state.place()) <= sameM
            || back.metersTo(state.place()) <= sameM) {
          here += beliefs[t][k];
        } else if (beliefs[t][k] >= LEAST_BELIEF) {
          others.add(state);
          otherBeliefs.add(beliefs[t][k]);
        }
      }
      told.add(
          new Told(
              step.fix(),
              Math.min(1, here),
              others,
              otherBeliefs.stream().mapToDouble(d -> d).toArray()));
    }
    return told;
  }

  /** The drives in order; a chain of one fix gives a leg without length. */
  List<Leg> legs(TrackChain chain, List<Told> told) {
    int[] best = chain.best();
    List<Leg> legs = new ArrayList<>();
    if (best.length == 1) {
      PlaceOnLink only = chain.steps().get(0).states().get(best[0]).place();
      Told at = told.get(0);
      legs.add(new Leg(only.link(), only.along(), only.along(), 0, 1, at, at));
    }
    for (int t = 1; t < best.length; t++) {
      TrackChain.Step step = chain.steps().get(t);
      PlaceOnLink from = chain.steps().get(t - 1).states().get(best[t - 1]).place();
      PlaceOnLink to = step.states().get(best[t]).place();
      double meters = step.meters()[best[t - 1]][best[t]];
      double done = 0;
      List<Drive> drives = drives(from, to, meters);
      double all = drives.stream().mapToDouble(d -> Math.abs(d.to - d.from)).sum();
      for (Drive d : drives) {
        double share = all == 0 ? 0 : done / all;
        done += Math.abs(d.to - d.from);
        legs.add(
            new Leg(
                d.bed,
                d.from,
                d.to,
                share,
                all == 0 ? 1 : done / all,
                told.get(t - 1),
                told.get(t)));
      }
    }
    return legs;
  }

  private List<Drive> drives(PlaceOnLink from, PlaceOnLink to, double meters) {
    ways.search(from, meters + 1);
    double way = ways.metersTo(to);
    if (ways.direct(to) || !(way <= meters + 1)) {
      // Not reached in time: error against a one-way road, taken as standing or rolling back.
      return from.link() == to.link()
          ? List.of(new Drive(from.link(), from.along(), to.along()))
          : List.of();
    }
    List<Drive> drives = new ArrayList<>();
    HaulGraph.Link last = roads.link(to.link());
    boolean byStart = ways.entersByStart(to);
    int node = byStart ? last.from() : last.to();
    drives.add(new Drive(to.link(), byStart ? last.fromAlong() : last.toAlong(), to.along()));
    while (ways.arcTo(node) >= 0) {
      int by = graph.onward().link()[ways.arcTo(node)];
      int number = by < 0 ? ~by : by;
      HaulGraph.Link link = roads.link(number);
      double start = by < 0 ? link.toAlong() : link.fromAlong();
      double end = by < 0 ? link.fromAlong() : link.toAlong();
      drives.add(
          new Drive(
              roads.bedOf(number), roads.alongOnBed(number, start), roads.alongOnBed(number, end)));
      node = by < 0 ? link.to() : link.from();
    }
    HaulGraph.Link first = roads.link(from.link());
    drives.add(
        new Drive(
            from.link(),
            from.along(),
            ways.leftByStart(node) ? first.fromAlong() : first.toAlong()));
    Collections.reverse(drives);
    return drives;
  }
}
