package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.sample.Draft.Kind;

/**
 * Winding county roads of the hills: each leaves another road, wanders towards its goal with smooth
 * random curvature and ends at the next road or at the last ranch.
 */
final class HillRoads {
  static final String LOOP = "CR 77";
  private static final double STEP_M = 35;
  private static final double JOIN_M = 420;
  private static final double APART_M = 650;

  private final Terrain terrain;
  private final Nearby roads;
  private final Dice dice;
  private final List<Draft> drafts = new ArrayList<>();

  private HillRoads(Terrain terrain, Nearby roads, Dice dice) {
    this.terrain = terrain;
    this.roads = roads;
    this.dice = dice;
  }

  /**
   * Draws until about this many miles are there; every road is added to {@code roads}.
   *
   * @param state roads to start from
   * @param firstNo number under which the first road goes into {@code roads}
   */
  static List<Draft> draw(
      Terrain terrain, List<Draft> state, Nearby roads, int firstNo, double miles, Dice dice) {
    HillRoads h = new HillRoads(terrain, roads, dice);
    h.loop(state, firstNo);
    List<Pt> starts = new ArrayList<>();
    state.stream().filter(d -> d.kind() == Kind.STATE).forEach(d -> starts.addAll(d.points()));
    double left = miles * Conversion.M_PER_MILE - h.drafts.get(0).lengthM();
    for (int tries = 0; left > 2500 && tries < 4000; tries++) {
      Pt start = dice.pick(starts);
      if (terrain.hills(start) < 0.25 || terrain.outsideTownM(start) < 900) {
        continue;
      }
      List<Pt> line = h.wander(start, left);
      if (Curves.length(line) < 4200 || !Draft.clearCourse(line)) {
        continue;
      }
      String name = "HR " + h.drafts.size();
      h.drafts.add(Draft.twoWay(Kind.HILL, name, RoadClass.LOCAL, line));
      roads.add(firstNo + h.drafts.size() - 1, line);
      starts.addAll(line);
      left -= Curves.length(line);
    }
    return h.drafts;
  }

  /** A scenic loop that leaves SR 8 and comes back to it. */
  private void loop(List<Draft> state, int no) {
    List<Pt> cross =
        state.stream().filter(d -> d.name().equals(StateRoads.CROSS)).findFirst().get().points();
    Pt leave = cross.get(Curves.nearest(cross, terrain.at(0.205, 0.56)));
    Pt back = cross.get(Curves.nearest(cross, terrain.at(0.325, 0.55)));
    List<Pt> way =
        Curves.through(
            List.of(
                leave,
                terrain.at(0.19, 0.47),
                terrain.at(0.225, 0.36),
                terrain.at(0.27, 0.39),
                terrain.at(0.30, 0.46),
                back),
            STEP_M);
    List<Pt> line =
        Curves.bend(
            way,
            dice,
            p -> 620 * StrictMath.min(1, StrictMath.min(p.to(leave), p.to(back)) / 2500));
    drafts.add(Draft.twoWay(Kind.COUNTY, LOOP, RoadClass.COLLECTOR, line));
    roads.add(no, line);
  }

  private List<Pt> wander(Pt start, double mostM) {
    double goal = dice.uniform(-StrictMath.PI, StrictMath.PI);
    double wanted = StrictMath.min(mostM, dice.uniform(7_000, 22_000));
    List<Pt> line = new ArrayList<>(List.of(start));
    double heading = goal;
    double curvature = 0;
    Pt p = start;
    for (double s = STEP_M; s < wanted; s += STEP_M) {
      // Curvature is an Ornstein-Uhlenbeck process: bends of some 200 m radius, 200 m long.
      curvature += -curvature * STEP_M / 200 + dice.normal() * 0.0027;
      heading += (curvature + 0.0035 * StrictMath.sin(goal - heading)) * STEP_M;
      Pt next = p.step(heading, STEP_M);
      if (!terrain.inside(next)
          || terrain.hills(next) < 0.02
          || terrain.outsideTownM(next) < 200
          || terrain.crossesRiver(p, next)
          || nearOwn(line, next)) {
        return line;
      }
      Pt other = s > 900 ? roads.vertex(next, JOIN_M) : null;
      if (other != null) {
        return join(line, heading, other);
      }
      if (s > 250 && s <= 900 && roads.vertex(next, StrictMath.min(APART_M, s * 0.5)) != null) {
        return List.of();
      }
      line.add(next);
      p = next;
    }
    return line;
  }

  private static boolean nearOwn(List<Pt> line, Pt p) {
    for (int i = 0; i < line.size() - 14; i++) {
      if (line.get(i).to(p) < 180) {
        return true;
      }
    }
    return false;
  }

  /** A smooth last bend onto the road that was reached. */
  private List<Pt> join(List<Pt> line, double heading, Pt end) {
    Pt last = line.get(line.size() - 1);
    Pt ahead = last.step(heading, last.to(end) * 0.4);
    List<Pt> bend = Curves.through(List.of(last, ahead, end), STEP_M);
    if (terrain.crossesRiver(last, end)) {
      return line;
    }
    List<Pt> out = new ArrayList<>(line);
    out.addAll(bend.subList(1, bend.size()));
    return out;
  }
}
