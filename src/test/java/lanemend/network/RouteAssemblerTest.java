package lanemend.network;

import static lanemend.network.TestRoads.GROUND;
import static lanemend.network.TestRoads.assemble;
import static lanemend.network.TestRoads.atLevel;
import static lanemend.network.TestRoads.ends;
import static lanemend.network.TestRoads.heading;
import static lanemend.network.TestRoads.line;
import static lanemend.network.TestRoads.oneWay;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

class RouteAssemblerTest {
  private static Route route(Assembly assembly, String id) {
    return assembly.network().route(id).orElseThrow();
  }

  private static double length(Route route) {
    return route.lengthM() / GROUND;
  }

  @Test
  void shortLinesInNoOrderBecomeOneRoadFromSouthToNorth() {
    Assembly made =
        assemble(
            line("r:1", "SR 1", 0, 2000, 0, 3000),
            line("r:2", "SR 1", 0, 1000, 0, 0),
            line("r:3", "SR 1", 0, 2000, 50, 1500, 0, 1000));

    Route road = route(made, "SR 1");
    assertEquals(1, road.parts().size());
    assertArrayEquals(new double[] {0, 0, 0, 3000}, ends(road), 1e-6);
    assertEquals(2000 + 2 * Math.hypot(50, 500), length(road), 0.01);
    assertEquals(List.of(), made.notes());
  }

  @Test
  void anEastWestRoadStartsInTheWest() {
    Assembly made = assemble(line("r:1", "SR 2", 900, 0, 0, 200));

    assertArrayEquals(new double[] {0, 200, 900, 0}, ends(route(made, "SR 2")), 1e-6);
  }

  @Test
  void oneWayTrafficOrientsTheRoad() {
    Assembly made =
        assemble(oneWay(line("r:1", "SR 3", 0, 1000, 0, 0)), line("r:2", "SR 3", 0, 1000, 0, 1800));

    assertArrayEquals(new double[] {0, 1800, 0, 0}, ends(route(made, "SR 3")), 1e-6);
    assertEquals("no", made.runs().get(0).attributes().get("one_way"));
    assertEquals("yes", made.runs().get(1).attributes().get("one_way"));
    assertEquals(800 * GROUND, made.runs().get(1).fromAlongM(), 0.01);
  }

  @Test
  void endsThatNearlyTouchAreOnePlaceAndRepeatedVerticesGo() {
    Assembly made =
        assemble(
            line("r:1", "SR 4", 0, 0, 0, 500, 0, 500, 0, 1000),
            line("r:2", "SR 4", 0.3, 1000.2, 0, 2000));

    Route road = route(made, "SR 4");
    assertEquals(1, road.parts().size());
    assertEquals(4, road.parts().get(0).size());
    assertEquals(List.of(), made.notes());
  }

  @Test
  void endsAFewMetresApartAreJoinedByAStraightAndSaid() {
    Assembly made =
        assemble(line("r:1", "SR 5", 0, 0, 0, 1000), line("r:2", "SR 5", 0, 1009, 0, 2000));

    assertEquals(1, route(made, "SR 5").parts().size());
    assertEquals(2000, length(route(made, "SR 5")), 0.01);
    assertEquals(
        "its end stops 9.0 m short of r:2; joined by a straight", made.notes().get(0).text());
    assertEquals(2, made.runs().size());
  }

  @Test
  void aGapStaysAGapAndIsCountedStraight() {
    Assembly made =
        assemble(line("r:1", "SR 6", 0, 0, 0, 1000), line("r:2", "SR 6", 300, 1400, 300, 2000));

    Route road = route(made, "SR 6");
    assertEquals(2, road.parts().size());
    assertEquals(1500, road.parts().get(1).fromAlong() / GROUND, 0.01);
    assertEquals(2100, length(road), 0.01);
    assertEquals(
        "no line joins its stretches at 1.000 km along: a gap of 500 m, counted straight",
        made.notes().get(0).text());
  }

  @Test
  void aRoundaboutDrawnAsOneRingIsPassedOnItsRightSide() {
    // Counter-clockwise ring of radius 20 about (0, 1000), first vertex in the east.
    Assembly made =
        assemble(
            line("r:1", "SR 8", 0, 0, 0, 980),
            line("r:2", "SR 8", 0, 1020, 0, 2000),
            oneWay(ring("r:3", "SR 8", 0, 1000, 20)));

    Route road = route(made, "SR 8");
    assertEquals(1, road.parts().size());
    // Half of a 24-sided ring.
    double half = 12 * 2 * 20 * Math.sin(Math.PI / 24);
    assertEquals(980 + half + 980, length(road), 0.05);
    double[] middle = Piece.at(road.parts().get(0), (980 + half / 2) * GROUND);
    assertEquals(20, middle[0] - TestRoads.EAST, 0.05, "traffic keeps right: east of the island");
    // The other half of the ring is driven on, not located on.
    assertEquals(1, made.network().connectors().size());
    assertTrue(made.notes().get(0).text().contains("short arms of junctions became connectors"));
  }

  @Test
  void aRoundaboutWithoutTheNameIsPassedThrough() {
    Assembly made =
        assemble(
            line("r:1", "SR 8", 0, 0, 0, 980),
            line("r:2", "SR 8", 0, 1020, 0, 2000),
            oneWay(ring("r:3", "", 0, 1000, 20)));

    assertEquals(1, route(made, "SR 8").parts().size());
    assertEquals(
        "it stops, and goes on 40 m away as r:2; joined over r:3 without its name",
        made.notes().get(0).text());
    assertEquals(1, made.network().connectors().size());
  }

  private static SourceLine ring(String origin, String route, double x, double y, double radius) {
    double[] xy = new double[50];
    for (int i = 0; i <= 24; i++) {
      xy[2 * i] = x + radius * Math.cos(2 * Math.PI * (i % 24) / 24);
      xy[2 * i + 1] = y + radius * Math.sin(2 * Math.PI * (i % 24) / 24);
    }
    return line(origin, route, xy);
  }

  @Test
  void aDividedStretchGivesAnOppositeRoadwayWithTheMainOnesMileposts() {
    Assembly made =
        assemble(
            line("r:1", "US 10", 0, 0, 0, 1000),
            oneWay(line("r:2", "US 10", 0, 1000, 15, 1050, 15, 2950, 0, 3000)),
            oneWay(line("r:3", "US 10", 0, 3000, -15, 2950, -15, 1050, 0, 1000)),
            line("r:4", "US 10", 0, 3000, 0, 4000));

    Route main = route(made, "US 10");
    Route opposite = route(made, "US 10 opposite");
    assertEquals(1, main.parts().size());
    assertTrue(length(main) > 4000);
    assertEquals("opposite", opposite.direction());
    assertArrayEquals(new double[] {0, 3000, 0, 1000}, ends(opposite), 1e-6);
    // Half-way along, both roadways are at y = 2000: the same milepost.
    assertEquals(
        main.mileposts().at(main.lengthM() / 2).miles(),
        opposite.mileposts().at(opposite.lengthM() / 2).miles(),
        1e-3);
    assertTrue(opposite.mileposts().at(0).miles() > opposite.mileposts().at(1000).miles());
  }

  @Test
  void signedDirectionsAreRoadwaysOfTheirOwn() {
    Assembly made =
        assemble(
            heading("NB", oneWay(line("r:1", "I 90", 15, 0, 15, 2000))),
            heading("SB", oneWay(line("r:2", "I 90", -15, 2000, -15, 0))));

    assertEquals(Set.of("I 90 NB", "I 90 SB"), made.network().routes().keySet());
    assertEquals(2, made.network().named("I 90").size());
    assertArrayEquals(new double[] {-15, 2000, -15, 0}, ends(route(made, "I 90 SB")), 1e-6);
  }

  @Test
  void aSpurBecomesABranchAndIsSaid() {
    Assembly made =
        assemble(
            line("r:1", "CR 5", 0, 0, 0, 1000),
            line("r:2", "CR 5", 0, 1000, 0, 3000),
            line("r:3", "CR 5", 0, 1000, 400, 1000));

    assertEquals(3000, length(route(made, "CR 5")), 0.01);
    assertEquals(400, length(route(made, "CR 5 branch 1")), 0.01);
    assertEquals("r:3", made.notes().get(0).origin());
  }

  @Test
  void anUnsplitRoadIsCutWhereABranchTouchesItsMiddleUnlessItPassesOver() {
    SourceLine through = line("r:1", "CR 6", 0, 0, 0, 3000);
    SourceLine leg = line("r:2", "CR 6", 0, 2000, 1800, 2000);

    Assembly joined = assemble(through, leg);
    Assembly over = assemble(through, atLevel(1, leg));

    // On one level the longest way runs up and off east; the rest is a branch.
    assertEquals(3800, length(route(joined, "CR 6")), 0.01);
    assertEquals(1000, length(route(joined, "CR 6 branch 1")), 0.01);
    assertEquals(2, route(over, "CR 6").parts().size());
  }

  @Test
  void routesThatRunTogetherEachGetTheSharedLine() {
    Assembly made =
        assemble(
            line("r:1", "SR 1", 0, 0, 0, 1000),
            line("r:2", "SR 1;SR 2", 0, 1000, 0, 2000),
            line("r:3", "SR 2", 0, 2000, 800, 2600));

    assertEquals(2000, length(route(made, "SR 1")), 0.01);
    assertEquals(2000, length(route(made, "SR 2")), 0.01);
    assertEquals(4, made.runs().size());
  }

  @Test
  void loopsAreRoadsToo() {
    Assembly ring = assemble(ring("r:1", "Lake Loop", 0, 0, 500));
    Assembly lollipop =
        assemble(line("r:1", "CR 9", 0, 0, 0, 800, 300, 1100, 0, 1400, -300, 1100, 0, 800));

    assertEquals(24 * 2 * 500 * Math.sin(Math.PI / 24), length(route(ring, "Lake Loop")), 0.05);
    assertEquals(800 + 4 * Math.hypot(300, 300), length(route(lollipop, "CR 9")), 0.01);
  }

  @Test
  void badLinesAreNamedAndTheRestIsUsed() {
    SourceLine backwards =
        new SourceLine(
            "r:4",
            List.of("SR 1"),
            "",
            RoadClass.LOCAL,
            new double[] {1, 2},
            new double[] {45, 95},
            false,
            0,
            Map.of());

    Assembly made =
        assemble(
            line("r:1", "SR 1", 0, 0, 0, 1000),
            line("r:2", "SR 1", 5, 5, 5, 5),
            line("r:3", "SR 1", 0, 1000, 0, 0),
            backwards);

    assertEquals(1000, length(route(made, "SR 1")), 0.01);
    assertEquals(
        Set.of("r:2", "r:3", "r:4"),
        new HashSet<>(made.notes().stream().map(AssemblyNote::origin).toList()));
  }

  @Test
  void madeUpNamesNeverHideAFilesOwn() {
    Assembly made =
        assemble(
            line("r:1", "CR 5", 0, 0, 0, 3000),
            line("r:2", "CR 5", 0, 1000, 400, 1000),
            line("r:3", "CR 5 branch 1", 5000, 0, 5000, 700));

    assertEquals(700, length(route(made, "CR 5 branch 1")), 0.01);
    assertEquals(400, length(route(made, "CR 5 branch 1 (2)")), 0.01);
  }

  @Test
  void theOrderOfTheFileDoesNotMatterAndNothingIsLost() {
    List<SourceLine> lines = tangle(new Random(5));
    Assembly first = RouteAssembler.assemble(lines, TestRoads.CRS);
    String expected = TestRoads.describe(first);

    for (int seed = 1; seed <= 8; seed++) {
      Assembly again = RouteAssembler.assemble(TestRoads.shuffled(lines, seed), TestRoads.CRS);
      assertEquals(expected, TestRoads.describe(again), "seed " + seed);
    }

    double drawn = 0;
    for (SourceLine l : lines) {
      for (int i = 1; i < l.longitude().length; i++) {
        double[] a = TestRoads.CRS.project(l.longitude()[i - 1], l.latitude()[i - 1]);
        double[] b = TestRoads.CRS.project(l.longitude()[i], l.latitude()[i]);
        drawn += TestRoads.CRS.groundM(a[0], a[1], b[0], b[1]);
      }
    }
    double kept = 0;
    for (LineRun run : first.runs()) {
      kept += run.toAlongM() - run.fromAlongM();
    }
    for (Connector connector : first.network().connectors()) {
      kept += connector.line().toAlong();
    }
    assertEquals(drawn, kept, 1, "metres drawn and metres kept");
  }

  /** Winding roads in short lines, some turned round, with a divided stretch, spurs and a ring. */
  private static List<SourceLine> tangle(Random random) {
    List<SourceLine> lines = new ArrayList<>();
    for (int road = 0; road < 6; road++) {
      double x = 20_000 * road;
      double y = 0;
      for (int i = 0; i < 40; i++) {
        double nx = x + 150 * random.nextGaussian();
        double ny = y + 300 + 200 * random.nextDouble();
        String origin = "road " + road + " line " + i;
        double mx = (x + nx) / 2 + 10;
        double my = (y + ny) / 2;
        SourceLine whole =
            random.nextBoolean()
                ? line(origin, "CR " + road, x, y, mx, my, nx, ny)
                : line(origin, "CR " + road, nx, ny, mx, my, x, y);
        if (i >= 10 && i < 20) {
          lines.add(oneWay(line(origin + " up", "CR " + road, x, y, mx + 10, my, nx, ny)));
          lines.add(oneWay(line(origin + " down", "CR " + road, nx, ny, mx - 20, my, x, y)));
        } else if (i != 30) {
          lines.add(whole);
        }
        if (i == 25) {
          lines.add(line(origin + " spur", "CR " + road, x, y, x + 700, y + 90));
        }
        x = nx;
        y = ny;
      }
    }
    return lines;
  }
}
