package lanemend.network;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/**
 * Puts a patrol's whole track on the roads at once, as {@link TrackChain} says: what was driven
 * before and after a fix tells which road it was on. Error of the fixes and slack of the distances
 * are worked out from the track itself, as Newson and Krumm do, and the track is matched again with
 * them. One for each thread.
 */
public final class TrackMatcher {
  /** Of a normal error, 1.4826 times the median is the standard deviation. */
  private static final double SIGMA_OF_MEDIAN = 1.4826;

  /** Of two roads at a junction, nearer than this many standard deviations is the same place. */
  private static final double SAME_SIGMAS = 3;

  /** Routes that run along but were not followed, against the one that was. */
  private static final double ALONG_SHARE = 0.05;

  private final Network network;
  private final HaulGraph graph;
  private final TrackRoads roads;

  public TrackMatcher(Network network, TravelRules rules) {
    this(network, HaulGraph.build(network, rules));
  }

  /**
   * @param graph of the same network
   */
  public TrackMatcher(Network network, HaulGraph graph) {
    this.network = network;
    this.graph = graph;
    this.roads = new TrackRoads(graph);
  }

  /**
   * Matches a track.
   *
   * @param fixes in order of time
   */
  public TrackMatch match(List<TrackFix> fixes, TrackSettings settings) {
    double sigma = settings.accuracyM();
    double beta = sigma;
    TrackTrellis first = new TrackTrellis(roads, graph, fixes, settings, sigma, beta);
    if (first.chains().stream().anyMatch(c -> c.steps().size() > 1)) {
      sigma = within(3, sigma(first), 40);
      beta = within(3, beta(first), 60);
    }
    TrackTrellis trellis = new TrackTrellis(roads, graph, fixes, settings, sigma, beta);
    return match(trellis, fixes, settings, sigma);
  }

  private static double within(double least, double value, double most) {
    return Math.max(least, Math.min(most, value));
  }

  private static double sigma(TrackTrellis trellis) {
    List<Double> off = new ArrayList<>();
    for (TrackChain chain : trellis.chains()) {
      int[] best = chain.best();
      for (int t = 0; t < best.length; t++) {
        off.add(chain.steps().get(t).states().get(best[t]).distanceM());
      }
    }
    return SIGMA_OF_MEDIAN * median(off);
  }

  /** The exponential's scale from the median of what it describes. */
  private static double beta(TrackTrellis trellis) {
    List<Double> off = new ArrayList<>();
    for (TrackChain chain : trellis.chains()) {
      int[] best = chain.best();
      for (int t = 1; t < best.length; t++) {
        TrackChain.Step step = chain.steps().get(t);
        off.add(Math.abs(step.meters()[best[t - 1]][best[t]] - step.straightM()));
      }
    }
    return median(off) / Math.log(2);
  }

  private static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(d -> d).sorted().toArray();
    return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
  }

  private TrackMatch match(
      TrackTrellis trellis, List<TrackFix> fixes, TrackSettings settings, double sigma) {
    double same = Math.max(15, SAME_SIGMAS * sigma);
    Predicate<String> patrolled =
        id ->
            settings
                .patrolled()
                .filter(p -> p.equalsIgnoreCase(id) || p.equalsIgnoreCase(nameOf(id)))
                .isPresent();
    TrackLegs legs = new TrackLegs(roads, graph, same);
    TrackRuns runs = new TrackRuns(roads, same);
    TrackStretches cutter =
        new TrackStretches(roads, fixes, settings.clear(), Math.max(30, 4 * sigma), patrolled);
    List<DrivenStretch> stretches = new ArrayList<>();
    List<TrackMatch.Break> breaks = new ArrayList<>();
    Map<String, List<TrackMatch.Cover>> covers = new HashMap<>();
    TrackChain before = null;
    for (TrackChain chain : trellis.chains()) {
      if (before != null) {
        breaks.add(breakBetween(before.last().fix(), chain.steps().get(0).fix(), fixes));
      }
      before = chain;
      List<TrackLegs.Told> told = legs.told(chain);
      for (TrackStretches.Cut cut : cutter.of(runs.of(legs.legs(chain, told)))) {
        stretches.addAll(cut.stretches());
        cover(cut, cutter, covers);
      }
      coverOthers(told, fixes, covers);
    }
    return new TrackMatch(
        stretches,
        breaks,
        trellis.count(TrackTrellis.Use.OFF_ROAD),
        trellis.count(TrackTrellis.Use.STRAY),
        sigma,
        settings.aroundSeconds(),
        covers);
  }

  private String nameOf(String routeId) {
    return network.route(routeId).map(Route::name).orElse(routeId);
  }

  private static TrackMatch.Break breakBetween(int last, int first, List<TrackFix> fixes) {
    double meters = fixes.get(last).metersTo(fixes.get(first));
    double seconds = fixes.get(last).secondsTo(fixes.get(first));
    return new TrackMatch.Break(
        last,
        String.format(
            java.util.Locale.ROOT,
            "no drive joins what lies before and after: %.0f m%s",
            meters,
            Double.isNaN(seconds)
                ? ""
                : String.format(java.util.Locale.ROOT, ", %.0f s", seconds)));
  }

  private static void cover(
      TrackStretches.Cut cut, TrackStretches times, Map<String, List<TrackMatch.Cover>> covers) {
    List<TrackRuns.Point> points = cut.run().points();
    for (int k = 1; k < points.size(); k++) {
      TrackRuns.Point from = points.get(k - 1);
      TrackRuns.Point to = points.get(k);
      double belief = Math.min(to.leg().before().belief(), to.leg().after().belief());
      Instant start =
          times.timeOf(new TrackRuns.Point(to.along(), to.leg(), to.leg().startShare()));
      for (int r = 0; r < cut.run().routes().size(); r++) {
        double share = cut.followed() < 0 || cut.followed() == r ? 1 : ALONG_SHARE;
        put(
            covers,
            cut.run().routes().get(r),
            new TrackMatch.Cover(
                Math.min(from.along()[r], to.along()[r]),
                Math.max(from.along()[r], to.along()[r]),
                start,
                times.timeOf(to),
                share * belief,
                to.along()[r] >= from.along()[r]));
      }
    }
  }

  /** Where a fix may have been instead speaks a little for those places too. */
  private void coverOthers(
      List<TrackLegs.Told> told, List<TrackFix> fixes, Map<String, List<TrackMatch.Cover>> covers) {
    for (TrackLegs.Told t : told) {
      Instant at = fixes.get(t.fix()).at();
      for (int i = 0; i < t.others().size(); i++) {
        PlaceOnLink place = t.others().get(i).place();
        for (TrackRoads.Member m : roads.members(place.link())) {
          double along = roads.alongOn(place.link(), m, place.along());
          put(
              covers,
              roads.routeOf(m.link()),
              new TrackMatch.Cover(along, along, at, at, t.otherBeliefs()[i], true));
        }
      }
    }
  }

  private static void put(
      Map<String, List<TrackMatch.Cover>> covers, String routeId, TrackMatch.Cover cover) {
    covers.computeIfAbsent(routeId, r -> new ArrayList<>()).add(cover);
  }
}
