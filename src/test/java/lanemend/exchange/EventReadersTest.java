package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.network.Side;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EventReadersTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 5, 1);
  private static final String DEFECTS =
      "id,route,direction,milepost,milepost_to,longitude,latitude,lane,kind,severity,length_ft,"
          + "width_ft,depth_in,found_on,found_by,photo,note,status\n";

  @TempDir Path folder;

  private Read<RawDefect> defects(String rows) {
    return DefectReader.read(
        SmallCounty.write(folder, "d.csv", DEFECTS + rows), FieldMap.NONE, TODAY);
  }

  private String problemOf(String row) {
    Read<RawDefect> read = defects(row + "\n");
    assertEquals(1, read.problems().size(), row);
    return read.problems().get(0).text();
  }

  @Test
  void readsADefectInUsUnits() {
    Read<RawDefect> read =
        defects(
            "D1,SR 12,,3.25,,,,r1,Alligator Cracking,HIGH,60,10.5,2,2026-04-30,Kim,a.jpg,"
                + "\"wet, soft\",\n");
    assertEquals("", SmallCounty.texts(read.problems()));
    RawDefect d = read.rows().get(0);
    assertEquals(DefectKind.ALLIGATOR_CRACKING, d.kind());
    assertEquals("R1", d.lane().code());
    assertEquals(18.288, d.lengthM().getAsDouble(), 1e-12); // 60 x 0.3048
    assertEquals(3.2004, d.widthM(), 1e-12); // 10.5 x 0.3048
    assertEquals(0.0508, d.depthM(), 1e-12); // 2 x 0.0254
    assertEquals(DefectStatus.OPEN, d.status());
    assertEquals("wet, soft", d.note());
    assertEquals(List.of(), read.notes());
  }

  @Test
  void readsADefectInMetresFromGeoJson() {
    Path file =
        SmallCounty.write(
            folder,
            "d.geojson",
            """
            {"type":"FeatureCollection","features":[
            {"type":"Feature","id":"G7","geometry":{"type":"Point","coordinates":[-93.05,44.0]},
             "properties":{"lane":"L1","kind":"rutting","severity":"low","length_m":12,
              "width_m":1.2,"depth_mm":25,"found_on":"2026-04-30T08:00:00Z"}}]}
            """);
    Read<RawDefect> read = DefectReader.read(file, FieldMap.NONE, TODAY);
    assertEquals("", SmallCounty.texts(read.problems()));
    RawDefect d = read.rows().get(0);
    assertEquals("G7", d.id());
    assertEquals(0.025, d.depthM(), 1e-12);
    assertEquals(-93.05, d.place().longitude().getAsDouble());
  }

  @Test
  void everyFaultOfARowIsNamed() {
    assertEquals(
        "d.csv:2 milepost: found nothing, expected route and milepost, or longitude and latitude",
        problemOf("D1,SR 12,,,,,,R1,pothole,low,1,1,1,2026-04-30,,,,"));
    assertEquals(
        "d.csv:2 kind: found 'hole', expected one of pothole, alligator_cracking, rutting, shoving,"
            + " edge_break, depression, ravelling, block_cracking, longitudinal_cracking,"
            + " transverse_cracking; also severity: found 'bad', expected one of low, medium, high;"
            + " also found_on: found '30/04/2026', expected a date such as 2026-04-30, from"
            + " 1900-01-01 to 2200-01-01",
        problemOf("D1,SR 12,,1,,,,R1,hole,bad,1,1,1,30/04/2026,,,,"));
  }

  @Test
  void valuesOutOfRangeAreRefused() {
    String tail = ",2026-04-30,,,,";
    assertEquals(
        "d.csv:2 width_ft: found '99', expected a number from 0 to 98.4",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,1,99,1" + tail));
    assertEquals(
        "d.csv:2 depth_in: found '40', expected a number from 0 to 39.3",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,1,1,40" + tail));
    assertEquals(
        "d.csv:2 length_ft: found '-1', expected a number from 0 to 16404.1",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,-1,1,1" + tail));
    assertEquals(
        "d.csv:2 width_ft: found '0', expected a width above 0",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,1,0,1" + tail));
    assertEquals(
        "d.csv:2 depth_in: found nothing, expected a depth above 0 for pothole",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,1,1," + tail));
    assertEquals(
        "d.csv:2 length_ft: found '1,5', expected a number from 0 to 16404.1 (decimal point, no"
            + " commas)",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,\"1,5\",1,1" + tail));
    assertEquals(
        "d.csv:2 width_ft: found 'NaN', expected a number from 0 to 98.4",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,1,NaN,1" + tail));
    assertEquals(
        "d.csv:2 width_ft: found '1e9999', expected a number from 0 to 98.4",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,1,1e9999,1" + tail));
    assertEquals(
        "d.csv:2 found_on: found '2026-05-02', expected a date not after 2026-05-01",
        problemOf("D1,SR 12,,1,,,,R1,pothole,low,1,1,1,2026-05-02,,,,"));
    assertEquals(
        "d.csv:2 milepost: found '1.2 behind', expected a milepost in miles such as 12.345, with '"
            + " back' or ' ahead' where it occurs twice",
        problemOf("D1,SR 12,,1.2 behind,,,,R1,pothole,low,1,1,1" + tail));
    assertEquals(
        "d.csv:2 longitude: found '44 -93', expected longitude before latitude (they look swapped)",
        problemOf("D1,,,,,44,-93,R1,pothole,low,1,1,1" + tail).replace(".0", ""));
  }

  @Test
  void theLongestAndWidestAllowedAreAllowedInFeet() {
    // 98.4 ft = 29.99 m and 39.3 in = 0.998 m, below the limits of 30 m and 1 m.
    Read<RawDefect> read = defects("D1,SR 12,,1,,,,R1,pothole,low,1,98.4,39.3,2026-04-30,,,,\n");
    assertEquals("", SmallCounty.texts(read.problems()));
  }

  @Test
  void anIdMayStandOnceAndAMissingOneIsMadeTheSameEachTime() {
    String row = ",SR 12,,1,,,,R1,pothole,low,1,1,1,2026-04-30,,,,\n";
    Read<RawDefect> read = defects("D1" + row + "D1" + row + row + row);
    assertEquals(
        """
        d.csv:3 id: found 'D1', expected an id other than that at d.csv:2
        d.csv:5 id: found nothing, expected a row unlike that at d.csv:4""",
        SmallCounty.texts(read.problems()));
    String made = read.rows().get(1).id();
    assertEquals(made, defects(row).rows().get(0).id());
    assertNotEquals(made, defects(row.replace("pothole", "depression")).rows().get(0).id());
  }

  @Test
  void aFileWithoutAColumnItNeedsIsRefusedWhole() {
    Path file = SmallCounty.write(folder, "d.csv", "id,route,milepost,kind\n");
    ExchangeException e =
        assertThrows(ExchangeException.class, () -> DefectReader.read(file, FieldMap.NONE, TODAY));
    assertEquals(
        "d.csv:1 lane: found 'id, route, milepost, kind', expected a column lane (another name can"
            + " be mapped)",
        e.problem().text());
  }

  @Test
  void aMisspeltColumnIsSaidToBeUnused() {
    Path file =
        SmallCounty.write(
            folder, "f.csv", "kind,route,milepost,side,found_on,notes\nsign,A,1,R,2026-01-02,x\n");
    Read<RawFinding> read = FindingReader.read(file, FieldMap.NONE, TODAY);
    assertEquals(List.of("f.csv: columns not used: notes"), read.notes());
    assertEquals(Optional.of(Side.RIGHT), read.rows().get(0).side());
  }

  @Test
  void readsPatchesInShortTonsWithBlanksAsUnknown() {
    Path file =
        SmallCounty.write(
            folder,
            "p.csv",
            """
            id,work,route,milepost,milepost_to,lane,done_on,tons,crew_hours,cost
            P1,blade_patch,SR 12,1,1.1,R1,2020-06-01,10,,1234.50
            P2,resurfacing,SR 12,1,2,,2019-06-01,,,
            """);
    Read<RawPatch> read = PatchReader.read(file, FieldMap.NONE, TODAY);
    assertEquals("", SmallCounty.texts(read.problems()));
    RawPatch p = read.rows().get(0);
    assertEquals(9.0718474, p.tonnes(), 1e-12); // 10 x 0.90718474
    assertEquals(new BigDecimal("1234.50"), p.cost());
    assertNull(p.crewHours());
    assertNull(read.rows().get(1).lane());
  }

  @Test
  void readsAttributesAndConvertsTheUsSpellings() {
    Path file =
        SmallCounty.write(
            folder,
            "a.csv",
            """
            route,milepost_from,milepost_to,name,value,valid_from,valid_to
            SR 12,,,posted_speed_mph,55,2020-01-01,
            SR 12,0,1,shoulder_width_ft,10,,
            SR 12,0,1,AADT,many,,
            SR 12,0,1,soil,clay,,
            SR 12,0,1,lanes,2.5,,
            SR 12,0,1,urban,true,2020-01-01,2019-01-01
            """);
    Read<RawAttribute> read = AttributeReader.read(file, FieldMap.NONE);
    assertEquals(
        """
        a.csv:4 value: found 'many', expected a number from 0 to 1000000
        a.csv:6 value: found '2.5', expected a whole number from 1 to 20
        a.csv:7 valid_to: found '2019-01-01', expected a date after valid_from (2020-01-01)""",
        SmallCounty.texts(read.problems()));
    assertEquals("posted_speed_kmh", read.rows().get(0).name());
    assertEquals("88.51392", read.rows().get(0).value()); // 55 x 1.609344
    assertEquals("3.048", read.rows().get(1).value());
    assertEquals(List.of("a.csv: names kept as the agency's own: soil (1 rows)"), read.notes());
  }

  @Test
  void postsTakeAPlaceOrADistance() {
    Path file =
        SmallCounty.write(
            folder,
            "posts.csv",
            """
            route,milepost,ahead,longitude,latitude,distance_ft
            SR 12,1,,-93.08,44,
            SR 12,5.2,5,,,27000
            SR 12,6,,,,
            SR 12,x,,,,5
            """);
    Read<RawPost> read = PostReader.read(file, FieldMap.NONE);
    assertEquals(2, read.rows().size());
    assertEquals(5, read.rows().get(1).aheadMiles());
    assertEquals(8229.6, read.rows().get(1).distanceM().getAsDouble(), 1e-9); // 27000 x 0.3048
    assertFalse(read.clean());
    assertEquals(List.of(4L, 5L), read.problems().stream().map(RowProblem::line).toList());
  }

  @Test
  void theRefusalReportListsEachRowWithItsFileLineFieldFoundAndExpected() throws Exception {
    Path target = folder.resolve("refused.csv");
    RefusalReport.csv(
        target, List.of(new RowProblem("d.csv", 3, "kind", "=cmd|' /C calc'!A0", "a, b")));
    assertEquals(
        "file,line,field,found,expected\r\nd.csv,3,kind,'=cmd|' /C calc'!A0,\"a, b\"\r\n",
        java.nio.file.Files.readString(target));
    RowProblem p = new RowProblem("d.csv", 3, "kind", "x\u001b[31m\u202ey", "z");
    assertEquals("d.csv:3 kind: found 'x\uFFFD[31m\uFFFDy', expected z", p.text());
    assertEquals(p.text() + "\nand 2 more", RefusalReport.text(List.of(p, p, p), 1));
  }
}
