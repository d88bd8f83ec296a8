package lanemend.sample;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import lanemend.network.RoadClass;
import lanemend.sample.Draft.Kind;
import lanemend.sample.Roads.Built;
import lanemend.sample.Roads.Stretch;

/**
 * One line as the road file holds it: short, drawn whichever way, in no order.
 *
 * @param route names of the routes on it with {@code ;} between, or empty
 * @param oneWay {@code no}, {@code yes}, or {@code -1} where traffic runs against the drawing
 */
record RoadLine(
    String route,
    String direction,
    RoadClass roadClass,
    RoadFacts facts,
    String oneWay,
    int level,
    List<LonLat> shape) {

  private static final double LONGEST_M = 2_300;

  /** Cuts every road at junctions, where a fact or level changes, and here and there between. */
  static List<RoadLine> cut(Roads roads, Dice dice) {
    List<RoadLine> out = new ArrayList<>();
    for (Built b : roads.built()) {
      boolean main = b.draft().name().equals(StateRoads.MAIN);
      for (Stretch s : b.stretches()) {
        int from = s.from();
        double length = 0;
        double longest = dice.uniform(500, LONGEST_M);
        for (int i = s.from() + 1; i <= s.to(); i++) {
          length += b.draft().points().get(i - 1).to(b.draft().points().get(i));
          boolean end = i == s.to();
          boolean node = roads.welded().isNode(b.draft().points().get(i)) && cutHere(b, dice);
          boolean sharedEnd = main && (i == roads.shared().from() || i == roads.shared().to());
          boolean ramp = !end && b.level()[i] != b.level()[i - 1];
          if (end || node || sharedEnd || ramp || length > longest) {
            out.add(line(roads, b, s.facts(), from, i, dice));
            from = i;
            length = 0;
            longest = dice.uniform(500, LONGEST_M);
          }
        }
      }
    }
    for (int i = out.size() - 1; i > 0; i--) {
      Collections.swap(out, i, dice.below(i + 1));
    }
    return out;
  }

  /** Most files break lines at junctions; not all do. */
  private static boolean cutHere(Built b, Dice dice) {
    return dice.chance(b.draft().kind() == Kind.FREEWAY ? 1 : 0.9);
  }

  private static RoadLine line(Roads roads, Built b, RoadFacts facts, int from, int to, Dice dice) {
    Draft d = b.draft();
    List<LonLat> shape = new ArrayList<>(b.shape().subList(from, to + 1));
    boolean turned = dice.chance(d.oneWay() ? 0.2 : 0.5);
    if (turned) {
      Collections.reverse(shape);
    }
    boolean shared =
        d.name().equals(StateRoads.MAIN)
            && from >= roads.shared().from()
            && to <= roads.shared().to();
    return new RoadLine(
        shared ? StateRoads.MAIN + ";" + StateRoads.SHARING : d.name(),
        d.direction(),
        d.roadClass(),
        facts,
        !d.oneWay() ? "no" : turned ? "-1" : "yes",
        b.level()[from],
        List.copyOf(shape));
  }
}
