package lanemend.network;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/** Runs of one chain cut into stretches: where the patrol turned round, and where it is unclear. */
final class TrackStretches {
  private static final int MOST_OTHERS = 5;

  private final TrackRoads roads;
  private final List<TrackFix> fixes;
  private final double clear;
  private final double turnM;
  private final Predicate<String> patrolled;

  /**
   * @param turnM going back less than this is the receiver's error, not a turn
   * @param patrolled true of the ids of the route the patrol was sent along
   */
  TrackStretches(
      TrackRoads roads,
      List<TrackFix> fixes,
      double clear,
      double turnM,
      Predicate<String> patrolled) {
    this.roads = roads;
    this.fixes = fixes;
    this.clear = clear;
    this.turnM = turnM;
    this.patrolled = patrolled;
  }

  /** A run's stretches, with the number of its followed route or -1. */
  record Cut(TrackRuns.Run run, int followed, List<DrivenStretch> stretches) {}

  List<Cut> of(List<TrackRuns.Run> runs) {
    List<Cut> cuts = new ArrayList<>();
    for (int i = 0; i < runs.size(); i++) {
      int followed = followed(runs, i);
      List<DrivenStretch> stretches = new ArrayList<>();
      List<Integer> turns = turns(runs.get(i).points());
      for (int t = 1; t < turns.size(); t++) {
        cut(runs.get(i), followed, turns.get(t - 1), turns.get(t), stretches);
      }
      cuts.add(new Cut(runs.get(i), followed, stretches));
    }
    return cuts;
  }

  /** The route of a run that was patrolled: the one named, else the one come and gone by. */
  private int followed(List<TrackRuns.Run> runs, int i) {
    List<String> routes = runs.get(i).routes();
    if (routes.size() == 1) {
      return 0;
    }
    int named = only(routes, patrolled);
    if (named >= 0) {
      return named;
    }
    List<String> before = i > 0 ? runs.get(i - 1).routes() : List.of();
    List<String> after = i + 1 < runs.size() ? runs.get(i + 1).routes() : List.of();
    int through = only(routes, r -> before.contains(r) && after.contains(r));
    if (through >= 0) {
      return through;
    }
    return only(routes, r -> before.contains(r) || after.contains(r));
  }

  /** The one place in the list of what fits; -1 when none or several fit. */
  private static int only(List<String> routes, Predicate<String> fits) {
    int found = -1;
    for (int r = 0; r < routes.size(); r++) {
      if (fits.test(routes.get(r))) {
        if (found >= 0) {
          return -1;
        }
        found = r;
      }
    }
    return found;
  }

  /** Start, turning points and end of a run, by number of its points. */
  private List<Integer> turns(List<TrackRuns.Point> points) {
    List<Integer> turns = new ArrayList<>(List.of(0));
    int farthest = 0;
    double sign = 0;
    for (int k = 1; k < points.size(); k++) {
      double on = points.get(k).along()[0] - points.get(farthest).along()[0];
      if (sign == 0 ? Math.abs(on) > turnM : on * sign > 0) {
        sign = sign == 0 ? Math.signum(on) : sign;
        farthest = k;
      } else if (sign != 0 && on * sign < -turnM) {
        turns.add(farthest);
        sign = -sign;
        farthest = k;
      }
    }
    int end = sign == 0 ? points.size() - 1 : farthest;
    if (end > turns.get(turns.size() - 1)) {
      turns.add(end);
    }
    return turns;
  }

  private void cut(
      TrackRuns.Run run, int followed, int from, int to, List<DrivenStretch> stretches) {
    int start = from;
    for (int k = from + 1; k <= to; k++) {
      if (k == to || isClear(run.points().get(k)) != isClear(run.points().get(k + 1))) {
        stretches.add(stretch(run, followed, start, k));
        start = k;
      }
    }
  }

  private static double belief(TrackRuns.Point p) {
    return Math.min(p.leg().before().belief(), p.leg().after().belief());
  }

  private boolean isClear(TrackRuns.Point p) {
    return belief(p) >= clear;
  }

  private DrivenStretch stretch(TrackRuns.Run run, int followed, int from, int to) {
    List<TrackRuns.Point> points = run.points();
    double[] start = points.get(from).along();
    double[] end = points.get(to).along();
    List<RouteSpan> spans = new ArrayList<>();
    for (int r = 0; r < run.routes().size(); r++) {
      RouteSpan span = new RouteSpan(run.routes().get(r), start[r], end[r]);
      if (r == followed) {
        spans.add(0, span);
      } else {
        spans.add(span);
      }
    }
    double sum = 0;
    for (int k = from + 1; k <= to; k++) {
      sum += belief(points.get(k));
    }
    boolean isClear = isClear(points.get(to));
    return new DrivenStretch(
        spans,
        followed >= 0 || run.routes().isEmpty(),
        timeOf(points.get(from)),
        timeOf(points.get(to)),
        Math.abs(end[0] - start[0]),
        sum / (to - from),
        isClear,
        isClear ? List.of() : others(run, from, to));
  }

  /** When a point was passed, at even speed between its two fixes. */
  Instant timeOf(TrackRuns.Point p) {
    Instant before = fixes.get(p.leg().before().fix()).at();
    Instant after = fixes.get(p.leg().after().fix()).at();
    if (before == null || after == null) {
      return null;
    }
    long millis = java.time.Duration.between(before, after).toMillis();
    return before.plusMillis(Math.round(p.share() * millis));
  }

  private List<DrivenStretch.OtherRoad> others(TrackRuns.Run run, int from, int to) {
    Map<String, DrivenStretch.OtherRoad> most = new HashMap<>();
    for (int k = from + 1; k <= to; k++) {
      for (TrackLegs.Told told :
          List.of(run.points().get(k).leg().before(), run.points().get(k).leg().after())) {
        for (int i = 0; i < told.others().size(); i++) {
          PlaceOnLink place = told.others().get(i).place();
          for (TrackRoads.Member m : roads.members(place.link())) {
            DrivenStretch.OtherRoad other =
                new DrivenStretch.OtherRoad(
                    roads.routeOf(m.link()),
                    roads.alongOn(place.link(), m, place.along()),
                    told.otherBeliefs()[i]);
            most.merge(other.routeId(), other, (a, b) -> a.belief() >= b.belief() ? a : b);
          }
        }
      }
    }
    return most.values().stream()
        .sorted(
            Comparator.comparingDouble((DrivenStretch.OtherRoad o) -> -o.belief())
                .thenComparing(DrivenStretch.OtherRoad::routeId))
        .limit(MOST_OTHERS)
        .toList();
  }
}
