package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Backup, a mistake, restore; a fault made from outside, repair. */
class BackupCommandTest {
  @TempDir Path folder;
  private Shell shell;

  @BeforeEach
  void oneRoad() throws Exception {
    Path roads = folder.resolve("roads.geojson");
    Files.writeString(
        roads,
        """
        {"type": "FeatureCollection", "features": [{"type": "Feature",
          "properties": {"route": "SR 1", "class": "collector"},
          "geometry": {"type": "LineString",
            "coordinates": [[-93.20, 41.50], [-93.18, 41.51], [-93.15, 41.51]]}}]}
        """);
    shell = new Shell(folder.resolve("work"));
    assertEquals(
        ExitCode.DONE, shell.run("import", "roads", roads.toString()).code(), "roads come in");
  }

  private Path store() {
    return shell.work().resolve("lanemend.gpkg");
  }

  @Test
  void aBackupIsPutBack() throws Exception {
    Path copy = folder.resolve("elsewhere/copy.gpkg");
    Shell.Outcome made = shell.run("backup", "--to", copy.toString());
    assertEquals(ExitCode.DONE, made.code(), made.err());
    assertTrue(made.out().contains("each compared with the store's"), made.out());
    sql("DELETE FROM import_run");
    // A store that is there is replaced by nobody who did not say so.
    Shell.Outcome refused = shell.run("restore", copy.toString());
    assertEquals(ExitCode.NOTHING_DONE, refused.code());
    assertTrue(refused.err().contains("say --replace"), refused.err());
    Shell.Outcome back = shell.run("restore", "--replace", copy.toString());
    assertEquals(ExitCode.DONE, back.code(), back.err());
    assertTrue(back.out().contains("check      nothing wrong"), back.out());
    assertTrue(back.out().contains("note: the store that was there is now "), back.out());
    assertEquals(ExitCode.DONE, shell.run("check").code());
    try (Stream<Path> files = Files.list(shell.work())) {
      assertEquals(1, files.filter(f -> f.toString().contains("-replaced-")).count());
    }
  }

  @Test
  void aCopyIsTriedWithoutTouchingTheStore() throws Exception {
    Path copy = folder.resolve("copy.gpkg");
    shell.run("backup", "--to", copy.toString());
    sql("DELETE FROM import_run");
    Shell.Outcome tried = shell.run("restore", "--try", copy.toString());
    assertEquals(ExitCode.DONE, tried.code(), tried.err());
    assertTrue(tried.out().contains("rows could be put back"), tried.out());
    assertEquals(0, count("import_run"), "the store is as it was");
    // A copy with a page of rubbish is worth nothing, and that is said.
    byte[] bytes = Files.readAllBytes(copy);
    java.util.Arrays.fill(bytes, bytes.length - 8192, bytes.length, (byte) 0x5a);
    Files.write(copy, bytes);
    Shell.Outcome bad = shell.run("restore", "--try", copy.toString());
    assertEquals(ExitCode.NOTHING_DONE, bad.code(), bad.out());
    assertTrue(bad.err().contains("damaged"), bad.err());
  }

  @Test
  void onlySoManyDatedCopiesAreKeptAndNoOthersTouched() throws Exception {
    Path copies = Files.createDirectories(shell.work().resolve("backups"));
    for (String day : List.of("20260101", "20260102", "20260103")) {
      Files.writeString(copies.resolve("lanemend-" + day + "T020000Z.gpkg"), "old");
    }
    Path mine =
        Files.writeString(copies.resolve("lanemend-before-repair-20250101T020000Z.gpkg"), "x");
    Path other = Files.writeString(copies.resolve("notes.txt"), "x");
    Shell.Outcome made = shell.run("backup", "--keep", "2");
    assertEquals(ExitCode.DONE, made.code(), made.err());
    try (Stream<Path> files = Files.list(copies)) {
      List<String> left = files.map(f -> f.getFileName().toString()).sorted().toList();
      assertEquals(4, left.size(), left.toString());
      assertTrue(left.contains("lanemend-20260103T020000Z.gpkg"), left.toString());
      assertFalse(left.contains("lanemend-20260102T020000Z.gpkg"), left.toString());
    }
    assertTrue(Files.exists(mine) && Files.exists(other));
    assertTrue(made.out().contains("deleted the old copy"), made.out());
    assertEquals(
        "--keep is for dated copies: give it with --folder, not with --to",
        shell.run("backup", "--keep", "2", "--to", "x.gpkg").err().strip());
  }

  private int count(String table) throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + store());
        Statement s = c.createStatement();
        java.sql.ResultSet r = s.executeQuery("SELECT count(*) FROM " + table)) {
      r.next();
      return r.getInt(1);
    }
  }

  @Test
  void aFileThatIsThereIsNotReplaced() {
    Shell.Outcome again = shell.run("backup", "--to", store().toString());
    assertEquals(ExitCode.NOTHING_DONE, again.code());
    assertEquals(store() + " already exists; a backup never replaces a file", again.err().strip());
  }

  @Test
  void checkRepairsAfterACopyAndSaysWhat() throws Exception {
    sql("DELETE FROM rtree_route_geom", "DROP TRIGGER log_defect_delete");
    Shell.Outcome found = shell.run("check");
    assertEquals(ExitCode.TROUBLE_FOUND, found.code());
    assertTrue(found.out().contains("wrong: route's R-tree lacks row 1"), found.out());
    Shell.Outcome repaired = shell.run("check", "--repair");
    assertEquals(ExitCode.DONE, repaired.code(), repaired.out() + repaired.err());
    assertEquals(
        List.of(
            "  repaired: put back the trigger log_defect_delete",
            "  repaired: built the R-tree of route anew"),
        repaired.out().lines().filter(l -> l.contains("repaired: ")).toList());
    try (Stream<Path> copies = Files.list(shell.work().resolve("backups"))) {
      assertEquals(1, copies.filter(f -> f.toString().contains("-before-repair-")).count());
    }
    assertFalse(shell.run("check", "--repair").out().contains("backup"), "nothing left to do");
  }

  private void sql(String... statements) throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + store());
        Statement s = c.createStatement()) {
      for (String statement : statements) {
        s.execute(statement);
      }
    }
  }
}
