package lanemend.inventory;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.network.Lane;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.RoadClass;
import lanemend.network.RouteAssembler;
import lanemend.network.SourceLine;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One defect seen twice, on a road some 8.5 km long; SR 2 runs with SR 1, drawn the other way. */
class DuplicatesTest {
  private static final ProjectedCrs CRS = ProjectedCrs.utmFor(-100, 40);
  private static final LocalDate DAY = LocalDate.of(2026, 4, 10);

  private final Network network =
      RouteAssembler.assemble(
              List.of(
                  line("r:1", List.of("SR 1", "SR 2"), -100, 40, -99.95, 40),
                  line("r:2", List.of("SR 1"), -99.95, 40, -99.9, 40),
                  line("r:3", List.of("CR 3"), -99.92, 39.99, -99.92, 40.01)),
              CRS)
          .network();
  private final Locator locator = new Locator(network);
  private final Duplicates duplicates = new Duplicates(locator, DuplicateRules.STANDARD);

  private static SourceLine line(String origin, List<String> routes, double... lonLat) {
    double[] lon = {lonLat[0], lonLat[2]};
    double[] lat = {lonLat[1], lonLat[3]};
    return new SourceLine(origin, routes, "", RoadClass.COLLECTOR, lon, lat, false, 0, Map.of());
  }

  private Place place(String route, double from, double to) {
    double[] at = {0, 0};
    locator
        .pointAt(route, (from + to) / 2, 0)
        .ifPresent(
            p -> {
              at[0] = p.x();
              at[1] = p.y();
            });
    return new Place(route, from, to, at[0], at[1], Entered.byMilepost(route, "1", "2"));
  }

  private Defect rut(String id, double from, double length, int day, String by) {
    return new Defect(
        id,
        DefectKind.RUTTING,
        Severity.MEDIUM,
        place("SR 1", from, from + length),
        Lane.parse("R1").orElseThrow(),
        length,
        2.5,
        0.04,
        DAY.plusDays(day),
        by,
        "",
        DefectStatus.OPEN,
        "");
  }

  private static Defect with(
      Defect d, DefectKind kind, Severity severity, Place place, String lane) {
    return new Defect(
        d.id(),
        kind,
        severity,
        place,
        Lane.parse(lane).orElseThrow(),
        d.lengthM(),
        d.widthM(),
        d.depthM(),
        d.foundOn(),
        d.foundBy(),
        d.photo(),
        d.status(),
        d.note());
  }

  @Test
  void aRutSeenByTwoPatrolsIsProposedWithItsReasons() {
    // Given a rut of 20 m, and 6 m on a rut of 22 m found by another patrol 4 days later
    Defect first = rut("D-1", 500, 20, 0, "Patrol 1");
    Defect second = rut("D-2", 506, 22, 4, "Patrol 2");
    List<DuplicatePair> pairs = duplicates.find(List.of(second, first));
    assertEquals(1, pairs.size());
    // then the one found first stays
    assertSame(first, pairs.get(0).keep());
    assertEquals(
        List.of("overlapping by 70 %", "sizes alike", "same lane", "found 4 days apart"),
        pairs.get(0).reasons());
    assertTrue(pairs.get(0).belief() > 0.9);
  }

  @ParameterizedTest
  @CsvSource({
    // kind, severity, from, lane of the second; a pair or none
    "RUTTING, MEDIUM, 500, R1, true",
    "RUTTING, MEDIUM, 530, R1, true",
    "RUTTING, MEDIUM, 545, R1, false",
    "RUTTING, MEDIUM, 500, L1, false",
    "RUTTING, MEDIUM, 500, R2, true",
    "RUTTING, MEDIUM, 528, R2, false",
    "SHOVING, MEDIUM, 500, R1, false"
  })
  void kindPlaceAndLaneDecide(
      DefectKind kind, Severity severity, double from, String lane, boolean pair) {
    Defect first = rut("D-1", 500, 20, 0, "Patrol 1");
    Defect second =
        with(
            rut("D-2", from, 20, 3, "Patrol 2"),
            kind,
            severity,
            place("SR 1", from, from + 20),
            lane);
    assertEquals(pair, !duplicates.find(List.of(first, second)).isEmpty());
  }

  @Test
  void longAfterwardsItIsAnotherAndSoIsWhatOnePatrolWroteTwice() {
    Defect first = rut("D-1", 500, 20, 0, "Patrol 1");
    assertEquals(List.of(), duplicates.find(List.of(first, rut("D-2", 502, 20, 46, "Patrol 2"))));
    assertEquals(List.of(), duplicates.find(List.of(first, rut("D-2", 515, 12, 0, "Patrol 1"))));
    // The very same row is the same defect
    assertEquals(1, duplicates.find(List.of(first, rut("D-2", 500, 20, 0, "Patrol 1"))).size());
    // What is done or withdrawn is settled
    for (DefectStatus settled : List.of(DefectStatus.DONE, DefectStatus.WITHDRAWN)) {
      Defect second = rut("D-2", 502, 20, 3, "Patrol 2").withStatus(settled);
      assertEquals(List.of(), duplicates.find(List.of(first, second)));
    }
  }

  @Test
  void aRowOfPotholesBesideEachOtherIsNoHeapOfDuplicates() {
    // Given a pothole every 6 m along 300 m, all of one patrol
    List<Defect> row = new ArrayList<>();
    for (int i = 0; i < 50; i++) {
      Defect rut = rut("D-" + i, 500 + 6 * i, 0.5, 0, "Patrol 1");
      row.add(with(rut, DefectKind.POTHOLE, Severity.HIGH, rut.place(), "R1"));
    }
    assertEquals(List.of(), duplicates.find(row));
  }

  @Test
  void routesThatRunTogetherAreOneRoadAndACrossingIsNot() {
    Defect onFirst = rut("D-1", 500, 20, 0, "Patrol 1");
    double length = network.routes().get("SR 2").lengthM();
    boolean sameWay =
        locator
            .candidates(onFirst.place().x(), onFirst.place().y(), 3, lanemend.network.SnapHint.NONE)
            .stream()
            .anyMatch(
                c -> c.place().routeId().equals("SR 2") && Math.abs(c.place().alongM() - 510) < 1);
    double from = sameWay ? 502 : length - 522;
    Defect onSecond =
        with(
            rut("D-2", 502, 20, 2, "Patrol 2"),
            DefectKind.RUTTING,
            Severity.HIGH,
            place("SR 2", from, from + 20),
            sameWay ? "R1" : "L1");
    DuplicatePair pair = duplicates.find(List.of(onFirst, onSecond)).get(0);
    assertEquals(502, pair.dropFromM(), 0.5);
    assertEquals(522, duplicates.merged(pair).place().toAlongM(), 0.5);
    // Given a rut on SR 1 over its crossing with CR 3, and one on CR 3 over it
    double crossing =
        locator
            .candidates(
                CRS.project(-99.92, 40)[0],
                CRS.project(-99.92, 40)[1],
                5,
                lanemend.network.SnapHint.NONE)
            .stream()
            .filter(c -> c.place().routeId().equals("SR 1"))
            .findFirst()
            .orElseThrow()
            .place()
            .alongM();
    double middle = network.routes().get("CR 3").lengthM() / 2;
    Defect along = rut("D-3", crossing - 2, 4, 0, "Patrol 1");
    Defect across =
        with(
            rut("D-4", 0, 4, 1, "Patrol 2"),
            DefectKind.RUTTING,
            Severity.MEDIUM,
            place("CR 3", middle - 2, middle + 2),
            "R1");
    assertEquals(List.of(), duplicates.find(List.of(along, across)));
  }

  @Test
  void theKeptOneTakesWhatTheOtherAddsAndTheOtherPointsToIt() {
    Defect first =
        new Defect(
            "D-1",
            DefectKind.RUTTING,
            Severity.MEDIUM,
            place("SR 1", 500, 520),
            Lane.parse("R1").orElseThrow(),
            20,
            2.5,
            0.04,
            DAY,
            "Patrol 1",
            "a.jpg",
            DefectStatus.OPEN,
            "by the gate");
    Defect second =
        new Defect(
            "D-2",
            DefectKind.RUTTING,
            Severity.HIGH,
            place("SR 1", 506, 528),
            Lane.parse("R1").orElseThrow(),
            22,
            2,
            0.05,
            DAY.plusDays(3),
            "Patrol 2",
            "b.jpg",
            DefectStatus.PLANNED,
            "holds water");
    // The planned one stays, though it was found later
    DuplicatePair pair = duplicates.find(List.of(first, second)).get(0);
    assertEquals("D-2", pair.keep().id());
    Defect kept = duplicates.merged(pair);
    assertEquals(500, kept.place().fromAlongM());
    assertEquals(528, kept.place().toAlongM());
    assertEquals(28, kept.lengthM(), 1e-9);
    assertEquals(2.5, kept.widthM());
    assertEquals(0.05, kept.depthM());
    assertEquals(Severity.HIGH, kept.severity());
    assertEquals(DefectStatus.PLANNED, kept.status());
    assertEquals(DAY, kept.foundOn());
    assertEquals("Patrol 2; Patrol 1", kept.foundBy());
    assertEquals("b.jpg; a.jpg", kept.photo());
    assertEquals("holds water; D-1: by the gate", kept.note());
    Defect gone = Duplicates.withdrawn(pair);
    assertEquals(DefectStatus.WITHDRAWN, gone.status());
    assertEquals("duplicate of D-2; by the gate", gone.note());
    assertEquals(Optional.of("D-2"), Duplicates.mergedInto(gone));
    assertEquals(Optional.empty(), Duplicates.mergedInto(first));
  }
}
