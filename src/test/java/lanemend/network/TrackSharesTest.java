package lanemend.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import lanemend.exchange.ClassMap;
import lanemend.exchange.FieldMap;
import lanemend.exchange.RoadReader;
import lanemend.exchange.RoadSource;
import lanemend.exchange.SpeedUnit;
import lanemend.inventory.AttributeRuns;
import lanemend.inventory.RoadAttributes;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Simulated patrols on the sample county, where the road of every fix is known. More of them, and
 * on real roads, by {@code -Pbench ... track} (docs/method.md has the figures).
 */
class TrackSharesTest {
  private static Network network;
  private static HaulGraph graph;

  @BeforeAll
  static void given() {
    RoadSource roads =
        new RoadSource(
            Path.of("sample-network/roads.geojson"),
            "",
            "",
            SpeedUnit.MPH,
            FieldMap.parse(
                List.of("class=road_class", "speed=posted_mph", "lane_width_ft=lane_ft")),
            ClassMap.parse(List.of()));
    Assembly assembly =
        RouteAssembler.assemble(RoadReader.read(roads).rows(), ProjectedCrs.utmFor(-107.5, 42));
    network = assembly.network();
    graph = HaulGraph.build(network, new RoadAttributes(AttributeRuns.of(assembly)));
  }

  /** Floors are a little below what was measured; the nearest road alone is the peer. */
  @ParameterizedTest
  @CsvSource({"3, 1, 0.99", "8, 1, 0.99", "20, 1, 0.97", "5, 5, 0.98", "12, 15, 0.95"})
  void fixesAreOnTheRoadTheyWereTakenOn(double errorM, double secondsApart, double floor) {
    TrackMatcher matcher = new TrackMatcher(network, graph);
    SimulatedPatrol.Score sum = new SimulatedPatrol.Score(0, 0, 0, 0, 0, 0);
    double nearest = 0;
    for (int seed = 1; seed <= 5; seed++) {
      SimulatedPatrol patrol = new SimulatedPatrol(graph, 10_000, secondsApart, errorM, 20, seed);
      sum = sum.plus(patrol.score(matcher.match(patrol.fixes, TrackSettings.STANDARD)));
      nearest += patrol.nearestShare() * patrol.fixes.size();
    }
    assertTrue(sum.rightShare() >= floor, sum.toString());
    assertTrue(sum.rightShare() >= nearest / sum.fixes() - 0.01, sum + " nearest " + nearest);
  }

  /** The haul graph's own search, checked against JGraphT elsewhere, at one speed for all. */
  @Test
  void nearWaysAreThoseOfTheHaulGraph() {
    TravelRules flat = new OneSpeed(graph, network);
    HaulGraph even = HaulGraph.build(network, flat);
    Random random = new Random(3);
    NearWays ways = new NearWays(even.onward(), false);
    NearWays back = new NearWays(even.backward(), true);
    List<Route> routes = List.copyOf(network.routes().values());
    for (int i = 0; i < 200; i++) {
      HaulPlace from = place(routes, random);
      HaulPlace to = place(routes, random);
      double km = even.between(List.of(from), List.of(to)).km()[0][0];
      ways.search(even.locate(from), 1e9);
      assertEquals(1_000 * km, ways.metersTo(even.locate(to)), 1e-3);
      // Against the traffic from the goal it is the same way
      back.search(even.locate(to), 1e9);
      assertEquals(1_000 * km, back.metersTo(even.locate(from)), 1e-3);
    }
  }

  private static HaulPlace place(List<Route> routes, Random random) {
    Route route = routes.get(random.nextInt(routes.size()));
    return HaulPlace.on("p", route.id(), random.nextDouble() * route.lengthM());
  }

  /** One-way and level as the roads have them, 60 km/h everywhere. */
  private record OneSpeed(HaulGraph graph, Network network) implements TravelRules {
    @Override
    public double speedKmh(Route route, double alongM) {
      return 60;
    }

    @Override
    public double speedKmh(Connector connector) {
      return 60;
    }

    @Override
    public boolean oneWay(Route route, double alongM) {
      return route.divided();
    }

    @Override
    public boolean oneWay(Connector connector) {
      return false;
    }

    @Override
    public int level(Route route, double alongM) {
      return 0;
    }

    @Override
    public int level(Connector connector) {
      return 0;
    }

    @Override
    public double[] breaks(Route route) {
      return new double[0];
    }
  }
}
