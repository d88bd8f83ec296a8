package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import lanemend.network.RoadClass;
import lanemend.sample.Draft.Kind;
import lanemend.sample.Terrain.Town;

/**
 * State routes: six two-lane roads through the towns, one divided freeway with diamond
 * interchanges, one stretch that two routes share, one spur to an old mine.
 */
final class StateRoads {
  static final String MAIN = "SR 31";
  static final String CROSS = "SR 8";
  static final String SHARING = "SR 117";
  static final String FREEWAY = "SR 64";
  static final String NORTH = "SR 46";
  static final String SOUTH = "SR 52";
  static final String SPUR = "SR 205";

  static final double STEP_M = 45;
  private static final double HALF_MEDIAN_M = 14;
  private static final double RAMP_M = 560;

  private final Terrain terrain;
  private final Dice dice;
  private final List<Pt> anchors = new ArrayList<>();
  private final List<Draft> drafts = new ArrayList<>();

  private StateRoads(Terrain terrain, Dice dice) {
    this.terrain = terrain;
    this.dice = dice;
    terrain.towns().forEach(t -> anchors.add(t.middle()));
  }

  /**
   * All state routes and ramps; SR 117 comes as two, from the south to SR 31 and on north from it.
   */
  static List<Draft> draw(Terrain terrain, Dice dice) {
    StateRoads s = new StateRoads(terrain, dice);
    s.drawAll();
    return List.copyOf(s.drafts);
  }

  private void drawAll() {
    Pt middleGate = terrain.at(0.795, 0.505);
    Pt northGate = terrain.at(0.805, 0.745);
    Pt southGate = terrain.at(0.81, 0.215);
    List<Pt> main =
        road(
            terrain.at(0.42, 0),
            through("Hestavale", false),
            through("Ombrel", false),
            List.of(terrain.at(0.487, 0.63)),
            through("Pellwick", false),
            List.of(terrain.at(0.575, 1)));
    List<Pt> cross =
        road(
            terrain.at(0, 0.61),
            through("Quern Hollow", true),
            List.of(terrain.at(0.30, 0.555)),
            through("Ombrel", true),
            gate(middleGate),
            List.of(terrain.at(1, 0.465)));
    List<Pt> north =
        road(town("Pellwick").middle(), eastOf("Pellwick"), gate(northGate), edge(.71));
    List<Pt> south =
        road(
            town("Hestavale").middle(),
            eastOf("Hestavale"),
            through("Sabrick", true),
            gate(southGate),
            edge(0.17));
    add(Kind.STATE, MAIN, RoadClass.ARTERIAL, main);
    add(Kind.STATE, CROSS, RoadClass.ARTERIAL, cross);
    add(Kind.STATE, NORTH, RoadClass.COLLECTOR, north);
    add(Kind.STATE, SOUTH, RoadClass.COLLECTOR, south);
    sharing(main);
    Town hollow = town("Quern Hollow");
    List<Pt> spur =
        road(
            hollow.middle(),
            List.of(hollow.middle().step(hollow.axis() + StrictMath.PI / 2, 700)),
            List.of(terrain.at(0.11, 0.72), terrain.at(0.17, 0.86)));
    add(Kind.STATE, SPUR, RoadClass.COLLECTOR, spur);
    freeway(List.of(southGate, middleGate, northGate), List.of(south, cross, north));
  }

  private Town town(String name) {
    return terrain.town(name);
  }

  private List<Pt> edge(double northShare) {
    return List.of(terrain.at(1, northShare));
  }

  /** Waypoints that lead straight through a town, along its axis or across it. */
  private List<Pt> through(String name, boolean along) {
    Town t = town(name);
    double direction = along ? t.axis() : t.axis() + StrictMath.PI / 2;
    List<Pt> out = new ArrayList<>();
    for (int step = -2; step <= 2; step++) {
      out.add(t.middle().step(direction, 600 * step));
    }
    return out;
  }

  private List<Pt> eastOf(String name) {
    Town t = town(name);
    return List.of(t.middle().step(t.axis(), 600), t.middle().step(t.axis(), 1200));
  }

  /** Waypoints of a level, straight approach to an interchange. */
  private List<Pt> gate(Pt middle) {
    anchors.add(middle);
    return List.of(
        middle.plus(-900, 0),
        middle.plus(-300, 0),
        middle,
        middle.plus(300, 0),
        middle.plus(900, 0));
  }

  @SafeVarargs
  private List<Pt> road(Pt start, List<Pt>... legs) {
    List<Pt> waypoints = new ArrayList<>(List.of(start));
    for (List<Pt> leg : legs) {
      waypoints.addAll(leg);
    }
    anchors.add(start);
    anchors.add(waypoints.get(waypoints.size() - 1));
    return Curves.bend(Curves.through(waypoints, STEP_M), dice, this::amplitude);
  }

  /** Roads wander on open land, more in the hills, and run true near anchors. */
  private double amplitude(Pt p) {
    double nearest = Double.MAX_VALUE;
    for (Pt a : anchors) {
      nearest = StrictMath.min(nearest, a.to(p));
    }
    double open = StrictMath.max(0, StrictMath.min(1, (nearest - 1000) / 2500));
    return open * (420 + 420 * terrain.hills(p));
  }

  /** SR 117 joins SR 31 north of Ombrel and leaves it south of the town. */
  private void sharing(List<Pt> main) {
    int join = Curves.nearest(main, terrain.at(0.487, 0.63));
    Town ombrel = town("Ombrel");
    int leave = Curves.nearest(main, ombrel.middle().step(ombrel.axis() - StrictMath.PI / 2, 1200));
    double in = Curves.heading(main, join) + StrictMath.PI;
    double out = Curves.heading(main, leave) + StrictMath.PI;
    Pt joinPt = main.get(join);
    Pt leavePt = main.get(leave);
    List<Pt> before =
        road(
            terrain.at(0.06, 1),
            List.of(terrain.at(0.25, 0.83), terrain.at(0.42, 0.735)),
            List.of(joinPt.step(in + 1.0, -700), joinPt));
    List<Pt> after =
        road(
            leavePt,
            List.of(leavePt.step(out + 0.9, 700), terrain.at(0.60, 0.34)),
            Draft.reversed(through("Sabrick", false)),
            List.of(terrain.at(0.735, 0)));
    add(Kind.STATE, SHARING, RoadClass.ARTERIAL, Draft.reversed(after));
    add(Kind.STATE, SHARING, RoadClass.ARTERIAL, Draft.reversed(before));
  }

  private void add(Kind kind, String name, RoadClass roadClass, List<Pt> points) {
    drafts.add(Draft.twoWay(kind, name, roadClass, points));
  }

  private void freeway(List<Pt> gates, List<List<Pt>> crossed) {
    List<Pt> legs = new ArrayList<>();
    for (Pt g : gates) {
      legs.add(g.plus(-20, -1500));
      legs.add(g);
      legs.add(g.plus(20, 1500));
    }
    List<Pt> axis = road(terrain.at(0.84, 0), legs, List.of(terrain.at(0.87, 1)));
    List<Pt> northbound = Curves.beside(axis, -HALF_MEDIAN_M);
    List<Pt> southbound = Draft.reversed(Curves.beside(axis, HALF_MEDIAN_M));
    drafts.add(new Draft(Kind.FREEWAY, FREEWAY, "NB", RoadClass.FREEWAY, northbound, true));
    drafts.add(new Draft(Kind.FREEWAY, FREEWAY, "SB", RoadClass.FREEWAY, southbound, true));
    for (int i = 0; i < gates.size(); i++) {
      Pt east = near(crossed.get(i), gates.get(i).plus(190, 0));
      Pt west = near(crossed.get(i), gates.get(i).plus(-190, 0));
      diamond(northbound, gates.get(i).plus(HALF_MEDIAN_M, 0), east, 1);
      diamond(southbound, gates.get(i).plus(-HALF_MEDIAN_M, 0), west, -1);
    }
    int last = northbound.size() - 1;
    crossover(northbound.get(last), southbound.get(0));
    crossover(southbound.get(last), northbound.get(0));
  }

  private static Pt near(List<Pt> line, Pt p) {
    return line.get(Curves.nearest(line, p));
  }

  /** Off-ramp and on-ramp of one roadway; {@code east} is 1 when its traffic runs north. */
  private void diamond(List<Pt> roadway, Pt gate, Pt node, int east) {
    Pt off = near(roadway, gate.plus(0, -RAMP_M * east));
    Pt on = near(roadway, gate.plus(0, RAMP_M * east));
    ramp(off, off.plus(28.0 * east, 190.0 * east), off.plus(100.0 * east, 390.0 * east), node);
    ramp(node, on.plus(100.0 * east, -390.0 * east), on.plus(28.0 * east, -190.0 * east), on);
  }

  private void ramp(Pt... waypoints) {
    List<Pt> points = Curves.through(List.of(waypoints), 30);
    drafts.add(new Draft(Kind.RAMP, "", "", RoadClass.COLLECTOR, points, true));
  }

  /** Where agency trucks may turn round at the county line. */
  private void crossover(Pt a, Pt b) {
    drafts.add(Draft.twoWay(Kind.STREET, "", RoadClass.LOCAL, List.of(a, b)));
  }
}
