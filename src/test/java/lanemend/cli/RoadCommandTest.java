package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Roads are edited on the command line, and what lies on them goes along. */
class RoadCommandTest {
  @TempDir Path folder;
  private Shell shell;

  /**
   * SR 1 runs east along the 40th parallel for some 5.3 miles, without posts. SR 2 goes on where it
   * ends. Three defects, a culvert and a repair on SR 1.
   */
  @BeforeEach
  void given() throws IOException {
    shell = new Shell(folder.resolve("work"));
    bring(
        "roads",
        """
        route,class,wkt
        SR 1,arterial,"LINESTRING(-100 40, -99.97 40, -99.95 40, -99.9 40)"
        SR 2,arterial,"LINESTRING(-99.9 40, -99.8 40)"
        """);
    bring(
        "attributes",
        """
        route,milepost_from,milepost_to,name,value
        SR 1,,,posted_speed_mph,55
        SR 1,,,lanes,2
        """);
    bring(
        "defects",
        """
        id,route,milepost,lane,kind,severity,length_ft,width_ft,depth_in,found_on
        D-1,SR 1,1.0,R1,rutting,high,60,8,2,2026-04-30
        D-2,SR 1,2.5,R1,pothole,low,3,3,2,2026-04-30
        D-3,SR 1,4.0,L1,alligator_cracking,high,30,8,,2026-04-30
        """);
    bring(
        "findings",
        """
        id,kind,route,milepost,side,found_on
        F-1,culvert,SR 1,2.0,right,2026-04-30
        """);
    bring(
        "patches",
        """
        id,work,route,milepost,milepost_to,done_on,tons
        P-1,blade patch,SR 1,2.2,2.3,2024-06-01,40
        """);
  }

  private void bring(String kind, String text) throws IOException {
    done("import", kind, file(kind + ".csv", text).toString());
  }

  private Path file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private Shell.Outcome done(String... words) {
    Shell.Outcome said = shell.run(words);
    assertEquals(ExitCode.DONE, said.code(), said.out() + said.err());
    return said;
  }

  private List<String> exported(String table, String... more) throws IOException {
    Path to = folder.resolve("out.csv");
    String[] words = new String[4 + more.length];
    System.arraycopy(new String[] {"export", table, "--to", to.toString()}, 0, words, 0, 4);
    System.arraycopy(more, 0, words, 4, more.length);
    done(words);
    return Files.readAllLines(to);
  }

  /** A bend to the north in the place of the straight between the 2nd and the 3rd vertex. */
  private Path bend() throws IOException {
    return file(
        "bend.csv", "route,class,wkt\n,,\"LINESTRING(-99.97 40, -99.96 40.004, -99.95 40)\"\n");
  }

  @Test
  void aRebuiltStretchLeavesTheRestWhereItWasAndAsksAboutWhatLayOnIt() throws IOException {
    List<String> before = exported("defects");
    String mile4 = done("locate", "--route", "SR 1", "--milepost", "4.0").out();
    String bend = bend().toString();
    // when a new road is tried, then it is said what would become of everything, and nothing is
    Shell.Outcome tried =
        done("road", "realign", bend, "--route", "SR 1", "--rebuilt", "--dry-run");
    assertTrue(tried.out().contains("2 needs a look"), tried.out());
    assertTrue(tried.out().contains("nothing was written"), tried.out());
    assertEquals(before, exported("defects"));
    // when it is built
    Shell.Outcome built =
        done("road", "realign", bend, "--route", "SR 1", "--rebuilt", "--on", "2026-06-01");
    assertTrue(built.out().contains("defect D-2: needs a look"), built.out());
    assertTrue(built.out().contains("finding F-1: needs a look"), built.out());
    assertTrue(built.out().contains("defect D-3: stays at the place"), built.out());
    assertTrue(built.out().contains("fact lanes = 2: shortened"), built.out());
    // then mile 4 is still where it was, farther along a longer road
    String now = done("locate", "--route", "SR 1", "--milepost", "4.0").out();
    assertEquals(lonLat(mile4), lonLat(now));
    assertTrue(along(now) > along(mile4) + 60, mile4 + now);
    assertEquals(
        mile4,
        done("locate", "--route", "SR 1", "--milepost", "4.0", "--as-of", "2026-05-31").out());
    // the pothole and the old repair are on no road of today, and were on that of May
    assertFalse(exported("defects").toString().contains("D-2"));
    assertFalse(exported("patches").toString().contains("P-1"));
    assertTrue(exported("patches", "--as-of", "2026-05-31").toString().contains("P-1"));
    assertEquals(before, exported("defects", "--as-of", "2026-05-31"));
    // and the speed limit goes on over the new road while the lanes are not known there
    String pieces = done("segments", "--route", "SR 1", "--of", "lanes,posted_speed_kmh").out();
    assertTrue(pieces.lines().filter(l -> l.startsWith("SR 1")).count() == 3, pieces);
    assertEquals(ExitCode.DONE, shell.run("check").code(), shell.run("check").out());
  }

  private static String lonLat(String located) {
    return located.substring(located.lastIndexOf(", -") + 2).strip();
  }

  private static double along(String located) {
    return Double.parseDouble(
        located.split(", ", -1)[1].replace("along", "").replaceAll("[^0-9.]", ""));
  }

  @Test
  void theReviewListIsSettledByHandAndUndoTakesItAllBack() throws IOException {
    List<String> before = exported("defects");
    done("road", "realign", bend().toString(), "--route", "SR 1", "--rebuilt");
    String list = done("review").out();
    assertTrue(list.contains("2 to look at"), list);
    String pothole = number(list, "D-2");
    String culvert = number(list, "F-1");
    // Given that nothing on no road can be accepted
    Shell.Outcome refused = shell.run("review", "accept", pothole);
    assertEquals(ExitCode.NOTHING_DONE, refused.code());
    assertTrue(refused.err().contains("place it on one, or withdraw it"), refused.err());
    // when the pothole is withdrawn and the culvert placed
    done("review", "withdraw", pothole, "--note", "dug up");
    done("review", "place", culvert, "--route", "SR 1", "--milepost", "2.05");
    assertTrue(done("review").out().contains("0 to look at"));
    assertTrue(done("review", "--all").out().contains("dug up"));
    assertTrue(exported("findings").toString().contains("F-1"));
    assertEquals(ExitCode.DONE, shell.run("check").code(), shell.run("check").out());
    // then the edit is not taken back under them, but all three in turn are
    long realign = writeOf("realign");
    Shell.Outcome under = shell.run("undo", String.valueOf(realign));
    assertEquals(ExitCode.NOTHING_DONE, under.code());
    assertTrue(under.err().contains("later changes touch the same rows"), under.err());
    done("undo");
    done("undo");
    done("undo");
    assertEquals(before, exported("defects"));
    assertTrue(done("review", "--all").out().contains("0 to look at"));
    assertTrue(done("history").out().contains("taken back by"));
    assertEquals(ExitCode.DONE, shell.run("check").code(), shell.run("check").out());
  }

  private static String number(String list, String key) {
    return list.lines()
        .filter(l -> l.contains(key))
        .findFirst()
        .orElseThrow()
        .strip()
        .split(" ", -1)[0];
  }

  private long writeOf(String word) {
    String line =
        done("history").out().lines().filter(l -> l.contains(word)).findFirst().orElseThrow();
    return Long.parseLong(line.strip().split(" ", -1)[0]);
  }

  @Test
  void aRoadIsSplitRenamedAndMergedAndItsDefectsKeepTheirPlaces() throws IOException {
    String at = lonLat(done("locate", "--route", "SR 1", "--milepost", "4.0").out());
    done("road", "split", "--route", "SR 1", "--at", "3.0", "--into", "SR 1,CR 9");
    assertEquals(at, lonLat(done("locate", "--route", "CR 9", "--milepost", "4.0").out()));
    assertTrue(exported("defects").stream().anyMatch(l -> l.contains("D-3") && l.contains("CR 9")));
    done("road", "rename", "--route", "CR 9", "--to", "CR 10");
    assertEquals(at, lonLat(done("locate", "--route", "CR 10", "--milepost", "4.0").out()));
    Shell.Outcome merged = done("road", "merge", "--route", "CR 10", "--with", "SR 2");
    assertTrue(merged.out().contains("run on over it"), merged.out());
    done("road", "merge", "--route", "SR 1", "--with", "CR 10");
    assertEquals(at, lonLat(done("locate", "--route", "SR 1", "--milepost", "4.0").out()));
    assertTrue(done("history", "--of", "D-3").out().contains("route_id: SR 1 -> CR 9"));
    done("road", "retire", "--route", "SR 1", "--from", "8", "--to", "10");
    assertEquals(ExitCode.DONE, shell.run("check").code(), shell.run("check").out());
  }

  @Test
  void postsThatComeAfterTheDefectsMoveWhatWasEnteredByMilepost() throws IOException {
    // Given that the signs read one mile more than the road is long
    String was = lonLat(done("locate", "--route", "SR 1", "--milepost", "3.0").out());
    Path posts = file("posts.csv", "route,milepost,distance_m\nSR 1,1.0,0\nSR 1,6.0,8046.72\n");
    // when they are brought in, then mile 4.0 lies where mile 3.0 was taken to be
    Shell.Outcome said = done("import", "posts", posts.toString());
    assertTrue(said.out().contains("moved with the road"), said.out());
    String d3 =
        exported("defects").stream().filter(l -> l.contains("D-3")).findFirst().orElseThrow();
    assertTrue(d3.contains("3.997,4.003"), d3);
    assertEquals(was, lonLat(done("locate", "--route", "SR 1", "--milepost", "4.0").out()));
    assertEquals(ExitCode.DONE, shell.run("check").code(), shell.run("check").out());
  }

  @Test
  void aRoadNumberedAnewLeavesEverythingWhereItIs() throws IOException {
    String was = lonLat(done("locate", "--route", "SR 1", "--milepost", "4.0").out());
    Path posts = file("posts.csv", "route,milepost,distance_m\nSR 1,101.0,0\nSR 1,106.0,8046.72\n");
    Shell.Outcome said =
        done("road", "recalibrate", posts.toString(), "--renumbered", "--on", "2026-06-01");
    assertTrue(said.out().contains("SR 1 4.000 is now SR 1 105.000"), said.out());
    assertEquals(was, lonLat(done("locate", "--route", "SR 1", "--milepost", "105").out()));
  }

  @Test
  void roadsReadAgainAreComparedAndFromADayOnEdited() throws IOException {
    // Given the road file once more: SR 1 surveyed better, a new SR 3, and no SR 2
    String at = lonLat(done("locate", "--route", "SR 1", "--milepost", "4.0").out());
    Path again =
        file(
            "again.csv",
            """
            route,class,wkt
            SR 1,arterial,"LINESTRING(-100 40, -99.97 40.00003, -99.95 40, -99.9 40)"
            SR 3,local,"LINESTRING(-100 40.1, -99.95 40.1)"
            """);
    // when no day is given, then it is only said what differs
    Shell.Outcome said = shell.run("import", "roads", again.toString());
    assertEquals(ExitCode.NOTHING_DONE, said.code());
    assertTrue(
        said.out().contains("0 lie as they lay, 1 otherwise, 1 are new, 1 are not"), said.out());
    // when it is, then these are edits of that day
    done("import", "roads", again.toString(), "--on", "2026-06-01", "--retire-missing");
    assertEquals(
        ExitCode.NOTHING_DONE, shell.run("locate", "--route", "SR 2", "--milepost", "1").code());
    done("locate", "--route", "SR 2", "--milepost", "1", "--as-of", "2026-05-31");
    done("locate", "--route", "SR 3", "--milepost", "1");
    String now = lonLat(done("locate", "--route", "SR 1", "--milepost", "4.0").out());
    assertEquals(at.substring(0, 10), now.substring(0, 10));
    assertEquals(ExitCode.DONE, shell.run("check").code(), shell.run("check").out());
    // and one undo takes all of it back
    done("undo");
    assertEquals(at, lonLat(done("locate", "--route", "SR 1", "--milepost", "4.0").out()));
    done("locate", "--route", "SR 2", "--milepost", "1");
  }

  @Test
  void whatIsNotSaidIsAskedAndTheFutureWaits() throws IOException {
    String bend = bend().toString();
    Shell.Outcome why = shell.run("road", "realign", bend, "--route", "SR 1");
    assertTrue(why.err().contains("--redrawn or --rebuilt"), why.err());
    Shell.Outcome later = shell.run("road", "retire", "--route", "SR 1", "--on", "2999-01-01");
    assertTrue(later.err().contains("is to come"), later.err());
    Shell.Outcome none = shell.run("road", "retire", "--route", "SR 9");
    assertTrue(none.err().contains("there is no route 'SR 9'"), none.err());
    Path far = file("far.csv", "route,class,wkt\n,,\"LINESTRING(-99.97 41, -99.95 41)\"\n");
    Shell.Outcome away =
        shell.run("road", "realign", far.toString(), "--route", "SR 1", "--redrawn");
    assertTrue(away.err().contains("at one end at least"), away.err());
    for (Shell.Outcome said : List.of(why, later, none, away)) {
      assertEquals(ExitCode.NOTHING_DONE, said.code());
    }
  }
}
