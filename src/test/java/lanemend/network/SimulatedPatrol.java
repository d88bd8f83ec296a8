package lanemend.network;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;

/**
 * A patrol that drives a network at random, and a receiver that is wrong by a known amount. Error
 * is first-order autoregressive in each of east and north, since a receiver's error wanders; the
 * patrol drives in the right-hand lane, 2 m from the centreline.
 */
final class SimulatedPatrol {
  private static final double SPEED_M_S = 15;
  private static final double LANE_M = 2;
  private static final Instant START = Instant.parse("2026-04-30T13:00:00Z");

  /**
   * Where the patrol truly was at a fix.
   *
   * @param routes every route there; empty on a road without a name
   */
  record Truth(Set<String> routes, double x, double y) {}

  final List<TrackFix> fixes = new ArrayList<>();
  final List<Truth> truth = new ArrayList<>();

  private final HaulGraph graph;
  private final TrackRoads roads;
  private final Random random;

  /**
   * Drives.
   *
   * @param secondsApart between fixes
   * @param errorM one standard deviation in each of east and north
   * @param errorSeconds how long an error lasts
   */
  SimulatedPatrol(
      HaulGraph graph,
      double meters,
      double secondsApart,
      double errorM,
      double errorSeconds,
      long seed) {
    this.graph = graph;
    this.roads = new TrackRoads(graph);
    this.random = new Random(seed);
    List<double[]> path = drive(meters);
    double r = errorSeconds == 0 ? 0 : Math.exp(-secondsApart / errorSeconds);
    double east = errorM * random.nextGaussian();
    double north = errorM * random.nextGaussian();
    double driven = 0;
    int piece = 1;
    double pieceStart = 0;
    for (int n = 0; ; n++) {
      driven = n * secondsApart * SPEED_M_S;
      while (piece < path.size() && pieceStart + length(path, piece) < driven) {
        pieceStart += length(path, piece);
        piece++;
      }
      if (piece >= path.size()) {
        return;
      }
      add(
          path,
          piece,
          driven - pieceStart,
          START.plusMillis((long) (1000 * n * secondsApart)),
          east,
          north);
      double fresh = errorM * Math.sqrt(1 - r * r);
      east = r * east + fresh * random.nextGaussian();
      north = r * north + fresh * random.nextGaussian();
    }
  }

  private void add(
      List<double[]> path, int piece, double into, Instant at, double east, double north) {
    double[] a = path.get(piece - 1);
    double[] b = path.get(piece);
    double length = length(path, piece);
    double ux = (b[0] - a[0]) / length;
    double uy = (b[1] - a[1]) / length;
    double x = a[0] + ux * into;
    double y = a[1] + uy * into;
    fixes.add(new TrackFix(x + uy * LANE_M + east, y - ux * LANE_M + north, at));
    truth.add(new Truth(routes((int) b[2]), x, y));
  }

  private static double length(List<double[]> path, int piece) {
    return Math.hypot(
        path.get(piece)[0] - path.get(piece - 1)[0], path.get(piece)[1] - path.get(piece - 1)[1]);
  }

  private Set<String> routes(int bed) {
    Set<String> names = new TreeSet<>();
    roads.members(bed).forEach(m -> names.add(roads.routeOf(m.link())));
    names.remove("");
    return names;
  }

  /** Points {x, y, bed that leads to it}; turns back only at dead ends. */
  private List<double[]> drive(double meters) {
    LinkArcs arcs = graph.onward();
    int node;
    do {
      node = random.nextInt(graph.nodeCount());
    } while (arcs.first()[node + 1] == arcs.first()[node]);
    List<double[]> path = new ArrayList<>();
    int lastBed = -1;
    double driven = 0;
    while (driven < meters) {
      List<Integer> onward = new ArrayList<>();
      for (int arc = arcs.first()[node]; arc < arcs.first()[node + 1]; arc++) {
        int link = arcs.link()[arc];
        if (roads.bedOf(link < 0 ? ~link : link) != lastBed) {
          onward.add(arc);
        }
      }
      if (onward.isEmpty()) {
        for (int arc = arcs.first()[node]; arc < arcs.first()[node + 1]; arc++) {
          onward.add(arc);
        }
      }
      if (onward.isEmpty()) {
        break;
      }
      int arc = onward.get(random.nextInt(onward.size()));
      int by = arcs.link()[arc];
      lastBed = roads.bedOf(by < 0 ? ~by : by);
      draw(path, by < 0 ? ~by : by, by < 0, lastBed);
      driven += 1000 * arcs.km()[arc];
      node = arcs.head()[arc];
    }
    return path;
  }

  private void draw(List<double[]> path, int number, boolean against, int bed) {
    HaulGraph.Link link = graph.links().get(number);
    CenterlinePart line = graph.index().line(link.line());
    List<double[]> points = new ArrayList<>();
    points.add(Piece.at(line, link.fromAlong()));
    for (int v = 0; v < line.size(); v++) {
      if (line.along(v) > link.fromAlong() && line.along(v) < link.toAlong()) {
        points.add(new double[] {line.x(v), line.y(v)});
      }
    }
    points.add(Piece.at(line, link.toAlong()));
    if (against) {
      java.util.Collections.reverse(points);
    }
    for (double[] p : points) {
      double[] last = path.isEmpty() ? null : path.get(path.size() - 1);
      if (last == null || Math.hypot(p[0] - last[0], p[1] - last[1]) > 1e-6) {
        path.add(new double[] {p[0], p[1], bed});
      }
    }
  }

  /** How a match did, in fixes. */
  record Score(int fixes, int right, int clearlyWrong, int unclear, int unclearWrong, int unsaid) {
    Score plus(Score o) {
      return new Score(
          fixes + o.fixes,
          right + o.right,
          clearlyWrong + o.clearlyWrong,
          unclear + o.unclear,
          unclearWrong + o.unclearWrong,
          unsaid + o.unsaid);
    }

    double rightShare() {
      return (double) right / fixes;
    }
  }

  /** Scores a match: at each fix, are the routes of its stretch those the patrol was on? */
  Score score(TrackMatch match) {
    int right = 0;
    int clearlyWrong = 0;
    int unclear = 0;
    int unclearWrong = 0;
    int unsaid = 0;
    for (int i = 0; i < fixes.size(); i++) {
      Instant at = fixes.get(i).at();
      Set<String> on = truth.get(i).routes();
      List<DrivenStretch> here =
          match.stretches().stream()
              .filter(s -> !s.from().isAfter(at) && !s.to().isBefore(at))
              .toList();
      boolean hit = here.stream().anyMatch(s -> names(s).equals(on));
      boolean clear = here.stream().allMatch(DrivenStretch::clear);
      if (here.isEmpty()) {
        unsaid++;
      } else if (hit) {
        right++;
        unclear += clear ? 0 : 1;
      } else if (clear) {
        clearlyWrong++;
      } else {
        unclear++;
        unclearWrong++;
      }
    }
    return new Score(fixes.size(), right, clearlyWrong, unclear, unclearWrong, unsaid);
  }

  /** The plain way beside it: each fix by itself to its nearest road. */
  double nearestShare() {
    int right = 0;
    for (int i = 0; i < fixes.size(); i++) {
      List<TrackRoads.State> near = roads.near(fixes.get(i).x(), fixes.get(i).y(), 200);
      boolean hit =
          !near.isEmpty() && routes(near.get(0).place().link()).equals(truth.get(i).routes());
      right += hit ? 1 : 0;
    }
    return (double) right / fixes.size();
  }

  private static Set<String> names(DrivenStretch s) {
    Set<String> names = new TreeSet<>();
    s.routes().forEach(r -> names.add(r.routeId()));
    return names;
  }
}
