package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import lanemend.network.RoadClass;
import lanemend.network.SourceLine;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RoadReaderTest {
  @TempDir Path folder;

  private Read<SourceLine> geoJson(String features) {
    return read(
        "roads.geojson", "{\"type\":\"FeatureCollection\",\"features\":[\n" + features + "\n]}");
  }

  private Read<SourceLine> read(String name, String text) {
    return RoadReader.read(RoadSource.of(SmallCounty.write(folder, name, text)));
  }

  private static String feature(String properties, String type, String coordinates) {
    return """
        {"type":"Feature","properties":{%s},"geometry":{"type":"%s","coordinates":%s}}"""
        .formatted(properties, type, coordinates);
  }

  private ExchangeException refusedWhole(String name, String text) {
    return assertThrows(ExchangeException.class, () -> read(name, text));
  }

  @Test
  void readsALineWithItsFacts() {
    Read<SourceLine> read =
        geoJson(
            feature(
                """
                "route":"SR 12; SR 30","class":"Arterial","speed":55,"lanes":2,"lane_width_ft":12,
                "one_way":true,"level":1,"aadt":4200,"truck_share":"12 %","urban":"no"
                """
                    .replace("\n", ""),
                "LineString",
                "[[-93.1,44.0,280.5],[-93.1,44.0],[-93.0,44.1]]"));
    assertEquals("", SmallCounty.texts(read.problems()));
    SourceLine line = read.rows().get(0);
    assertEquals("roads.geojson:2 (feature 1)", line.origin());
    assertEquals(List.of("SR 12", "SR 30"), line.routeNames());
    assertEquals(RoadClass.ARTERIAL, line.roadClass());
    assertArrayEquals(new double[] {-93.1, -93.0}, line.longitude());
    assertTrue(line.oneWay());
    assertEquals(1, line.level());
    // 55 mph = 88.51392 km/h and 12 ft = 3.6576 m, by the exact mile and foot.
    assertEquals("88.51392", line.attributes().get("posted_speed_kmh"));
    assertEquals("3.6576", line.attributes().get("lane_width_m"));
    assertEquals("0.12", line.attributes().get("truck_share"));
    assertEquals("no", line.attributes().get("urban"));
  }

  @Test
  void minusOneTurnsTheLineRound() {
    SourceLine line =
        geoJson(
                feature(
                    "\"class\":\"local\",\"one_way\":\"-1\"",
                    "LineString",
                    "[[-93.1,44.0],[-93.0,44.1]]"))
            .rows()
            .get(0);
    assertArrayEquals(new double[] {-93.0, -93.1}, line.longitude());
    assertArrayEquals(new double[] {44.1, 44.0}, line.latitude());
    assertTrue(line.oneWay());
    assertEquals(List.of(), line.routeNames());
  }

  @Test
  void aMultiLineCountsAsItsLines() {
    Read<SourceLine> read =
        geoJson(
            feature(
                "\"class\":\"local\"",
                "MultiLineString",
                "[[[-93.1,44.0],[-93.0,44.1]],[[-92.1,44.0],[-92.0,44.1]]]"));
    assertEquals(2, read.rows().size());
    assertEquals(2, read.rowsSeen());
  }

  @Test
  void badFeaturesAreRefusedByLineAndTheOthersTaken() {
    Read<SourceLine> read =
        geoJson(
            String.join(
                ",\n",
                feature("\"class\":\"local\"", "LineString", "[[-93.1,44.0],[-93.0,44.1]]"),
                feature("\"class\":\"lane\"", "LineString", "[[-93.1,44.0],[-93.0,44.1]]"),
                feature("\"class\":\"local\"", "Polygon", "[[[0,0],[1,0],[1,1],[0,0]]]"),
                feature("\"class\":\"local\"", "LineString", "[[-93.1,44.0],[-93.1,44.0]]"),
                feature("\"class\":\"local\"", "LineString", "[[44.0,-93.1],[44.1,-93.0]]"),
                feature("\"class\":\"local\"", "LineString", "[[-93.1,44.0],[\"x\",44.1]]"),
                feature("\"class\":\"local\"", "LineString", "[[NaN,44.0],[-93.0,44.1]]"),
                feature("\"class\":\"local\"", "LineString", "[[1e999,44.0],[-93.0,44.1]]"),
                feature("\"class\":\"local\"", "LineString", "[[500000,4.9e6],[500100,4.9e6]]"),
                "{\"type\":\"Feature\",\"properties\":{\"class\":\"local\"},\"geometry\":null}",
                "7",
                feature("\"class\":\"local\",\"class\":\"local\"", "LineString", "[[0,0],[1,1]]"),
                feature("\"class\":{\"a\":1}", "LineString", "[[0,0],[1,1]]"),
                feature(
                    "\"class\":\"local\",\"one_way\":\"maybe\"", "LineString", "[[0,0],[1,1]]")));
    assertEquals(1, read.rows().size());
    assertEquals(14, read.rowsSeen());
    assertEquals(
        """
        roads.geojson:3 class: found 'lane', expected freeway, arterial, collector, local or ignore, or a mapping such as primary=arterial (feature 2)
        roads.geojson:4 geometry: found 'Polygon', expected LineString or MultiLineString (feature 3)
        roads.geojson:5 geometry: found '1 different vertices', expected a line of two different vertices or more (feature 4)
        roads.geojson:6 geometry: found '44 -93.1', expected longitude before latitude (they look swapped) (feature 5)
        roads.geojson:7 geometry: found nothing, expected numbers in the coordinates, found VALUE STRING (feature 6)
        roads.geojson:8 geometry: found 'NaN 44', expected coordinates that are finite numbers (feature 7)
        roads.geojson:9 geometry: found 'Infinity 44', expected coordinates that are finite numbers (feature 8)
        roads.geojson:10 geometry: found '500000 4900000', expected longitude -180 to 180 and latitude -90 to 90 (projected coordinates need their system named, for instance EPSG:26915) (feature 9)
        roads.geojson:11 geometry: found nothing, expected a LineString or MultiLineString (feature 10)
        roads.geojson:12: found '7', expected a Feature (feature 11)
        roads.geojson:13 class: found 'local', expected each property once (feature 12)
        roads.geojson:14 class: found 'an object', expected a plain value (feature 13)
        roads.geojson:15 one_way: found 'maybe', expected yes, no, true, false, 1, 0 or -1 (against the drawing) (feature 14)"""
            .strip(),
        SmallCounty.texts(read.problems()));
  }

  @Test
  void anUnreadableSpeedLeavesTheLineAndWarns() {
    Read<SourceLine> read =
        geoJson(
            feature(
                "\"class\":\"local\",\"speed\":\"90;30;90\",\"lanes\":2",
                "LineString",
                "[[-93.1,44.0],[-93.0,44.1]]"));
    assertTrue(read.clean());
    assertEquals("2", read.rows().get(0).attributes().get("lanes"));
    assertFalse(read.rows().get(0).attributes().containsKey("posted_speed_kmh"));
    assertEquals("speed", read.warnings().get(0).field());
  }

  @Test
  void columnsAndClassesAreMappedAsTheUserSays() {
    String text =
        """
        ref,name,highway,maxspeed,wkt
        ,Mill Road,primary,70 km/h,"LINESTRING (-93.1 44, -93 44.1)"
        R1,Long Road,footway,,"LINESTRING (-93.1 44, -93 44.1)"
        R1,Long Road,,50,"LINESTRING Z (-93.1 44 1, -93 44.1 2)"
        """;
    Read<SourceLine> read =
        RoadReader.read(
            new RoadSource(
                SmallCounty.write(folder, "r.csv", text),
                "",
                "",
                SpeedUnit.KMH,
                FieldMap.parse(List.of("route=ref|name", "class=highway", "speed=maxspeed")),
                ClassMap.parse(List.of("primary=arterial", "footway=ignore", "*=local"))));
    assertEquals("", SmallCounty.texts(read.problems()));
    assertEquals(2, read.rowsSeen());
    assertEquals(List.of("Mill Road"), read.rows().get(0).routeNames());
    assertEquals("70", read.rows().get(0).attributes().get("posted_speed_kmh"));
    assertEquals(List.of("R1"), read.rows().get(1).routeNames());
    assertEquals(RoadClass.LOCAL, read.rows().get(1).roadClass());
    assertEquals(
        List.of("r.csv: 1 lines left out, as their class is mapped to ignore"), read.notes());
  }

  @Test
  void wellKnownTextThatIsNotALineIsRefused() {
    Read<SourceLine> read =
        read(
            "r.csv",
            """
            class,wkt
            local,POINT (1 2)
            local,"LINESTRING (1 2, 3)"
            local,LINESTRING EMPTY
            local,
            local,"MULTILINESTRING ((1 2, 3 4), (5 6, 7 8))"
            local,GEOMETRYCOLLECTION(GEOMETRYCOLLECTION(
            """);
    assertEquals(2, read.rows().size());
    assertEquals(
        List.of(2L, 3L, 4L, 5L, 7L), read.problems().stream().map(RowProblem::line).toList());
  }

  @Test
  void projectedCoordinatesComeBackToLongitudeAndLatitude() {
    // The false origin of UTM zone 15 lies on its central meridian, 93 degrees west, on the
    // equator.
    String text =
        """
        {"type":"FeatureCollection",
         "crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::26915"}},
         "features":[%s]}"""
            .formatted(
                feature("\"class\":\"local\"", "LineString", "[[500000,0],[500000,4982950]]"));
    SourceLine line = read("roads.geojson", text).rows().get(0);
    assertEquals(-93, line.longitude()[0], 1e-9);
    assertEquals(0, line.latitude()[0], 1e-9);
    assertEquals(45, line.latitude()[1], 0.001);
  }

  @Test
  void aCoordinateSystemNobodyKnowsRefusesTheFile() {
    String feature = feature("\"class\":\"local\"", "LineString", "[[1,1],[2,2]]");
    String unknown =
        """
        {"type":"FeatureCollection",
         "crs":{"type":"name","properties":{"name":"EPSG:999999"}},"features":[%s]}"""
            .formatted(feature);
    assertEquals("crs", refusedWhole("roads.geojson", unknown).problem().field());
    String late =
        """
        {"type":"FeatureCollection","features":[%s],
         "crs":{"type":"name","properties":{"name":"EPSG:26915"}}}"""
            .formatted(feature);
    assertEquals(
        "the crs member before the features, or CRS84",
        refusedWhole("roads.geojson", late).problem().expected());
  }

  @Test
  void filesThatAreNotFeatureCollectionsAreRefusedWithTheirLine() {
    String good = feature("\"class\":\"local\"", "LineString", "[[1,1],[2,2]]");
    String start = "{\"type\":\"FeatureCollection\",\n\"features\":[\n";
    assertEquals(4, refusedWhole("r.geojson", start + good + ",\n{\"type\":").problem().line());
    assertEquals(3, refusedWhole("r.geojson", start + good).problem().line());
    assertEquals(1, refusedWhole("r.geojson", "").problem().line());
    assertEquals(1, refusedWhole("r.geojson", "[1,2]").problem().line());
    assertEquals("type", refusedWhole("r.geojson", "{\"features\":[]}").problem().field());
    assertEquals(
        "features",
        refusedWhole("r.geojson", "{\"type\":\"FeatureCollection\"}").problem().field());
    assertEquals(
        "type", refusedWhole("r.geojson", "{\"type\":\"Feature\",\"x\":1}").problem().field());
    assertEquals(
        "nothing after the collection",
        refusedWhole("r.geojson", start + good + "]} 5").problem().expected());
    String deep = start + "{\"type\":\"Feature\",\"geometry\":" + "[".repeat(100_000);
    assertEquals(3, refusedWhole("r.geojson", deep).problem().line());
  }

  @Test
  void bytesThatAreNotUtf8CostTheirFeatureOnly() {
    String text =
        "{\"type\":\"FeatureCollection\",\"features\":[\n"
            + feature("\"class\":\"local\",\"route\":\"A~\"", "LineString", "[[1,1],[2,2]]")
            + ",\n"
            + feature("\"class\":\"local\",\"route\":\"B\"", "LineString", "[[1,1],[2,2]]")
            + "]}";
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    bytes[text.indexOf('~')] = (byte) 0xC3;
    Read<SourceLine> read =
        RoadReader.read(RoadSource.of(SmallCounty.write(folder, "r.geojson", bytes)));
    assertEquals(List.of("B"), read.rows().get(0).routeNames());
    assertEquals("text in UTF-8 (feature 1)", read.problems().get(0).expected());
  }

  @Test
  void aFileWithoutAClassColumnSaysHowToMapOne() {
    RowProblem p = refusedWhole("r.csv", "ref,wkt\nA,x\n").problem();
    assertEquals(
        "r.csv:1 class: found 'ref, wkt', expected a column class (another name can be mapped:"
            + " class=column)",
        p.text());
  }

  @Test
  void mappingsThatMakeNoSenseAreSaid() {
    assertThrows(IllegalArgumentException.class, () -> FieldMap.parse(List.of("route")));
    assertThrows(IllegalArgumentException.class, () -> FieldMap.parse(List.of("route=a||b")));
    assertThrows(IllegalArgumentException.class, () -> FieldMap.parse(List.of("a=b", "a=c")));
    assertThrows(IllegalArgumentException.class, () -> ClassMap.parse(List.of("primary=big")));
  }
}
