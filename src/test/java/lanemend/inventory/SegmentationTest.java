package lanemend.inventory;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Event tables laid over each other. */
class SegmentationTest {
  private static final EventTable SPEED = EventTable.one("speed");
  private static final EventTable LANES = EventTable.one("lanes");
  private static final EventTable DEFECTS = EventTable.several("defects");
  private static final List<EventTable> TABLES = List.of(SPEED, LANES, DEFECTS);

  /** A straight road in parts, given as from and to of each. */
  static Route road(double... ends) {
    List<CenterlinePart> parts = new ArrayList<>();
    for (int i = 0; i < ends.length; i += 2) {
      double[] along = {ends[i], ends[i + 1]};
      parts.add(new CenterlinePart(along, new double[2], along));
    }
    return new Route(
        "SR 1",
        "SR 1",
        "",
        RoadClass.ARTERIAL,
        parts,
        PiecewiseMileposts.uncalibrated(ends[ends.length - 1]),
        new Edition(1, LocalDate.EPOCH, null));
  }

  private static List<String> lines(Segmentation s) {
    return s.segments().stream()
        .map(p -> text(p.fromAlongM()) + "-" + text(p.toAlongM()) + " " + p.known())
        .toList();
  }

  private static String text(double along) {
    return along == Math.rint(along) ? Long.toString((long) along) : Double.toString(along);
  }

  private static LinearEvent speed(double from, double to, String value) {
    return new LinearEvent("speed", from, to, value);
  }

  private static LinearEvent lanes(double from, double to, String value) {
    return new LinearEvent("lanes", from, to, value);
  }

  private static LinearEvent defect(double from, double to, String id) {
    return new LinearEvent("defects", from, to, id);
  }

  @Test
  void theWorkedExampleOfTheMethod() {
    // Given 1,000 m with 45 mph to 600 m, 55 mph from there, and two lanes from 200 m on
    List<LinearEvent> events =
        List.of(speed(0, 600, "45"), speed(600, 1_000, "55"), lanes(200, 1_000, "2"));
    // when they are laid over each other
    Segmentation found = Segmentation.of(road(0, 1_000), TABLES, events);
    // then three pieces, by hand
    assertEquals(
        List.of("0-200 {speed=45}", "200-600 {speed=45, lanes=2}", "600-1000 {speed=55, lanes=2}"),
        lines(found));
    assertEquals(List.of(), found.conflicts());
    assertEquals(List.of(), found.offRoad());
  }

  @Test
  void whatChangesNothingCutsNothing() {
    // Given one speed entered in two stretches that meet, and once more over both
    List<LinearEvent> events =
        List.of(speed(0, 400, "45"), speed(400, 1_000, "45"), speed(300, 500, "45"));
    Segmentation found = Segmentation.of(road(0, 1_000), TABLES, events);
    assertEquals(List.of("0-1000 {speed=45}"), lines(found));
    assertEquals(List.of(), found.conflicts());
  }

  @Test
  void anOverlapWithAnotherValueIsAConflictAndTheOneThatStartsLastHolds() {
    List<LinearEvent> events = List.of(speed(0, 600, "45"), speed(400, 1_000, "55"));
    Segmentation found = Segmentation.of(road(0, 1_000), TABLES, events);
    assertEquals(List.of("0-400 {speed=45}", "400-1000 {speed=55}"), lines(found));
    assertEquals(
        List.of(new EventConflict("SR 1", 400, 600, "speed", List.of("45", "55"))),
        found.conflicts());
  }

  @Test
  void stretchesThatOnlyMeetAreNoConflict() {
    List<LinearEvent> events = List.of(speed(0, 500, "45"), speed(500, 1_000, "55"));
    assertEquals(List.of(), Segmentation.of(road(0, 1_000), TABLES, events).conflicts());
  }

  @Test
  void nothingReachesAcrossAGap() {
    // Given a road with a gap from 300 m to 500 m, and events over it, in it and past the end
    List<LinearEvent> events =
        List.of(
            speed(100, 700, "45"),
            speed(250, 600, "55"),
            lanes(350, 450, "2"),
            lanes(300, 500, "4"),
            lanes(2_000, 3_000, "6"));
    Segmentation found = Segmentation.of(road(0, 300, 500, 1_000), TABLES, events);
    assertEquals(
        List.of(
            "0-100 {}",
            "100-250 {speed=45}",
            "250-300 {speed=55}",
            "500-600 {speed=55}",
            "600-700 {speed=45}",
            "700-1000 {}"),
        lines(found));
    assertEquals(
        List.of(
            new EventConflict("SR 1", 250, 300, "speed", List.of("45", "55")),
            new EventConflict("SR 1", 500, 600, "speed", List.of("45", "55"))),
        found.conflicts());
    // and what lies on no metre of road is named
    assertEquals(
        List.of("4", "2", "6"), found.offRoad().stream().map(o -> o.event().value()).toList());
  }

  @Test
  void aSpotCutsNothingAndComesAfterItsPiece() {
    // Given a 45 mph road with a pothole at 300 m, one on the border at 600 m, one at its end
    List<LinearEvent> events =
        List.of(
            speed(0, 600, "45"),
            speed(600, 1_000, "55"),
            defect(300, 300, "D-1"),
            defect(600, 600, "D-2"),
            defect(1_000, 1_000, "D-3"));
    assertEquals(
        List.of(
            "0-600 {speed=45}",
            "300-300 {speed=45, defects=D-1}",
            "600-1000 {speed=55}",
            "600-600 {speed=55, defects=D-2}",
            "1000-1000 {speed=55, defects=D-3}"),
        lines(Segmentation.of(road(0, 1_000), TABLES, events)));
  }

  @Test
  void aSpotThatContradictsItsStretchIsAConflictOfNoLength() {
    List<LinearEvent> events = List.of(speed(0, 1_000, "45"), speed(300, 300, "25"));
    Segmentation found = Segmentation.of(road(0, 1_000), TABLES, events);
    assertEquals(List.of("0-1000 {speed=45}", "300-300 {speed=25}"), lines(found));
    assertEquals(
        List.of(new EventConflict("SR 1", 300, 300, "speed", List.of("45", "25"))),
        found.conflicts());
  }

  @Test
  void defectsMayLieOverEachOther() {
    List<LinearEvent> events = List.of(defect(0, 600, "D-2"), defect(400, 800, "D-1"));
    Segmentation found = Segmentation.of(road(0, 1_000), TABLES, events);
    assertEquals(
        List.of(
            "0-400 {defects=D-2}",
            "400-600 {defects=D-1;D-2}",
            "600-800 {defects=D-1}",
            "800-1000 {}"),
        lines(found));
    assertEquals(List.of(), found.conflicts());
  }

  @Test
  void aNetworkGivesEveryRouteAndNamesEventsOfNone() {
    Network network = new Network("", Map.of("SR 1", road(0, 100)), List.of());
    Segmentation found =
        Segmentation.of(network, TABLES, Map.of("SR 9", List.of(speed(0, 10, "45"))));
    assertEquals(List.of("0-100 {}"), lines(found));
    assertEquals("SR 9", found.offRoad().get(0).routeId());
  }

  @Test
  void wrongTablesAndStretchesAreRefused() {
    Route road = road(0, 100);
    List<LinearEvent> events = List.of(speed(0, 10, "45"));
    assertThrows(
        IllegalArgumentException.class, () -> Segmentation.of(road, List.of(LANES), events));
    assertThrows(
        IllegalArgumentException.class,
        () -> Segmentation.of(road, List.of(SPEED, SPEED), List.of()));
    assertThrows(IllegalArgumentException.class, () -> speed(10, 0, "45"));
    assertThrows(IllegalArgumentException.class, () -> speed(Double.NaN, 10, "45"));
  }

  /** Against a slow reading of the rules, interval by interval, on small crowded roads. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void agreesWithTheBruteForceReading(long seed) {
    Random random = new Random(seed);
    for (int round = 0; round < 500; round++) {
      Route road = randomRoad(random);
      List<LinearEvent> events = randomEvents(random, random.nextInt(14));
      SegmentationOracle oracle = new SegmentationOracle(road, TABLES, events);
      Segmentation found = Segmentation.of(road, TABLES, events);
      String given = "seed " + seed + " round " + round + " " + events;
      assertEquals(oracle.segments(), found.segments(), given);
      assertEquals(
          oracle.conflicts().stream().map(SegmentationOracle::sortable).sorted().toList(),
          found.conflicts().stream().map(SegmentationOracle::sortable).sorted().toList(),
          given);
      assertEquals(
          oracle.offRoad(),
          found.offRoad().stream().map(Segmentation.OffRoad::event).toList(),
          given);
    }
  }

  private static Route randomRoad(Random random) {
    int a = 4 + random.nextInt(4);
    int b = a + random.nextInt(4);
    return random.nextInt(3) == 0 ? road(0, 16) : road(0, a, b, 13, 14, 18);
  }

  private static List<LinearEvent> randomEvents(Random random, int count) {
    List<LinearEvent> events = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      int from = random.nextInt(20);
      int to = random.nextInt(4) == 0 ? from : from + random.nextInt(9);
      String table = TABLES.get(random.nextInt(3)).name();
      events.add(new LinearEvent(table, from, to, "v" + random.nextInt(3)));
    }
    return events;
  }
}
