package lanemend.network;

import static lanemend.network.TestRoads.EAST;
import static lanemend.network.TestRoads.GROUND;
import static lanemend.network.TestRoads.NORTH;
import static lanemend.network.TestRoads.assemble;
import static lanemend.network.TestRoads.heading;
import static lanemend.network.TestRoads.line;
import static lanemend.network.TestRoads.oneWay;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.linearref.LengthIndexedLine;

class LocatorTest {
  private static final GeometryFactory JTS = new GeometryFactory();

  private static List<Candidate> at(Network network, double x, double y, SnapHint hint) {
    return new Locator(network).candidates(EAST + x, NORTH + y, 60, hint);
  }

  private static SnapHint driving(double degrees) {
    return new SnapHint(OptionalDouble.of(degrees), Optional.empty(), 5);
  }

  @Test
  void offsetIsSquareToTheRoadRightPositive() {
    Network network = assemble(line("r:1", "SR 1", 0, 0, 0, 1000)).network();

    RoadPoint p = new Locator(network).pointAt("SR 1", 400 * GROUND, 3.5).orElseThrow();

    assertEquals(EAST + 3.5 / GROUND, p.x(), 1e-6);
    assertEquals(NORTH + 400, p.y(), 1e-6);
    assertEquals(0.2487, p.milepost().miles(), 1e-4);
  }

  @Test
  void thereIsNoPlaceOffTheEndsOrInAGap() {
    Network network =
        assemble(line("r:1", "SR 1", 0, 0, 0, 1000), line("r:2", "SR 1", 0, 1400, 0, 2000))
            .network();
    Locator locator = new Locator(network);

    assertTrue(locator.pointAt("SR 1", 1200 * GROUND, 0).isEmpty());
    assertTrue(locator.pointAt("SR 1", 2001 * GROUND, 0).isEmpty());
    assertTrue(locator.pointAt("SR 9", 10, 0).isEmpty());
    assertEquals(2, locator.shape("SR 1", 900, 1500).size());
    assertArrayEquals(
        new double[] {EAST, NORTH + 900 / GROUND}, locator.shape("SR 1", 950, 900).get(0)[1], 1e-6);
  }

  @Test
  void bothRoadwaysOfADividedRoadAreNamedAndHeadingDecides() {
    Network network =
        assemble(
                heading("NB", oneWay(line("r:1", "I 90", 12, 0, 12, 2000))),
                heading("SB", oneWay(line("r:2", "I 90", -12, 2000, -12, 0))))
            .network();

    List<Candidate> middle = at(network, 2, 700, SnapHint.NONE);
    List<Candidate> southbound = at(network, 2, 700, driving(182));

    assertEquals(2, middle.size());
    assertEquals("I 90 NB", middle.get(0).place().routeId());
    assertTrue(middle.get(0).confidence() < 0.95, "not sure: " + middle);
    assertEquals("I 90 SB", southbound.get(0).place().routeId());
    assertEquals(-10 * GROUND, middle.get(0).place().offsetM(), 1e-3);
    assertEquals(1, middle.get(0).confidence() + middle.get(1).confidence(), 1e-9);
  }

  @Test
  void routesThatRunTogetherAreBothNamedAndTheOneDrivenLeads() {
    Network network = assemble(line("r:1", "SR 1;SR 2", 0, 0, 0, 1000)).network();

    List<Candidate> found =
        at(network, 3, 400, new SnapHint(OptionalDouble.empty(), Optional.of("sr 2"), 5));

    assertEquals(2, found.size());
    assertEquals("SR 2", found.get(0).place().routeId());
    assertEquals(20.0 / 21, found.get(0).confidence(), 1e-9);
  }

  @Test
  void aCrossingIsDecidedByHeadingEitherWayOnATwoWayRoad() {
    Network network =
        assemble(line("r:1", "SR 1", 0, -900, 0, 900), line("r:2", "SR 2", -900, 0, 900, 0))
            .network();

    assertEquals("SR 1", at(network, 4, 4, driving(355)).get(0).place().routeId());
    assertEquals("SR 1", at(network, 4, 4, driving(175)).get(0).place().routeId());
    assertEquals("SR 2", at(network, 4, 4, driving(265)).get(0).place().routeId());
  }

  @Test
  void aBendIsOnePlaceButTheLegsOfAHairpinAreTwo() {
    Network bend = assemble(line("r:1", "SR 1", 0, 0, 0, 100, 5, 120, 20, 140, 80, 150)).network();
    Network hairpin = assemble(line("r:1", "SR 1", 0, 0, 0, 300, 20, 300, 20, 0)).network();

    assertEquals(1, at(bend, 25, 105, SnapHint.NONE).size());
    assertEquals(2, at(hairpin, 9, 100, SnapHint.NONE).size());
  }

  @Test
  void nothingWithinReachIsNoCandidate() {
    Network network = assemble(line("r:1", "SR 1", 0, 0, 0, 1000)).network();

    assertEquals(List.of(), at(network, 100, 500, SnapHint.NONE));
  }

  /** JTS LengthIndexedLine as an oracle, in a drawing where along is the projected length. */
  @Test
  void pointsAndFeetAgreeWithJts() {
    Random random = new Random(11);
    double worstPoint = 0;
    double worstFoot = 0;
    for (int trial = 0; trial < 200; trial++) {
      Coordinate[] drawing = randomLine(random, 5 + random.nextInt(60));
      LineString line = JTS.createLineString(drawing);
      LengthIndexedLine oracle = new LengthIndexedLine(line);
      Network network = network(drawing);
      Locator locator = new Locator(network);
      for (int i = 0; i < 100; i++) {
        double along = random.nextDouble() * line.getLength();
        double offset = i % 2 == 0 ? 0 : 20 * random.nextDouble() - 10;
        RoadPoint point = locator.pointAt("R", along, offset).orElseThrow();
        // JTS counts the offset left positive.
        Coordinate expected = oracle.extractPoint(along, -offset);
        worstPoint = Math.max(worstPoint, expected.distance(new Coordinate(point.x(), point.y())));

        Coordinate p =
            new Coordinate(
                point.x() + 30 * random.nextGaussian(), point.y() + 30 * random.nextGaussian());
        Candidate nearest = locator.candidates(p.x, p.y, 5_000, SnapHint.NONE).get(0);
        Coordinate foot = oracle.extractPoint(nearest.place().alongM());
        // Along may differ where the line comes as near twice; the distance may not.
        double byJts = p.distance(oracle.extractPoint(oracle.project(p)));
        worstFoot = Math.max(worstFoot, Math.abs(byJts - nearest.distanceM()));
        worstFoot = Math.max(worstFoot, Math.abs(p.distance(foot) - nearest.distanceM()));
      }
    }
    System.out.println("against JTS: point " + worstPoint + " m, foot " + worstFoot + " m");
    assertTrue(worstPoint < 1e-6, "found " + worstPoint);
    assertTrue(worstFoot < 1e-6, "found " + worstFoot);
  }

  private static Coordinate[] randomLine(Random random, int vertices) {
    Coordinate[] line = new Coordinate[vertices];
    double heading = 2 * Math.PI * random.nextDouble();
    line[0] = new Coordinate(EAST, NORTH);
    for (int i = 1; i < vertices; i++) {
      heading += random.nextGaussian() * 0.9;
      double step = 5 + 120 * random.nextDouble();
      line[i] =
          new Coordinate(
              line[i - 1].x + step * Math.cos(heading), line[i - 1].y + step * Math.sin(heading));
    }
    return line;
  }

  private static Network network(Coordinate[] line) {
    double[] x = new double[line.length];
    double[] y = new double[line.length];
    double[] along = new double[line.length];
    for (int i = 0; i < line.length; i++) {
      x[i] = line[i].x;
      y[i] = line[i].y;
      along[i] = i == 0 ? 0 : along[i - 1] + line[i].distance(line[i - 1]);
    }
    Route route =
        new Route(
            "R",
            "R",
            "",
            RoadClass.LOCAL,
            List.of(new CenterlinePart(x, y, along)),
            PiecewiseMileposts.uncalibrated(along[along.length - 1]),
            new Edition(1, LocalDate.EPOCH, null));
    return new Network("", Map.of("R", route), List.of());
  }

  @Test
  void everyCandidateOfOnePointIsADifferentPlace() {
    Random random = new Random(3);
    Network network = network(randomLine(random, 300));
    Locator locator = new Locator(network);
    for (int i = 0; i < 2_000; i++) {
      double along = random.nextDouble() * network.routes().get("R").lengthM();
      RoadPoint p = locator.pointAt("R", along, 0).orElseThrow();
      Set<Double> alongs = new HashSet<>();
      List<Candidate> found = locator.candidates(p.x(), p.y(), 40, SnapHint.NONE);
      double sum = 0;
      for (Candidate c : new ArrayList<>(found)) {
        assertTrue(alongs.add(c.place().alongM()));
        sum += c.confidence();
      }
      assertEquals(1, sum, 1e-9);
      assertTrue(alongs.stream().anyMatch(a -> Math.abs(a - along) < 1e-6), "the true place");
    }
  }
}
