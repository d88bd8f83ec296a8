package lanemend.sample;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.sample.Draft.Kind;

/**
 * County roads of the plain, on survey lines a mile apart that follow the land. Most lie near the
 * towns; few cross the river; one passes over the freeway.
 */
final class CountyRoads {
  private static final double GRID_M = Conversion.M_PER_MILE;
  private static final double STEP_M = 55;
  private static final int BRIDGES = 3;
  private static final double OVERPASS_SHARE = 0.375;

  /** A road that may be built: sections of one survey line in a row. */
  private record Run(boolean eastWest, int line, int start, List<Pt> points, double key) {}

  private final Terrain terrain;
  private final Nearby built;
  private final Dice dice;
  private final Nearby freeway = new Nearby();
  private final int halfColumns;
  private final int halfRows;
  private final double columnShiftM;
  private int bridgesLeft = BRIDGES;
  private boolean overpassLeft = true;

  private CountyRoads(Terrain terrain, List<Draft> state, Nearby built, Dice dice) {
    this.terrain = terrain;
    this.built = built;
    this.dice = dice;
    List<Draft> roadways = state.stream().filter(d -> d.kind() == Kind.FREEWAY).toList();
    roadways.forEach(d -> freeway.add(0, d.points()));
    halfColumns = (int) (terrain.widthM() / 2 / GRID_M) + 1;
    halfRows = (int) (terrain.heightM() / 2 / GRID_M) + 1;
    // The overpass needs the freeway to pass between two survey lines, not along one.
    List<Pt> axis = roadways.get(0).points();
    double x = axis.get(Curves.nearest(axis, terrain.at(0.8, OVERPASS_SHARE))).x();
    columnShiftM = x - (StrictMath.floor(x / GRID_M) + 0.5) * GRID_M;
  }

  /**
   * Draws until the miles are reached as nearly as whole roads allow; each road touches one that is
   * already there.
   */
  static List<Draft> draw(
      Terrain terrain, List<Draft> state, Nearby built, int firstNo, double miles, Dice dice) {
    CountyRoads c = new CountyRoads(terrain, state, built, dice);
    List<Run> waiting = new ArrayList<>(c.candidates());
    waiting.sort(Comparator.comparingDouble(Run::key));
    List<Run> chosen = new ArrayList<>();
    double left = miles * Conversion.M_PER_MILE;
    boolean grew = true;
    while (grew) {
      grew = false;
      List<Run> later = new ArrayList<>();
      for (Run r : waiting) {
        double length = Curves.length(r.points());
        if (length > 2 * left || !Draft.clearCourse(r.points())) {
          continue;
        }
        if (built.touches(r.points())) {
          built.add(firstNo + chosen.size(), r.points());
          chosen.add(r);
          left -= length;
          grew = true;
        } else {
          later.add(r);
        }
      }
      waiting = later;
    }
    return named(chosen);
  }

  private static List<Draft> named(List<Run> chosen) {
    List<Run> sorted = new ArrayList<>(chosen);
    sorted.sort(
        Comparator.comparing(Run::eastWest)
            .thenComparingInt(Run::line)
            .thenComparingInt(Run::start));
    List<Draft> out = new ArrayList<>();
    int even = 100;
    int odd = 101;
    for (Run r : sorted) {
      String name = "CR " + (r.eastWest() ? even : odd);
      even += r.eastWest() ? 2 : 0;
      odd += r.eastWest() ? 0 : 2;
      boolean collector = Curves.length(r.points()) > 6_500;
      out.add(
          Draft.twoWay(
              Kind.COUNTY, name, collector ? RoadClass.COLLECTOR : RoadClass.LOCAL, r.points()));
    }
    return out;
  }

  private List<Run> candidates() {
    List<Run> out = new ArrayList<>();
    for (int row = -halfRows; row <= halfRows; row++) {
      line(true, row, halfColumns, out);
    }
    for (int column = -halfColumns; column <= halfColumns; column++) {
      line(false, column, halfRows, out);
    }
    return out;
  }

  private void line(boolean eastWest, int no, int half, List<Run> out) {
    List<Pt> run = new ArrayList<>();
    int start = -half;
    for (int k = -half; k <= half; k++) {
      List<Pt> section = section(eastWest, no, k);
      boolean good = k < half && allowed(section);
      if (good) {
        start = run.isEmpty() ? k : start;
        run.addAll(run.isEmpty() ? section : section.subList(1, section.size()));
      }
      if (!run.isEmpty() && (!good || dice.chance(0.17))) {
        out.add(run(eastWest, no, start, run));
        run = new ArrayList<>();
      }
    }
  }

  private Run run(boolean eastWest, int no, int start, List<Pt> points) {
    List<Pt> line = reached(points);
    Collections.reverse(line);
    line = reached(line);
    Collections.reverse(line);
    Pt middle = line.get(line.size() / 2);
    double town = terrain.metersToTown(middle);
    double weight =
        (0.10 + StrictMath.exp(-town / 6_000)) * (no % 2 == 0 ? 3 : town < 7e3 ? 1 : .2);
    weight *= StrictMath.sqrt(points.size());
    double key = -StrictMath.log(1 - dice.uniform(0, 1)) / weight;
    if (points.stream().anyMatch(p -> nearFreeway(p, 60))) {
      key = 0;
    }
    return new Run(eastWest, no, start, List.copyOf(line), key);
  }

  /** The line with its last end led to a road nearby, in a curve. */
  private List<Pt> reached(List<Pt> points) {
    List<Pt> out = new ArrayList<>(points);
    Pt last = points.get(points.size() - 1);
    int tail = StrictMath.max(0, points.size() - 12);
    Pt target = built.touches(points.subList(tail, points.size())) ? null : reach(last);
    if (target == null || target.equals(points.get(0))) {
      return out;
    }
    double heading = points.get(points.size() - 3).bearing(last);
    double gap = last.to(target);
    double turn = StrictMath.cos(heading - last.bearing(target));
    if (turn < 0.25) {
      return out;
    }
    Pt ahead = last.step(heading, gap * 0.35);
    List<Pt> curve = Curves.through(List.of(last, ahead, target), STEP_M);
    out.addAll(curve.subList(1, curve.size()));
    return out;
  }

  /** A state or hill road near enough to a loose end to lead it there; null when there is none. */
  private Pt reach(Pt end) {
    if (built.vertex(end, 25) != null) {
      return null;
    }
    Pt target = built.vertex(end, 0.8 * GRID_M);
    if (target == null || terrain.crossesRiver(end, target) || nearFreeway(target, 60)) {
      return null;
    }
    return target;
  }

  /** One mile of a survey line with its bends; its ends are where lines cross. */
  private List<Pt> section(boolean eastWest, int no, int k) {
    int pieces = (int) (GRID_M / STEP_M);
    double bulge = dice.chance(0.6) ? 0 : dice.uniform(-120, 120);
    double lean = dice.uniform(0.8, 2.2);
    List<Pt> out = new ArrayList<>();
    for (int i = 0; i <= pieces; i++) {
      double share = (double) i / pieces;
      double wave =
          i == 0 || i == pieces
              ? 0
              : bulge
                  * StrictMath.pow(StrictMath.sin(StrictMath.PI * StrictMath.pow(share, lean)), 2);
      double s = (k + share) * GRID_M;
      out.add(
          terrain.warp(
              eastWest
                  ? new Pt(s + columnShiftM, no * GRID_M + wave)
                  : new Pt(no * GRID_M + wave + columnShiftM, s)));
    }
    return out;
  }

  private boolean allowed(List<Pt> section) {
    boolean river = false;
    boolean over = false;
    for (int i = 0; i + 1 < section.size(); i++) {
      Pt a = section.get(i);
      Pt b = section.get(i + 1);
      if (!terrain.inside(a) || !terrain.inside(b) || terrain.outsideTownM(a) < 120) {
        return false;
      }
      if (terrain.hills(a) > 0.3 || besideRoad(a, b)) {
        return false;
      }
      river |= terrain.crossesRiver(a, b);
      over |= nearFreeway(a, 260);
    }
    if (over && !overpass(section)) {
      return false;
    }
    return !river || bridge(section);
  }

  private boolean bridge(List<Pt> section) {
    boolean far = terrain.metersToTown(section.get(0)) > 5_500;
    if (bridgesLeft == 0 || !far || !dice.chance(0.35)) {
      return false;
    }
    bridgesLeft--;
    return true;
  }

  /** One survey line, half way between interchanges, goes over the freeway. */
  private boolean overpass(List<Pt> section) {
    Pt a = section.get(0);
    Pt b = section.get(section.size() - 1);
    double v = terrain.shareNorth(a);
    boolean across = StrictMath.abs(b.x() - a.x()) > StrictMath.abs(b.y() - a.y());
    if (!across || !overpassLeft || StrictMath.abs(v - OVERPASS_SHARE) > 0.045) {
      return false;
    }
    boolean whole = nearFreewaySomewhere(section) && !nearFreeway(a, 90) && !nearFreeway(b, 90);
    overpassLeft &= !whole;
    return whole;
  }

  private boolean nearFreewaySomewhere(List<Pt> section) {
    return section.stream().anyMatch(p -> nearFreeway(p, 60));
  }

  private boolean nearFreeway(Pt p, double withinM) {
    return freeway.vertex(p, withinM) != null;
  }

  /** True where the survey line would double a road that is already there. */
  private boolean besideRoad(Pt a, Pt b) {
    double heading = a.bearing(b);
    for (Nearby.Segment s : built.around(a, b, 330)) {
      double turn = StrictMath.sin(heading - s.from().bearing(s.to()));
      if (StrictMath.abs(turn) < 0.5) {
        return true;
      }
    }
    return false;
  }
}
