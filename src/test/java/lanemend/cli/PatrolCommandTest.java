package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A patrol's GPX file from the command line: stretches, waypoints, and rows that use the track. */
class PatrolCommandTest {
  @TempDir Path folder;

  private Shell shell;

  /**
   * SR 1 runs east along 40 north, with SR 2 from -99.95 to -99.90; SR 2 comes from the north and
   * leaves to the north. CR 3 runs 15 m north of the last part of SR 1, joined to it at its ends.
   */
  @BeforeEach
  void given() throws IOException {
    shell = new Shell(folder.resolve("work"));
    bring(
        "roads",
        """
        route,class,lanes,wkt
        SR 1,arterial,2,"LINESTRING(-100 40, -99.95 40)"
        SR 1;SR 2,arterial,2,"LINESTRING(-99.95 40, -99.90 40)"
        SR 1,arterial,2,"LINESTRING(-99.90 40, -99.80 40)"
        SR 2,arterial,2,"LINESTRING(-99.95 40.02, -99.95 40)"
        SR 2,arterial,2,"LINESTRING(-99.90 40, -99.90 40.02)"
        CR 3,local,2,"LINESTRING(-99.88 40, -99.8798 40.00014, -99.8302 40.00014, -99.83 40)"
        """);
  }

  private void bring(String kind, String text) throws IOException {
    Path file = Files.writeString(folder.resolve(kind + ".csv"), text);
    Shell.Outcome said = shell.run("import", kind, file.toString());
    assertEquals(ExitCode.DONE, said.code(), said.err());
  }

  /** West to east along a latitude, 17 m a second, from 13:00 UTC. */
  private static String track(double latitude, double fromLon, double toLon) {
    StringBuilder points = new StringBuilder("<trk><trkseg>\n");
    int steps = (int) (Math.abs(toLon - fromLon) / 0.0004);
    for (int i = 0; i <= steps; i++) {
      points.append(
          String.format(
              Locale.ROOT,
              "<trkpt lat=\"%.6f\" lon=\"%.6f\"><time>%s</time></trkpt>%n",
              latitude,
              fromLon + (toLon - fromLon) * i / steps,
              Instant.parse("2026-04-30T13:00:00Z").plusSeconds(2L * i)));
    }
    return points + "</trkseg></trk>\n";
  }

  private String gpx(String name, String body) throws IOException {
    return Files.writeString(folder.resolve(name), "<gpx version=\"1.1\">\n" + body + "</gpx>\n")
        .toString();
  }

  private static String waypoint(double lon, double lat, String name) {
    return String.format(
        Locale.ROOT,
        "<wpt lat=\"%.6f\" lon=\"%.6f\"><time>2026-04-30T13:10:00Z</time><name>%s</name></wpt>%n",
        lat,
        lon,
        name);
  }

  @Test
  void aTrackIsPrintedByRouteAndMilepostWithTimes() throws IOException {
    String file = gpx("day.gpx", track(39.99998, -99.99, -99.81));
    Path csv = folder.resolve("stretches.csv");
    Shell.Outcome said = shell.run("patrol", file, "--to", csv.toString());
    assertEquals(ExitCode.DONE, said.code(), said.out() + said.err());
    // 0.01 degrees of longitude at 40 north are 853.9 m, 0.531 miles (WGS 84, from memory)
    assertTrue(said.out().contains("SR 1 0.53"), said.out());
    assertTrue(said.out().contains("(together with SR 2 "), said.out());
    assertTrue(said.out().contains("patrol     2026-04-30"), said.out());
    assertFalse(said.out().contains("CR 3"), said.out());
    assertTrue(Files.readString(csv).contains("SR 2"), Files.readString(csv));
  }

  @Test
  void aWaypointGoesToTheRoutePatrolledAndItsLaneIsTheOneDriven() throws IOException {
    // Given a pothole marked where SR 1 and SR 2 run together, on the way back west
    String file =
        gpx(
            "day.gpx",
            waypoint(-99.92, 40.00001, "pothole high 3x2x4 by the gate")
                + waypoint(-99.86, 40, "fence left wire cut")
                + waypoint(-99.86, 40, "lunch")
                + track(40.00002, -99.81, -99.99));
    Shell.Outcome said = shell.run("import", "patrol", file);
    assertEquals(ExitCode.ROWS_REFUSED, said.code(), said.out() + said.err());
    assertTrue(said.err().contains("found 'lunch', expected a note that begins"), said.err());
    shell.run("export", "defects");
    String defects = Files.readString(shell.work().resolve("exports").resolve("defects.csv"));
    // then it is on SR 1, and the right-hand lane westward is L1
    assertTrue(defects.contains("L1,pothole,high,3,2,4,2026-04-30"), defects);
    assertTrue(defects.contains("by the gate,open,SR 1,"), defects);
    // and the fence on the patrol's left is on the right of growing mileposts
    shell.run("export", "findings");
    String findings = Files.readString(shell.work().resolve("exports").resolve("findings.csv"));
    assertTrue(findings.contains("fence"), findings);
    assertTrue(findings.contains(",right,"), findings);
  }

  @Test
  void rowsOfADefectsFileUseTheTrack() throws IOException {
    // Given rows without a route: together, and between SR 1 and the road 15 m beside it
    String rows =
        """
        id,longitude,latitude,lane,kind,severity,length_ft,width_ft,depth_in,found_on,found_at
        D-1,-99.92,40,R1,pothole,high,3,2,4,2026-04-30,
        D-2,-99.85,40.00007,R1,pothole,high,3,2,4,2026-04-30,2026-04-30T13:11:40Z
        """;
    Path file = Files.writeString(folder.resolve("found.csv"), rows);
    // when they come alone, they are asked about with every candidate
    Shell.Outcome alone = shell.run("import", "defects", file.toString());
    assertEquals(ExitCode.ROWS_REFUSED, alone.code());
    assertTrue(alone.err().contains("write one of: SR 1 milepost"), alone.err());
    assertTrue(alone.err().contains("SR 2 milepost"), alone.err());
    assertTrue(alone.err().contains("CR 3 milepost"), alone.err());
    // with the track of a patrol on SR 1 both are told
    String gpx = gpx("day.gpx", track(39.99997, -99.99, -99.81));
    Shell.Outcome said = shell.run("import", "defects", file.toString(), "--track", gpx);
    assertEquals(ExitCode.DONE, said.code(), said.err());
    shell.run("export", "defects");
    String defects = Files.readString(shell.work().resolve("exports").resolve("defects.csv"));
    assertFalse(defects.contains("SR 2"), defects);
    assertFalse(defects.contains("CR 3"), defects);
  }

  @Test
  void whatTheTrackDoesNotTellIsAskedAboutUnlessTheRouteIsNamed() throws IOException {
    // Given a track that begins and ends where the routes run together
    String file =
        gpx("day.gpx", waypoint(-99.92, 40, "pothole high 3x2x4 R1") + track(40, -99.94, -99.91));
    Shell.Outcome asked = shell.run("import", "patrol", file);
    assertTrue(asked.out().contains("does not tell which was patrolled"), asked.out());
    assertTrue(asked.err().contains("write one of: SR 1 milepost"), asked.err());
    Shell.Outcome said = shell.run("import", "patrol", file, "--patrolled", "SR 2");
    assertEquals(ExitCode.DONE, said.code(), said.err());
    assertEquals(ExitCode.TROUBLE_FOUND, shell.run("patrol", file).code());
    assertEquals(
        "there is no route 'SR 9'", shell.run("patrol", file, "--patrolled", "SR 9").err().strip());
  }
}
