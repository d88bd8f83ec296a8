package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What stands in the way of work is said in one sentence; made really so where a test can. */
class StartCheckTest {
  @TempDir Path folder;
  private Shell shell;

  @BeforeEach
  void oneRoad() throws Exception {
    shell = new Shell(folder.resolve("work"));
    oneRoad(shell);
  }

  private void oneRoad(Shell in) throws IOException {
    Path roads = folder.resolve("roads.geojson");
    Files.writeString(
        roads,
        """
        {"type": "FeatureCollection", "features": [{"type": "Feature",
          "properties": {"route": "SR 1", "class": "collector"},
          "geometry": {"type": "LineString",
            "coordinates": [[-93.20, 41.50], [-93.18, 41.51], [-93.15, 41.51]]}}]}
        """);
    Shell.Outcome made = in.run("import", "roads", roads.toString());
    assertEquals(ExitCode.DONE, made.code(), made.err());
  }

  @Test
  void aClockThatWasSetBackIsSaidAndWorkGoesOn() throws Exception {
    sql("UPDATE change_log SET at = '2999-01-02T03:04:05.678Z'");
    Shell.Outcome found = shell.run("history");
    assertEquals(ExitCode.DONE, found.code());
    assertTrue(
        found.err().startsWith("note: this computer's clock says ")
            && found.err().contains("the last change in the store is of 2999-01-02T03:04:05Z"),
        found.err());
    assertEquals(1, found.err().lines().count());
    // What is written now stands behind it all the same, and can be taken back.
    Shell.Outcome undone = shell.run("undo", "1");
    assertEquals(ExitCode.DONE, undone.code(), undone.err());
    assertTrue(shell.run("history").out().contains("undo 1"));
  }

  @Test
  void aDiskThatIsNearlyFullIsSaid() throws Exception {
    Path disk = Files.createDirectory(folder.resolve("disk"));
    Assumptions.assumeTrue(
        run("mount", "-t", "tmpfs", "-o", "size=8m", "tmpfs", disk.toString()),
        "only root may mount a small disk");
    try {
      Shell small = new Shell(disk.resolve("work"));
      oneRoad(small);
      String said = small.run("history").err();
      assertTrue(said.matches("(?s)note: the disk of .* is nearly full: \\d MB are left;.*"), said);
      assertEquals(1, said.lines().count());
      // And a folder that has become read-only.
      assertTrue(run("mount", "-o", "remount,ro", disk.toString()));
      assertEquals(
          "the work folder " + small.work() + " cannot be written: it is read-only",
          small.run("history").err().strip());
    } finally {
      run("umount", "-l", disk.toString());
    }
  }

  @Test
  void aStoreThatAnotherProgramHasLocked() throws Exception {
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + store());
        Statement s = other.createStatement()) {
      s.execute("PRAGMA locking_mode = EXCLUSIVE");
      s.execute("BEGIN EXCLUSIVE");
      Shell.Outcome refused = shell.run("history");
      assertEquals(ExitCode.NOTHING_DONE, refused.code());
      assertEquals(
          store()
              + " is being written by another program; nothing was changed, try again when it has"
              + " finished",
          refused.err().strip());
    }
  }

  @Test
  void aPortThatIsTaken() throws Exception {
    try (ServerSocket other = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      Shell.Outcome refused = shell.run("serve", "--port", String.valueOf(other.getLocalPort()));
      assertEquals(ExitCode.NOTHING_DONE, refused.code());
      assertTrue(
          refused.err().contains("cannot listen on port " + other.getLocalPort())
              && refused.err().contains("name another with --port"),
          refused.err());
      assertEquals(1, refused.err().strip().lines().count(), refused.err());
    }
  }

  @Test
  void aStoreOfANewerProgramAndAFileThatIsNone() throws Exception {
    sql("UPDATE lanemend_store SET schema_version = 99");
    assertTrue(
        shell.run("history").err().contains("was written by a newer Lanemend: its layout is"));
    Files.writeString(store(), "no store");
    assertEquals(
        store() + " is not a GeoPackage (it is no SQLite file)",
        shell.run("history").err().strip());
  }

  private Path store() {
    return shell.work().resolve("lanemend.gpkg");
  }

  private void sql(String statement) throws Exception {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + store());
        Statement s = c.createStatement()) {
      s.execute(statement);
    }
  }

  private static boolean run(String... command) throws InterruptedException {
    try {
      Process p = new ProcessBuilder(command).redirectErrorStream(true).start();
      p.getInputStream().readAllBytes();
      return p.waitFor(20, TimeUnit.SECONDS) && p.exitValue() == 0;
    } catch (IOException e) {
      return false;
    }
  }
}
