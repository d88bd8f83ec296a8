package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What another program may break and ours may put right, and what it must leave alone. */
class StoreRepairTest {
  /** Rows as people know them; the log tells of a repair and so is not among them. */
  private static final List<String> TABLES =
      Tables.ALL.stream().filter(Table::logged).map(Table::name).toList();

  @TempDir Path folder;
  private Path file;
  private Fingerprint rows;

  @BeforeEach
  void aStoreWithNothingWrong() throws SQLException {
    file = folder.resolve("county.gpkg");
    Filled.store(file).close();
    rows = rows();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "DELETE FROM rtree_defect_geom WHERE id < 9"
            + "|defect's R-tree lacks row 1|built the R-tree of defect anew",
        "DROP TABLE rtree_patch_geom|patch lacks its R-tree|built the R-tree of patch anew",
        "DELETE FROM rtree_route_geom_rowid|route's R-tree|built the R-tree of route anew",
        "UPDATE gpkg_contents SET max_x = max_x - 50 WHERE table_name = 'defect'"
            + "|gpkg_contents gives layer defect too small an extent"
            + "|worked out the extent of defect anew",
        "DELETE FROM gpkg_contents WHERE table_name = 'setting'"
            + "|gpkg_contents lacks table setting|told gpkg_contents of setting",
        "UPDATE gpkg_contents SET data_type = 'attributes' WHERE table_name = 'patch'"
            + "|gpkg_contents takes patch for what it is not"
            + "|set right what gpkg_contents says of patch",
        "UPDATE gpkg_geometry_columns SET m = 0 WHERE table_name = 'work_zone'"
            + "|gpkg_geometry_columns does not have the geometry of work_zone as it is"
            + "|set right what gpkg_geometry_columns says of work_zone",
        "DELETE FROM gpkg_extensions WHERE table_name = 'defect'"
            + "|gpkg_extensions does not name gpkg_rtree_index for defect"
            + "|named gpkg_rtree_index for defect in gpkg_extensions",
        "INSERT INTO gpkg_contents (table_name, data_type, identifier) VALUES ('x', 'attributes',"
            + " 'x')|gpkg_contents tells of x, which is not in the file"
            + "|took what is not in the file out of gpkg_contents",
        "PRAGMA user_version = 10200|the file says it is GeoPackage version 10200, and is 10400"
            + "|set the GeoPackage version to 10400",
        "DROP TRIGGER log_defect_update"
            + "|defect lacks its trigger log_defect_update"
            + "|put back the trigger log_defect_update",
        "UPDATE editing SET who = 'ann'"
            + "|table editing names a writer although no write is running"
            + "|took the writer out of table editing",
        "UPDATE editing SET edit = 0|change_log has edit 1, which table editing has not come to"
            + "|counted the edits on from the change log's last",
      })
  void whatFollowsFromTheRestOfTheFile(String harm, String found, String done) throws SQLException {
    sql(harm);
    List<String> before = StoreCheck.check(file);
    assertTrue(before.stream().anyMatch(b -> b.startsWith(found)), before.toString());
    StoreRepair.Repaired repaired = repair();
    assertEquals(List.of(done), repaired.done());
    assertEquals(List.of(), repaired.left());
    assertEquals(List.of(), StoreCheck.check(file));
    assertEquals(rows, rows(), "no row was touched");
  }

  @Test
  void aTriggerThatDoesSomethingElse() throws SQLException {
    sql(
        "DROP TRIGGER log_patch_delete",
        "CREATE TRIGGER log_patch_delete AFTER DELETE ON patch BEGIN SELECT 1; END");
    assertEquals(
        List.of("patch's trigger log_patch_delete is another than was made"),
        StoreCheck.check(file));
    assertEquals(List.of("made the trigger log_patch_delete anew"), repair().done());
    sql("DELETE FROM patch WHERE id = 'P-1'");
    assertEquals(List.of(), StoreCheck.check(file));
  }

  @Test
  void lengthsAndLinesAreWorkedOutAnewAndLogged() throws SQLException {
    Fingerprint before = rowsButVersions();
    sql(
        "UPDATE route SET length_m = length_m + 7 WHERE id = 'SR 2'",
        "UPDATE road_attribute SET geom = (SELECT geom FROM road_attribute WHERE fid = 9)"
            + " WHERE fid = 2",
        "UPDATE work_zone SET repairs = 4");
    assertEquals(3, StoreCheck.check(file).size(), StoreCheck.check(file).toString());
    StoreRepair.Repaired repaired = repair();
    assertEquals(3, repaired.done().size(), repaired.done().toString());
    assertTrue(repaired.done().contains("set the length of route 'SR 2' by its line"));
    assertEquals(List.of(), repaired.left());
    assertEquals(before, rowsButVersions(), "the rows are as they were, but for their versions");
    try (Store store = Store.open(file)) {
      List<LoggedChange> history = store.read(s -> s.history("route", "SR 2"));
      LoggedChange last = history.get(history.size() - 1);
      assertEquals("ben", last.who());
      assertEquals("check --repair", last.why());
    }
  }

  @Test
  void anEventWhoseGeometryIsLostIsDrawnWhereItLies() throws SQLException {
    Fingerprint before = rowsButVersions();
    sql("UPDATE defect SET geom = NULL WHERE id = 'D-5'");
    sql("UPDATE finding SET geom = x'00112233445566778899' WHERE id = 'F-3'");
    StoreRepair.Repaired repaired = repair();
    assertTrue(
        repaired.done().contains("drew defect 'D-5' where its columns say"),
        repaired.done().toString());
    assertEquals(List.of(), repaired.left());
    assertEquals(before, rowsButVersions());
  }

  @Test
  void rowsWrittenPastTheLogAreEnteredAsFound() throws SQLException {
    sql(
        "DROP TRIGGER log_defect_update",
        "DROP TRIGGER log_patch_delete",
        "DROP TRIGGER log_finding_insert",
        "UPDATE defect SET note = 'by hand' WHERE id = 'D-5'",
        "DELETE FROM patch WHERE id = 'P-1'",
        "INSERT INTO finding (geom, id, kind, side, found_on, route_id, from_along_m, to_along_m)"
            + " SELECT geom, 'F-new', kind, side, found_on, route_id, from_along_m, to_along_m FROM"
            + " finding WHERE id = 'F-1'");
    List<String> found = StoreCheck.check(file);
    assertTrue(found.contains("defect 'D-5' is another than the log's last"), found.toString());
    assertTrue(found.contains("patch 'P-1' is gone, and the log does not say so"));
    assertTrue(found.contains("finding 'F-new' is not in the change log"));
    assertEquals(List.of(), repair().left());
    try (Store store = Store.open(file)) {
      List<LoggedChange> history = store.read(s -> s.history("defect", "D-5"));
      LoggedChange last = history.get(history.size() - 1);
      assertEquals("another program", last.who());
      assertEquals("found by check", last.why());
      assertTrue(last.after().contains("by hand"));
      assertEquals("delete", store.read(s -> s.history("patch", "P-1")).get(1).action());
    }
  }

  @Test
  void whatAPersonSaidIsLeftToAPerson() throws SQLException {
    sql(
        "PRAGMA foreign_keys = OFF",
        "UPDATE patch SET route_id = 'SR 99' WHERE id = 'P-1'",
        "UPDATE defect SET from_along_m = 99000, to_along_m = 99010 WHERE id = 'D-3'",
        "UPDATE finding SET geom = (SELECT geom FROM finding WHERE id = 'F-1') WHERE id = 'F-0'",
        "DELETE FROM rtree_defect_geom WHERE id = 7");
    Fingerprint before = rows();
    StoreRepair.Repaired repaired = repair();
    assertEquals(List.of("built the R-tree of defect anew"), repaired.done());
    assertFalse(repaired.left().isEmpty());
    assertEquals(before, rows());
    assertEquals(StoreCheck.check(file), repaired.left());
  }

  @Test
  void aSoundStoreIsNotWritten() throws SQLException {
    try (Store store = Store.open(file)) {
      assertFalse(StoreRepair.isNeeded(store));
      int edits = store.read(s -> s.changesSince(0)).size();
      assertEquals(
          new StoreRepair.Repaired(List.of(), List.of()), StoreRepair.repair(store, "ben"));
      assertEquals(edits, store.read(s -> s.changesSince(0)).size());
    }
  }

  private StoreRepair.Repaired repair() {
    try (Store store = Store.open(file)) {
      return StoreRepair.repair(store, "ben");
    }
  }

  private Fingerprint rows() throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file)) {
      return Fingerprint.of(c, TABLES, Set.of());
    }
  }

  private Fingerprint rowsButVersions() throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file)) {
      return Fingerprint.of(c, TABLES, Set.of("version"));
    }
  }

  private void sql(String... statements) throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = c.createStatement()) {
      SpatialFunctions.addTo(c);
      for (String statement : statements) {
        s.execute(statement);
      }
    }
  }
}
