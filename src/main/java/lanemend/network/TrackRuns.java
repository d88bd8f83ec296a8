package lanemend.network;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/**
 * Legs put together to runs: one road name (or one set of names where routes run together) after
 * another, with what a receiver's error makes of a junction taken out again.
 */
final class TrackRuns {
  /** Two legs of one route belong together when along goes on within this. */
  private static final double JOINS_M = 2;

  /** What is shorter is rounding at a junction. */
  private static final double LEAST_M = 5;

  /**
   * A point of a run.
   *
   * @param along on each route of the run, in its order; one count of metres where there is no name
   * @param leg the leg that leads to it, null at the start
   */
  record Point(double[] along, TrackLegs.Leg leg, double share) {}

  /** A run; {@code routes} empty on roads without a name. */
  record Run(List<String> routes, List<Point> points) {
    double first() {
      return points.get(0).along[0];
    }

    double last() {
      return points.get(points.size() - 1).along[0];
    }

    double extentM() {
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (Point p : points) {
        low = Math.min(low, p.along[0]);
        high = Math.max(high, p.along[0]);
      }
      return high - low;
    }
  }

  private final TrackRoads roads;
  private final double errorM;

  /**
   * @param errorM a side trip shorter than this is the receiver's error
   */
  TrackRuns(TrackRoads roads, double errorM) {
    this.roads = roads;
    this.errorM = errorM;
  }

  List<Run> of(List<TrackLegs.Leg> legs) {
    List<Run> runs = new ArrayList<>();
    for (TrackLegs.Leg leg : legs) {
      List<String> routes = routesOn(leg.bed());
      Run open = runs.isEmpty() ? null : runs.get(runs.size() - 1);
      double[] start = open != null && open.routes().equals(routes) ? start(open, leg) : null;
      if (start == null) {
        double[] from = along(leg, routes, leg.from(), null);
        open = new Run(routes, new ArrayList<>(List.of(new Point(from, leg, leg.startShare()))));
        runs.add(open);
        start = from;
      }
      open.points().add(new Point(end(leg, routes, start), leg, leg.endShare()));
    }
    return joined(withoutSideTrips(runs));
  }

  private List<String> routesOn(int bed) {
    TreeSet<String> names = new TreeSet<>();
    for (TrackRoads.Member m : roads.members(bed)) {
      names.add(roads.routeOf(m.link()));
    }
    names.remove("");
    return List.copyOf(names);
  }

  /** Where the leg goes on from a run, or null when it does not. */
  private double[] start(Run open, TrackLegs.Leg leg) {
    double[] last = open.points().get(open.points().size() - 1).along();
    if (open.routes().isEmpty()) {
      return last;
    }
    double[] from = along(leg, open.routes(), leg.from(), last);
    for (int r = 0; r < from.length; r++) {
      if (Math.abs(from[r] - last[r]) > JOINS_M) {
        return null;
      }
    }
    return from;
  }

  private double[] end(TrackLegs.Leg leg, List<String> routes, double[] start) {
    if (routes.isEmpty()) {
      return new double[] {start[0] + leg.lengthM()};
    }
    double[] from = along(leg, routes, leg.from(), start);
    double[] to = along(leg, routes, leg.to(), start);
    double[] end = new double[from.length];
    for (int r = 0; r < end.length; r++) {
      end[r] = start[r] + to[r] - from[r];
    }
    return end;
  }

  /** Along of a place of the leg on each route. */
  private double[] along(TrackLegs.Leg leg, List<String> routes, double place, double[] last) {
    if (routes.isEmpty()) {
      return new double[] {0};
    }
    double[] along = new double[routes.size()];
    for (int r = 0; r < along.length; r++) {
      TrackRoads.Member pass = pass(leg, routes.get(r), last == null ? Double.NaN : last[r]);
      along[r] = roads.alongOn(leg.bed(), pass, place);
    }
    return along;
  }

  /** The route's link on the leg's bed; where it passes twice, the pass nearest to the last. */
  private TrackRoads.Member pass(TrackLegs.Leg leg, String route, double last) {
    TrackRoads.Member best = null;
    double bestOff = Double.POSITIVE_INFINITY;
    for (TrackRoads.Member m : roads.members(leg.bed())) {
      if (roads.routeOf(m.link()).equals(route)) {
        double off = Math.abs(roads.alongOn(leg.bed(), m, leg.from()) - last);
        if (best == null || off < bestOff) {
          best = m;
          bestOff = off;
        }
      }
    }
    return best;
  }

  /** Takes out short runs between two of one road, and what is no longer than rounding. */
  private List<Run> withoutSideTrips(List<Run> runs) {
    List<Run> kept = new ArrayList<>();
    for (int i = 0; i < runs.size(); i++) {
      Run run = runs.get(i);
      boolean between =
          !kept.isEmpty()
              && i + 1 < runs.size()
              && kept.get(kept.size() - 1).routes().equals(runs.get(i + 1).routes())
              && run.extentM() < errorM;
      boolean rounding = run.extentM() < LEAST_M && runs.size() > 1;
      if (!between && !rounding) {
        kept.add(run);
      }
    }
    return kept.isEmpty() && !runs.isEmpty() ? List.of(runs.get(0)) : kept;
  }

  private List<Run> joined(List<Run> runs) {
    List<Run> joined = new ArrayList<>();
    for (Run run : runs) {
      Run before = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      if (before != null
          && !run.routes().isEmpty()
          && before.routes().equals(run.routes())
          && Math.abs(before.last() - run.first()) <= 2 * errorM) {
        before.points().addAll(run.points());
      } else {
        joined.add(run);
      }
    }
    return joined;
  }
}
