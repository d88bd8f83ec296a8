package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Pieces by route and milepost, conflicts, and filters on the command line. */
class SegmentsCommandTest {
  @TempDir static Path folder;

  private static Shell shell;

  /**
   * SR 1, some five miles without posts: 55 mph to mile 2 and 45 from there, two lanes from mile 1
   * on. SR 2 has two speeds between mile 1 and 2. Three defects on SR 1.
   */
  @BeforeAll
  static void given() throws IOException {
    shell = new Shell(folder.resolve("work"));
    bring(
        "roads",
        """
        route,class,wkt
        SR 1,arterial,"LINESTRING(-100 40, -99.9 40)"
        SR 2,arterial,"LINESTRING(-100 41, -99.9 41)"
        """);
    bring(
        "attributes",
        """
        route,milepost_from,milepost_to,name,value
        SR 1,,2,posted_speed_mph,55
        SR 1,2,,posted_speed_mph,45
        SR 1,1,,lanes,2
        SR 2,,2,posted_speed_mph,55
        SR 2,1,,posted_speed_mph,35
        """);
    bring(
        "defects",
        """
        id,route,milepost,lane,kind,severity,length_ft,width_ft,depth_in,found_on
        D-1,SR 1,1.5,R1,rutting,high,60,8,2,2026-04-30
        D-2,SR 1,3.0,R1,pothole,low,3,3,2,2026-05-02
        D-3,SR 1,4.0,L1,alligator_cracking,high,30,8,,2026-05-03
        """);
    bring(
        "findings",
        """
        id,kind,route,milepost,side,found_on
        F-1,fence,SR 1,1.0,left,2026-04-30
        F-2,culvert,SR 1,2.0,right,2026-04-30
        """);
    bring(
        "patches",
        """
        id,work,route,milepost,milepost_to,done_on,tons
        P-1,blade patch,SR 1,2.5,2.6,2024-06-01,40
        P-2,blade patch,SR 1,3.5,3.6,2025-06-01,10
        """);
  }

  private static void bring(String kind, String text) throws IOException {
    Path file = Files.writeString(folder.resolve(kind + ".csv"), text);
    Shell.Outcome said = shell.run("import", kind, file.toString());
    assertEquals(ExitCode.DONE, said.code(), said.err());
  }

  @Test
  void piecesArePrintedByRouteAndMilepost() {
    // when SR 1 is asked for
    Shell.Outcome said = shell.run("segments", "--route", "SR 1", "--of", "posted_speed_kmh,lanes");
    // then it comes in three pieces, cut at miles 1 and 2
    assertEquals(ExitCode.DONE, said.code(), said.err());
    List<String> lines = said.out().lines().toList();
    assertEquals("SR 1  0.000 - 1.000  posted_speed_mph=55", lines.get(0));
    assertEquals("SR 1  1.000 - 2.000  posted_speed_mph=55 lanes=2", lines.get(1));
    assertTrue(lines.get(2).startsWith("SR 1  2.000 - 5."), lines.get(2));
    assertTrue(lines.get(2).endsWith("  posted_speed_mph=45 lanes=2"), lines.get(2));
    assertEquals("segments   3, 0 conflicts", lines.get(3));
  }

  @Test
  void aConflictIsListedAndEndsTheCommandWith1() {
    Shell.Outcome said = shell.run("segments", "--of", "posted_speed_mph");
    assertEquals(ExitCode.TROUBLE_FOUND, said.code());
    assertTrue(
        said.out().contains("conflict: SR 2  1.000 - 2.000  posted_speed_mph is 55 and 35"),
        said.out());
    // The piece takes the value that starts last
    assertTrue(said.out().contains("SR 2  0.000 - 1.000  posted_speed_mph=55"), said.out());
    assertFalse(said.out().contains("SR 2  1.000 - 2.000  posted_speed_mph=55"), said.out());
  }

  @Test
  void piecesAreChosenByAFilter() {
    Shell.Outcome said =
        shell.run("segments", "--route", "SR 1", "--where", "posted_speed_mph = 45 AND lanes = 2");
    assertEquals(ExitCode.DONE, said.code(), said.err());
    assertEquals(2, said.out().lines().count(), said.out());
    assertTrue(said.out().contains("segments   1 of 3, 0 conflicts"), said.out());
  }

  @Test
  void defectsAndPatchesLieOverTheRoadsFacts() {
    Shell.Outcome said =
        shell.run(
            "segments",
            "--route",
            "SR 1",
            "--of",
            "defects,patches",
            "--where",
            "patches IS NOT NULL");
    assertTrue(said.out().contains("SR 1  2.500 - 2.600  patches=P-1"), said.out());
    assertTrue(said.out().contains("SR 1  3.500 - 3.600  patches=P-2"), said.out());
  }

  @Test
  void piecesAreWrittenAsCsvAndGeoJson() throws IOException {
    Path csv = folder.resolve("pieces.csv");
    shell.run("segments", "--route", "SR 1", "--of", "lanes", "--to", csv.toString());
    List<String> lines = Files.readAllLines(csv);
    assertEquals("route,direction,milepost_from,milepost_to,length_ft,lanes", lines.get(0));
    assertTrue(lines.get(1).startsWith("SR 1,,0.000,1.000,5280"), lines.get(1));
    shell.run("segments", "--route", "SR 1", "--of", "lanes", "--as", "geojson");
    String features = Files.readString(shell.work().resolve("exports").resolve("segments.geojson"));
    assertTrue(
        features.contains("\"lanes\":\"2\"},\"geometry\":{\"type\":\"LineString\""), features);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "defects|severity = 'high'|D-1 D-3",
        "defects|id = 'D-2' OR found_on > '2026-05-02'|D-2 D-3",
        "defects|milepost BETWEEN 1 AND 3.5 AND length_ft < 10|D-2",
        "findings|kind = 'fence'|F-1",
        "findings|side = 'right' AND milepost > 1|F-2",
        "findings|DWITHIN(geometry, POINT(-99.981 40), 300, meters)|F-1",
        "defects|severity = 'high' AND lane LIKE 'L%'|D-3",
        "patches|tons > 20 AND done_on BEFORE 2025-01-01T00:00:00Z|P-1"
      })
  void exportsAreChosenByAFilter(String table, String filter, String ids) throws IOException {
    Path file = folder.resolve("chosen.csv");
    Shell.Outcome said = shell.run("export", table, "--where", filter, "--to", file.toString());
    assertEquals(ExitCode.DONE, said.code(), said.err());
    List<String> found =
        Files.readAllLines(file).stream().skip(1).map(l -> l.substring(0, l.indexOf(','))).toList();
    assertEquals(List.of(ids.split(" ", -1)), found);
    // and it says how many of how many
    int all = table.equals("defects") ? 3 : 2;
    assertTrue(said.out().contains(": " + found.size() + " of " + all + " rows"), said.out());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "export defects --where|severity = 'high|character ",
        "export findings --where|severity = 'high'|expected one of route, direction, id",
        "export defects --where|id = 'D-1'; DELETE FROM defect|expected AND, OR or the end",
        "export defects --where|colour = 'red'|expected one of route, direction, id",
        "export roads --where|lanes = 2|--where chooses among defects, findings or patches",
        "export defects --to|chosen.xlsx|a name that ends in .csv, .geojson or .gpkg is expected",
        "segments --where|speed = 55|posted_speed_mph",
        "segments --route|SR 9|there is no route 'SR 9'",
        "segments --of|weather|known: lanes, level, one_way, posted_speed_kmh, defects, patches"
      })
  void whatIsWrongIsSaidInOneSentence(String words, String last, String expected) {
    List<String> all = new java.util.ArrayList<>(List.of(words.split(" ", -1)));
    all.add(last);
    Shell.Outcome said = shell.run(all.toArray(String[]::new));
    assertEquals(ExitCode.NOTHING_DONE, said.code(), said.out());
    assertTrue(said.err().contains(expected), said.err());
    assertEquals(1, said.err().lines().count(), said.err());
  }
}
