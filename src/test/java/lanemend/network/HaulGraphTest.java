package lanemend.network;

import static lanemend.network.TestRoads.EAST;
import static lanemend.network.TestRoads.GROUND;
import static lanemend.network.TestRoads.NORTH;
import static lanemend.network.TestRoads.assemble;
import static lanemend.network.TestRoads.atLevel;
import static lanemend.network.TestRoads.line;
import static lanemend.network.TestRoads.oneWay;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class HaulGraphTest {
  private static HaulGraph graph(Assembly roads) {
    return HaulGraph.build(roads.network(), TestRoads.rules(roads, 60));
  }

  private static HaulPlace at(String label, double x, double y) {
    return HaulPlace.near(label, EAST + x, NORTH + y);
  }

  /** Kilometres of the drawing from the first place to the second. */
  private static double km(HaulGraph graph, HaulPlace from, HaulPlace to) {
    return graph.between(List.of(from, to)).km()[0][1] / GROUND;
  }

  @Test
  void minutesAreKilometresAtTheLegalSpeed() {
    HaulGraph graph = graph(assemble(line("r:1", "SR 1", 0, 0, 0, 12_000)));

    HaulMatrix haul =
        graph.between(
            List.of(HaulPlace.on("yard", "SR 1", 1_000), HaulPlace.on("plant", "SR 1", 11_000)));

    assertEquals(10, haul.km()[0][1], 1e-9);
    assertEquals(10, haul.minutes()[0][1], 1e-9);
    assertEquals(0, haul.minutes()[1][1], 0);
  }

  @Test
  void speedChangesWithinALinkAreFollowed() {
    SourceLine slow = line("r:1", "SR 1", 0, 0, 0, 3_000);
    slow =
        new SourceLine(
            slow.origin(),
            slow.routeNames(),
            "",
            slow.roadClass(),
            slow.longitude(),
            slow.latitude(),
            false,
            0,
            Map.of("posted_speed_kmh", "30"));
    HaulGraph graph = graph(assemble(slow, line("r:2", "SR 1", 0, 3_000, 0, 9_000)));

    double minutes =
        graph.between(List.of(at("a", 0, 0), at("b", 0, 9_000))).minutes()[0][1] / GROUND;

    assertEquals(3 * 2 + 6, minutes, 1e-6);
  }

  @Test
  void roadsOnOneLevelMeetWhereTheyCross() {
    SourceLine north = line("r:1", "SR 1", 0, -5_000, 0, 5_000);
    SourceLine east = line("r:2", "SR 2", -5_000, 0, 5_000, 0);

    assertEquals(8, km(graph(assemble(north, east)), at("a", 0, -4_000), at("b", 4_000, 0)), 1e-6);
  }

  @Test
  void aRoadThatPassesOverDoesNotMeet() {
    SourceLine north = line("r:1", "SR 1", 0, -5_000, 0, 5_000);
    SourceLine over = atLevel(1, line("r:2", "SR 2", -5_000, 0, 5_000, 0));
    SourceLine ramp = line("r:3", "", 0, 3_000, 3_000, 0);

    HaulGraph apart = graph(assemble(north, over));
    assertEquals(Double.POSITIVE_INFINITY, km(apart, at("a", 0, -4_000), at("b", 4_000, 0)));
    assertEquals(2, apart.report().parts());
    // A ramp whose end lies on the bridge's line but on the ground does not help either...
    assertEquals(
        Double.POSITIVE_INFINITY,
        km(graph(assemble(north, over, ramp)), at("a", 0, -4_000), at("b", 4_000, 0)));
    // ... until it climbs to it by a last line on the bridge's level, which shares its end.
    SourceLine low = line("r:3", "", 0, 3_000, 2_990, 10);
    SourceLine top = atLevel(1, line("r:4", "", 2_990, 10, 3_000, 0));
    assertEquals(
        7 + Math.hypot(3, 3) + 1,
        km(graph(assemble(north, over, low, top)), at("a", 0, -4_000), at("b", 4_000, 0)),
        1e-5);
  }

  @Test
  void anEndOnTheMiddleOfARoadIsAJunction() {
    SourceLine through = line("r:1", "SR 1", 0, 0, 0, 4_000);
    SourceLine side = line("r:2", "CR 7", 0.3, 1_000, 2_000, 1_000);

    assertEquals(
        3, km(graph(assemble(through, side)), at("a", 0, 2_000), at("b", 2_000, 1_000)), 1e-3);
  }

  @Test
  void oneWayStreetsMakeDetours() {
    SourceLine direct = oneWay(line("r:1", "A", 0, 0, 0, 1_000));
    SourceLine round = line("r:2", "B", 0, 0, 2_000, 500, 0, 1_000);
    HaulGraph graph = graph(assemble(direct, round));
    HaulPlace south = at("south", -1, 0);
    HaulPlace north = at("north", -1, 1_000);

    assertEquals(1, km(graph, south, north), 1e-6);
    assertEquals(2 * Math.hypot(2, 0.5), km(graph, north, south), 1e-6);
    List<double[]> way = graph.path(north, south);
    assertEquals(3, way.size());
    assertEquals(EAST + 2_000, way.get(1)[0], 1e-3);
  }

  @Test
  void twoPlacesOnOneOneWayLinkAreADetourApartBackwards() {
    SourceLine direct = oneWay(line("r:1", "A", 0, 0, 0, 1_000));
    SourceLine round = line("r:2", "B", 0, 0, 2_000, 500, 0, 1_000);
    HaulGraph graph = graph(assemble(direct, round));
    HaulPlace first = HaulPlace.on("first", "A", 200);
    HaulPlace second = HaulPlace.on("second", "A", 700);

    double ring = 1 + 2 * Math.hypot(2, 0.5);
    assertEquals(0.5, graph.between(List.of(first, second)).km()[0][1], 1e-9);
    assertEquals(ring - 0.5 / GROUND, km(graph, second, first), 1e-6);
    assertEquals(0, km(graph, first, HaulPlace.on("same", "A", 200)), 0);
    assertEquals(0, km(graph, HaulPlace.on("same", "A", 200), first), 0);
  }

  @Test
  void routesThatRunTogetherCostNothingExtra() {
    Assembly roads =
        assemble(
            line("r:1", "SR 1", 0, 0, 0, 1_000),
            line("r:2", "SR 1;SR 2", 0, 1_000, 30, 1_500, 0, 2_000),
            line("r:3", "SR 2", 0, 2_000, 800, 2_600));
    HaulGraph graph = graph(roads);

    assertEquals(
        1 + 2 * Math.hypot(0.03, 0.5) + 1, km(graph, at("a", 0, 0), at("b", 800, 2_600)), 1e-6);
    assertEquals(4, graph.report().nodes());
    assertEquals(1, graph.report().parts());
  }

  @Test
  void theReportNamesWhatCannotBeReached() {
    GraphReport report =
        graph(
                assemble(
                    line("r:1", "SR 1", 0, 0, 0, 9_000),
                    oneWay(line("r:2", "Dead End", 0, 0, 0, -1_000)),
                    line("r:3", "Island Road", 5_000, 0, 5_000, 1_000)))
            .report();

    assertEquals(2, report.parts());
    assertEquals(10 / 11.0, report.largestShare(), 1e-6);
    assertEquals(List.of("Island Road"), report.unreachableRoutes());
    assertEquals(1, report.oneWayTrapKm() / GROUND, 1e-6);
  }

  @Test
  void badPlacesAreRefused() {
    HaulGraph graph = graph(assemble(line("r:1", "SR 1", 0, 0, 0, 9_000)));
    assertEquals(
        "plant: no route SR 9",
        assertThrows(
                IllegalArgumentException.class,
                () -> graph.between(List.of(HaulPlace.on("plant", "SR 9", 5))))
            .getMessage());
  }

  /** Floyd and Warshall's all-pairs method as the oracle. */
  @Test
  void fastestWaysAgreeWithFloydWarshall() {
    Random random = new Random(17);
    for (int trial = 0; trial < 60; trial++) {
      int n = 4 + random.nextInt(9);
      double[][] at = new double[n][];
      for (int i = 0; i < n; i++) {
        at[i] = new double[] {10_000 * random.nextDouble(), 10_000 * random.nextDouble()};
      }
      double[][] expected = new double[n][n];
      for (int i = 0; i < n; i++) {
        Arrays.fill(expected[i], Double.POSITIVE_INFINITY);
        expected[i][i] = 0;
      }
      List<SourceLine> lines = new ArrayList<>();
      for (int e = 0; e < 2 * n; e++) {
        int a = random.nextInt(n);
        int b = random.nextInt(n);
        if (a == b) {
          continue;
        }
        boolean single = random.nextInt(3) == 0;
        // Each line on a level of its own: they meet at shared ends only.
        SourceLine l = atLevel(e, line("r:" + e, "", at[a][0], at[a][1], at[b][0], at[b][1]));
        lines.add(single ? oneWay(l) : l);
        double[] p = TestRoads.CRS.project(l.longitude()[0], l.latitude()[0]);
        double[] q = TestRoads.CRS.project(l.longitude()[1], l.latitude()[1]);
        double length = TestRoads.CRS.groundM(p[0], p[1], q[0], q[1]) / 1000;
        expected[a][b] = Math.min(expected[a][b], length);
        expected[b][a] = single ? expected[b][a] : Math.min(expected[b][a], length);
      }
      for (int k = 0; k < n; k++) {
        for (int i = 0; i < n; i++) {
          for (int j = 0; j < n; j++) {
            expected[i][j] = Math.min(expected[i][j], expected[i][k] + expected[k][j]);
          }
        }
      }
      compare(graph(RouteAssembler.assemble(lines, TestRoads.CRS)), lines, at, expected);
    }
  }

  private static void compare(
      HaulGraph graph, List<SourceLine> lines, double[][] at, double[][] expected) {
    List<Integer> used = new ArrayList<>();
    List<HaulPlace> places = new ArrayList<>();
    for (int i = 0; i < at.length; i++) {
      double[] p = TestRoads.CRS.unproject(EAST + at[i][0], NORTH + at[i][1]);
      boolean touched =
          lines.stream().anyMatch(l -> l.longitude()[0] == p[0] || l.longitude()[1] == p[0]);
      if (touched) {
        used.add(i);
        places.add(at("node " + i, at[i][0], at[i][1]));
      }
    }
    HaulMatrix found = graph.between(places);
    for (int i = 0; i < used.size(); i++) {
      for (int j = 0; j < used.size(); j++) {
        double km = expected[used.get(i)][used.get(j)];
        if (Double.isInfinite(km)) {
          assertEquals(km, found.km()[i][j]);
        } else {
          assertEquals(km, found.km()[i][j], 1e-5);
          assertEquals(km, found.minutes()[i][j], 1e-5, "60 km/h: a minute a kilometre");
        }
      }
    }
  }

  /** A county of ten thousand links and four hundred places, in seconds. */
  @Test
  void aCountyIsFast() {
    List<SourceLine> lines = new ArrayList<>();
    int size = 71;
    for (int i = 0; i < size; i++) {
      double[] north = new double[2 * size];
      double[] east = new double[2 * size];
      for (int k = 0; k < size; k++) {
        north[2 * k] = 800 * i;
        north[2 * k + 1] = 800 * k + 3;
        east[2 * k] = 800 * k + 5;
        east[2 * k + 1] = 800 * i;
      }
      lines.add(line("n" + i, "N " + i, north));
      lines.add(line("e" + i, "E " + i, east));
    }
    Assembly roads = RouteAssembler.assemble(lines, TestRoads.CRS);
    TravelRules rules = TestRoads.rules(roads, 80);
    long start = System.nanoTime();
    HaulGraph graph = HaulGraph.build(roads.network(), rules);
    long built = System.nanoTime();
    List<HaulPlace> places = new ArrayList<>();
    Random random = new Random(2);
    for (int i = 0; i < 400; i++) {
      places.add(at("p" + i, 56_000 * random.nextDouble(), 56_000 * random.nextDouble()));
    }
    HaulMatrix haul = graph.between(places);
    long done = System.nanoTime();

    System.out.printf(
        "county of %d links: built in %.2f s, 400 places in %.2f s%n",
        graph.report().links(), (built - start) / 1e9, (done - built) / 1e9);
    assertTrue(graph.report().links() > 9_000, "links " + graph.report().links());
    assertTrue(haul.km()[0][1] > 0 && Double.isFinite(haul.km()[0][1]));
    assertTrue((done - start) / 1e9 < 60, "a few seconds, more on a busy machine");
  }
}
