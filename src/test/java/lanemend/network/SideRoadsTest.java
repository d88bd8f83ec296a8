package lanemend.network;

import static lanemend.network.TestRoads.assemble;
import static lanemend.network.TestRoads.atLevel;
import static lanemend.network.TestRoads.line;
import static lanemend.network.TestRoads.oneWay;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;

/** Where traffic comes onto a road that has not driven along it. */
class SideRoadsTest {
  private static List<String> onto(String route, SourceLine... lines) {
    Assembly roads = assemble(lines);
    List<String> said = new ArrayList<>();
    for (SideRoad r :
        HaulGraph.build(roads.network(), TestRoads.rules(roads, 60)).sideRoads(route)) {
      said.add(
          r.name()
              + " at "
              + Math.round(r.alongM() / TestRoads.GROUND)
              + (r.left() ? " left" : "")
              + (r.right() ? " right" : ""));
    }
    return said;
  }

  private static final SourceLine NORTHWARD = line("r:1", "SR 1", 0, 0, 0, 6_000);

  @Test
  void aRoadThatCrossesHasTwoMouthsAndOneThatEndsThereHasOne() {
    assertEquals(
        List.of("CR 2 at 1000 left right", "CR 3 at 2000 left", "CR 4 at 3000 right"),
        onto(
            "SR 1",
            NORTHWARD,
            line("r:2", "CR 2", -800, 1_000, 800, 1_000),
            line("r:3", "CR 3", 0, 2_000, -800, 2_300),
            line("r:4", "CR 4", 900, 2_500, 0, 3_000)));
  }

  @Test
  void twoRoutesOnOneRoadAreOneSideRoadAndOneThatRunsWithTheRouteIsNone() {
    // Given CR 5 and CR 6 along one line, and CR 7 along the route itself for a mile
    assertEquals(
        List.of("CR 5, CR 6 at 1000 left"),
        onto(
            "SR 1",
            line("r:1", "SR 1;CR 7", 0, 0, 0, 1_600),
            line("r:1b", "SR 1", 0, 1_600, 0, 6_000),
            line("r:2", "CR 5;CR 6", 0, 1_000, -900, 1_000)));
  }

  @Test
  void whatPassesOverLeadsAwayOnlyOrCarriesTheRoadOnIsNone() {
    assertEquals(
        List.of("on at 4000 right"),
        onto(
            "SR 1",
            NORTHWARD,
            atLevel(1, line("r:2", "CR 2", -800, 1_000, 800, 1_000)),
            oneWay(line("r:3", "off", 0, 2_000, 200, 2_600)),
            oneWay(line("r:4", "on", 200, 3_400, 0, 4_000)),
            line("r:5", "CR 9", 0, 6_000, 100, 9_000)));
  }

  @Test
  void aRoadAcrossTheEndOfTheRouteComesFromBothSides() {
    assertEquals(
        List.of("CR 8 at 6000 left right"),
        onto("SR 1", NORTHWARD, line("r:8", "CR 8", -900, 6_000, 900, 6_000)));
  }

  /** The side of a point beside a straight road is JTS's orientation of the three points. */
  @Test
  void sidesAgreeWithJtsWhateverTheAngles() {
    Random random = new Random(7);
    int left = 0;
    for (int i = 0; i < 200; i++) {
      double way = random.nextDouble() * 2 * Math.PI;
      double off = way + (0.1 + random.nextDouble() * 2.9) * (random.nextBoolean() ? 1 : -1);
      double[] a = {-2_000 * Math.cos(way), -2_000 * Math.sin(way)};
      double[] b = {2_000 * Math.cos(way), 2_000 * Math.sin(way)};
      double[] p = {900 * Math.cos(off), 900 * Math.sin(off)};
      Assembly roads =
          assemble(
              oneWay(line("r:1", "SR 1", a[0], a[1], 0, 0, b[0], b[1])),
              line("r:2", "CR 2", p[0], p[1], 0, 0));
      List<SideRoad> found =
          HaulGraph.build(roads.network(), TestRoads.rules(roads, 60)).sideRoads("SR 1");
      assertEquals(1, found.size(), "angle " + (off - way));
      int side =
          Orientation.index(
              new Coordinate(a[0], a[1]), new Coordinate(b[0], b[1]), new Coordinate(p[0], p[1]));
      assertEquals(side == Orientation.COUNTERCLOCKWISE, found.get(0).left(), "angle " + off);
      assertEquals(side == Orientation.CLOCKWISE, found.get(0).right(), "angle " + off);
      left += found.get(0).left() ? 1 : 0;
    }
    assertEquals(100, left, 40, "both sides were tried");
  }
}
