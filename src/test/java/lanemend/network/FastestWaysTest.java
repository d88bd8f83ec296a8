package lanemend.network;

import static lanemend.network.TestRoads.EAST;
import static lanemend.network.TestRoads.NORTH;
import static lanemend.network.TestRoads.atLevel;
import static lanemend.network.TestRoads.line;
import static lanemend.network.TestRoads.oneWay;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Random roads, a third of them one-way, and random places; JGraphT is the oracle. */
class FastestWaysTest {
  private static final double TOLERANCE = 1e-9;

  private static HaulGraph roads(Random random) {
    int n = 6 + random.nextInt(20);
    double[] x = random.doubles(n, 0, 10_000).toArray();
    double[] y = random.doubles(n, 0, 10_000).toArray();
    List<SourceLine> lines = new ArrayList<>();
    for (int e = 0; e < 2 * n; e++) {
      int a = random.nextInt(n);
      int b = random.nextInt(n);
      if (a != b) {
        // Each line on a level of its own: they meet at shared ends only.
        SourceLine l = atLevel(e, line("r:" + e, "R" + e, x[a], y[a], x[b], y[b]));
        lines.add(random.nextInt(3) == 0 ? oneWay(l) : l);
      }
    }
    Assembly all = RouteAssembler.assemble(lines, TestRoads.CRS);
    return HaulGraph.build(all.network(), TestRoads.rules(all, 60));
  }

  private static List<HaulPlace> places(HaulGraph roads, Random random, int count) {
    List<HaulPlace> places = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      HaulGraph.Link link = roads.links().get(random.nextInt(roads.links().size()));
      double share = List.of(0.0, 1.0, 0.5, random.nextDouble()).get(random.nextInt(4));
      double along = link.fromAlong() + share * (link.toAlong() - link.fromAlong());
      places.add(
          random.nextInt(4) == 0
              ? HaulPlace.near(
                  "p" + i,
                  EAST + 10_000 * random.nextDouble(),
                  NORTH + 10_000 * random.nextDouble())
              : HaulPlace.on("p" + i, roads.routeOf(link), along));
    }
    return places;
  }

  @Test
  void waysEqualThoseOfTheLibrary() {
    Random random = new Random(4);
    for (int trial = 0; trial < 100; trial++) {
      HaulGraph roads = roads(random);
      List<HaulPlace> places = places(roads, random, 30);
      HaulMatrix expected = new JgraphtWays(roads, places).matrix();
      HaulMatrix found = roads.between(places);
      for (int i = 0; i < places.size(); i++) {
        assertArrayEquals(expected.minutes()[i], found.minutes()[i], TOLERANCE);
        assertArrayEquals(expected.km()[i], found.km()[i], TOLERANCE);
      }
    }
  }

  @Test
  void aRectangleIsThatPartOfTheSquare() {
    Random random = new Random(5);
    for (int trial = 0; trial < 50; trial++) {
      HaulGraph roads = roads(random);
      List<HaulPlace> places = places(roads, random, 30);
      HaulMatrix all = roads.between(places);
      // Wide and tall: the tall one is searched against the traffic.
      for (int cut : new int[] {4, 26}) {
        HaulMatrix part = roads.between(places.subList(0, cut), places.subList(cut, 30));
        for (int i = 0; i < cut; i++) {
          for (int j = cut; j < 30; j++) {
            assertEquals(all.minutes()[i][j], part.minutes()[i][j - cut], TOLERANCE);
            assertEquals(all.km()[i][j], part.km()[i][j - cut], TOLERANCE);
          }
        }
      }
    }
  }

  @Test
  void thePathIsAsLongAsTheMatrixSays() {
    Random random = new Random(6);
    for (int trial = 0; trial < 50; trial++) {
      HaulGraph roads = roads(random);
      List<HaulPlace> places = places(roads, random, 8);
      HaulMatrix all = roads.between(places);
      for (int i = 0; i < 8; i++) {
        for (int j = 0; j < 8; j++) {
          List<double[]> way = roads.path(places.get(i), places.get(j));
          double drawn = 0;
          for (int k = 1; k < way.size(); k++) {
            drawn +=
                TestRoads.CRS.groundM(
                    way.get(k - 1)[0], way.get(k - 1)[1], way.get(k)[0], way.get(k)[1]);
          }
          double km = all.km()[i][j];
          assertEquals(Double.isFinite(km) ? km : 0, drawn / 1000, 1e-5, "ground scale varies");
        }
      }
    }
  }
}
