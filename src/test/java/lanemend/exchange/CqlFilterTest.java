package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.TimeZone;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.EventTable;
import lanemend.inventory.Finding;
import lanemend.inventory.FindingKind;
import lanemend.inventory.LinearEvent;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.Segment;
import lanemend.inventory.Segmentation;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.network.Lane;
import lanemend.network.RoadPoint;
import lanemend.network.Side;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Conditions in the Common Query Language on one defect, one finding, one repair, segments. */
class CqlFilterTest {
  @TempDir static Path folder;

  private static SmallCounty county;
  private static FilterTables tables;
  private static Defect rut;

  /** A rut on SR 12 at mile 2, 20 ft by 10 ft, 2 in deep, found on the last day of April 2026. */
  @BeforeAll
  static void given() {
    county = new SmallCounty(folder);
    tables = new FilterTables(county.network, county.locator);
    rut =
        new Defect(
            "D-1",
            DefectKind.RUTTING,
            Severity.HIGH,
            place(2 * Conversion.M_PER_MILE, 2 * Conversion.M_PER_MILE),
            new Lane(Side.RIGHT, 1),
            20 * Conversion.M_PER_FT,
            10 * Conversion.M_PER_FT,
            2 * Conversion.M_PER_IN,
            LocalDate.of(2026, 4, 30),
            "crew 2",
            "",
            DefectStatus.OPEN,
            "by the 'old' mill");
  }

  private static Place place(double from, double to) {
    RoadPoint middle = county.locator.pointAt("SR 12", (from + to) / 2, 0).orElseThrow();
    return new Place(
        "SR 12", from, to, middle.x(), middle.y(), Entered.byMilepost("SR 12", "2", null));
  }

  private static boolean holds(String filter) {
    return CqlFilter.parse(filter, tables.defects()).test(rut);
  }

  private static String refused(String filter) {
    return assertThrows(ExchangeException.class, () -> holds(filter)).getMessage();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "severity = 'high'",
        "severity = 'High' AND kind IN ('rutting', 'shoving')",
        "kind <> 'pothole'",
        "NOT kind = 'pothole'",
        "Route = 'SR 12' AND milepost BETWEEN 1.9 AND 2.1",
        "route LIKE 'SR%' AND direction = ''",
        "length_ft = 20 AND length_m > 6.09 AND length_m < 6.1",
        "depth_in >= 2 AND depth_mm = 50.8",
        "area_ft2 = 200 AND length_ft * width_ft = area_ft2",
        "lane = 'R1' AND status = 'open'",
        "note LIKE '%''old''%'",
        "note ILIKE '%MILL%'",
        "note LIKE 'by _he%mill' AND NOT note LIKE 'by _he%mil' AND note NOT LIKE '\\_y%'",
        "id IN ('D-1', 'D-2')",
        "ID = 'D-1' AND note <> 'id'",
        "severity = 'high'\n\tAND id = 'D-1'",
        "found_by > 1 OR id = 'D-1'",
        "photo IS NOT NULL",
        // SR 12 runs along 44.0 north from 93.1 west; two miles east of that is near 93.06 west
        "BBOX(geometry, -93.1, 43.99, -93.0, 44.01)",
        "INTERSECTS(geometry, POLYGON((-93.1 43.9, -93 43.9, -93 44.1, -93.1 44.1, -93.1 43.9)))",
        "DISJOINT(geometry, POINT(-92 44))"
      })
  void trueOfTheRut(String filter) {
    assertTrue(holds(filter), filter);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "severity = 'low'",
        "milepost > 2.001",
        "length_ft > 20",
        "found_by = 'crew 3'",
        "id IN ('D-2')",
        "photo IS NULL",
        "BBOX(geometry, -92.9, 43.99, -92.8, 44.01)"
      })
  void falseOfTheRut(String filter) {
    assertFalse(holds(filter), filter);
  }

  /** Days are days: the same answer wherever the machine stands. */
  @ParameterizedTest
  @ValueSource(strings = {"UTC", "America/Chicago", "Asia/Tokyo"})
  void daysDoNotDependOnTheTimeZone(String zone) {
    TimeZone before = TimeZone.getDefault();
    TimeZone.setDefault(TimeZone.getTimeZone(zone));
    try {
      for (String yes :
          List.of(
              "found_on = '2026-04-30'",
              "found_on = 2026-04-30",
              "found_on >= 2026-04-30 AND found_on <= '2026-04-30'",
              "found_on BETWEEN '2026-04-01' AND '2026-04-30'",
              "found_on AFTER 2026-04-29T00:00:00Z",
              "found_on AFTER 2026-04-29T23:59:59Z",
              "found_on BEFORE 2026-04-30T00:00:01Z",
              "found_on TEQUALS 2026-04-30T00:00:00Z",
              "found_on DURING 2026-04-01T00:00:00Z/2026-05-01T00:00:00Z")) {
        assertTrue(holds(yes), yes);
      }
      for (String no :
          List.of(
              "found_on > '2026-04-30'",
              "found_on < 2026-04-30",
              "found_on AFTER 2026-04-30T00:00:00Z",
              "found_on BEFORE 2026-04-30T00:00:00Z",
              "found_on DURING 2026-05-01T00:00:00Z/2026-06-01T00:00:00Z")) {
        assertFalse(holds(no), no);
      }
    } finally {
      TimeZone.setDefault(before);
    }
  }

  /** 0.001 degree of latitude at 44 north is 111.11 m (WGS 84 meridian, from memory). */
  @Test
  void distancesAreOnTheGroundInTheUnitSaid() {
    double[] at = SmallCounty.CRS.unproject(rut.place().x(), rut.place().y());
    String point = "POINT(" + at[0] + " " + (at[1] + 0.001) + ")";
    assertTrue(holds("DWITHIN(geometry, " + point + ", 112, meters)"));
    assertFalse(holds("DWITHIN(geometry, " + point + ", 110, meters)"));
    assertTrue(holds("DWITHIN(geometry, " + point + ", 366, feet)"));
    assertFalse(holds("DWITHIN(geometry, " + point + ", 362, feet)"));
    assertTrue(holds("BEYOND(geometry, " + point + ", 110, meters)"));
    assertTrue(holds("DWITHIN(geometry, " + point + ", 1, statute miles)"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "severity =| character ",
        "severity = 'high' banana| character 19: found 'banana', expected AND, OR or the end",
        "severity = 'high| a ' that closes the text",
        "(severity = 'high'| character 18: found 'the end', expected AND, OR or a closing bracket",
        "severity = 'high'; DROP TABLE defects| character 18: found ';', expected AND, OR or the end",
        "route = 'SR 12' and # 3| character 21: found '#'",
        "id = 'D-1' AND ID = = 3| character 19: found '= ='",
        "colour = 'red'| character 1: found 'colour', expected one of route, direction, id, milepost",
        "severity = high| character 12: found 'high', expected one of",
        "severity = 'hihg'| character 13: found 'hihg', expected for severity one of low, medium, high",
        "severity > 'low'| found '>', expected = or IN beside severity",
        "length_ft > 'long'| found 'long', expected a number beside length_ft",
        "found_on > 'May'| found 'May', expected beside found_on a date",
        "found_on > 2026-13-45| character 12: found '2026-13-45', expected a day there is",
        "length_ft LIKE '2%'| expected a text before it",
        "geometry = 'POINT(0 0)'| expected geometry in BBOX",
        "INTERSECTS(route, POINT(0 0))| found 'route', expected geometry first",
        "BBOX(geometry, 0, 0, 1, 1, 'EPSG:3857')| without a system",
        "INTERSECTS(geometry, SRID=3857;POINT(1 1))| without a system",
        "DWITHIN(geometry, POINT(0 0), 3, furlongs)| filter",
        "length_ft AFTER 2026-04-30T00:00:00Z| found 'length_ft', expected a date",
        "strToUpperCase(severity) = 'HIGH'| functions are not taken",
        "bogus(severity) = 'HIGH'| functions are not taken",
        "severity EXISTS| functions are not taken",
        "IN ('D-1')| such as id IN",
        "INTERSECTS(geometry, POLYGON((0 0, 1 1)))| filter"
      })
  void whatIsWrongIsSaidInOneSentenceWithItsPlace(String filter, String said) {
    String message = refused(filter);
    assertTrue(message.startsWith("filter"), message);
    assertTrue(message.contains(said.strip()), message);
    assertEquals(1, message.lines().count(), message);
    assertFalse(message.contains("Exception"), message);
  }

  @Test
  void anEmptyALongAndADeepFilterAreRefused() {
    assertTrue(refused("  ").contains("found nothing, expected a condition"));
    assertTrue(refused("id = '" + "x".repeat(4_000) + "'").contains("at most 4000"));
    // A parser that recurses must not be driven off its stack
    assertTrue(refused("(".repeat(1_500) + "id = 'x'").contains("at most 50 open brackets"));
    assertTrue(holds("(".repeat(40) + "id = 'D-1'" + ")".repeat(40)));
    assertTrue(holds("id = 'D-1'" + " AND id = 'D-1'".repeat(250)));
  }

  /** A regular expression made of this pattern would try some 4,000^12 ways. */
  @Test
  @Timeout(10)
  void aPatternOfManyWildcardsIsNoTrap() {
    Finding note =
        new Finding(
            "F-9",
            FindingKind.OTHER,
            place(100, 200),
            Side.LEFT,
            LocalDate.of(2026, 4, 1),
            "",
            "a".repeat(4_000));
    String pattern = "%a".repeat(12) + "%b";
    assertFalse(CqlFilter.parse("note LIKE '" + pattern + "'", tables.findings()).test(note));
    assertTrue(
        CqlFilter.parse("note LIKE '" + pattern.replace('b', 'a') + "'", tables.findings())
            .test(note));
  }

  @Test
  void findingsAndPastRepairsHaveTheirOwnNames() {
    Place place = place(100, 200);
    Finding fence =
        new Finding(
            "F-1", FindingKind.FENCE, place, Side.LEFT, LocalDate.of(2026, 4, 1), "crew 2", "");
    assertTrue(CqlFilter.parse("kind = 'fence' AND side = 'left'", tables.findings()).test(fence));
    PastPatch patch =
        new PastPatch(
            "P-1",
            "blade patch",
            place,
            null,
            LocalDate.of(2024, 6, 1),
            10 * Conversion.T_PER_SHORT_TON,
            null,
            new BigDecimal("1250.50"));
    String yes = "tons = 10 AND cost > 1250 AND done_on > '2024-01-01' AND lane IS NULL";
    assertTrue(CqlFilter.parse(yes, tables.patches()).test(patch));
    // What is not known is neither more nor less than a number
    assertFalse(CqlFilter.parse("crew_hours > 0", tables.patches()).test(patch));
    assertFalse(CqlFilter.parse("crew_hours <= 0", tables.patches()).test(patch));
    assertTrue(CqlFilter.parse("crew_hours IS NULL", tables.patches()).test(patch));
  }

  @Test
  void segmentsAreFilteredByTheirTables() {
    List<EventTable> of = List.of(EventTable.one("posted_speed_kmh"), EventTable.one("surface"));
    List<Segment> pieces =
        Segmentation.of(
                county.network.routes().get("SR 12"),
                of,
                List.of(
                    new LinearEvent("posted_speed_kmh", 0, 8_000, "88.51392"),
                    new LinearEvent("surface", 4_000, 8_000, "asphalt")))
            .segments();
    EventProperties<Segment> known = tables.segments(of);
    assertEquals(List.of(0.0, 4_000.0), starts(pieces, "posted_speed_mph = 55", known));
    assertEquals(
        List.of(4_000.0), starts(pieces, "posted_speed_kmh > 88 AND surface = 'asphalt'", known));
    assertEquals(List.of(8_000.0), starts(pieces, "posted_speed_kmh IS NULL", known));
    // 4,000 m east of 93.1 west is 0.05 degrees (80.3 km to the degree at 44 north, from memory)
    assertEquals(
        List.of(0.0, 4_000.0),
        starts(pieces, "DWITHIN(geometry, POINT(-93.05 44.0005), 100, meters)", known));
  }

  private static List<Double> starts(
      List<Segment> pieces, String filter, EventProperties<Segment> known) {
    return pieces.stream().filter(CqlFilter.parse(filter, known)).map(Segment::fromAlongM).toList();
  }
}
