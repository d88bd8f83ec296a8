package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Each kind of fault another program can make, and the sentence for it. */
class StoreCheckTest {
  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void aStoreWithNothingWrong() {
    file = folder.resolve("county.gpkg");
    Filled.store(file).close();
    assertEquals(List.of(), StoreCheck.check(file));
  }

  @Test
  void anEventBeyondTheEndOfItsRoute() throws SQLException {
    sql("UPDATE defect SET from_along_m = 99000, to_along_m = 99010 WHERE id = 'D-3'");
    assertOnly("defect 'D-3' runs from 99000.00 to 99010.00 m, but SR ");
  }

  @Test
  void anEventDrawnAwayFromItsPlace() throws SQLException {
    sql("UPDATE finding SET geom = (SELECT geom FROM finding WHERE id = 'F-1') WHERE id = 'F-0'");
    assertOnly("finding 'F-0' is drawn ");
  }

  @Test
  void anOrphan() throws SQLException {
    sql("PRAGMA foreign_keys = OFF", "UPDATE patch SET route_id = 'SR 99' WHERE id = 'P-1'");
    List<String> found = StoreCheck.check(file);
    assertEquals(1, found.size(), found.toString());
    assertTrue(
        found
            .get(0)
            .matches("patch row \\d+ is an orphan: the row of roadway it belongs to is gone"),
        found.get(0));
  }

  @Test
  void anOpenDefectOnARoadThatIsNoLongerThere() throws SQLException {
    sql("UPDATE route SET valid_to = '2026-06-01' WHERE id = 'SR 1'");
    List<String> found = StoreCheck.check(file);
    assertTrue(found.size() > 1);
    // Its patch history may stay; what is still open needs a road.
    assertTrue(
        found.stream()
            .allMatch(
                f -> f.matches("(defect|finding) '.*' lies on SR 1, which is no current road")),
        found.toString());
  }

  @Test
  void postsThatStandOnOnePlace() throws SQLException {
    sql("UPDATE calibration_post SET along_m = 0 WHERE route_id = 'SR 1'");
    assertOnly("route 'SR 1' column id: found '");
  }

  @Test
  void postsWithOneMilepost() throws SQLException {
    sql(
        "UPDATE calibration_post SET back_mi = 11, ahead_mi = 11 WHERE fid IN (SELECT fid FROM"
            + " calibration_post WHERE route_id = 'SR 1' ORDER BY along_m LIMIT 2)");
    assertEquals(1, StoreCheck.check(file).size(), StoreCheck.check(file).toString());
  }

  @Test
  void aMissingGeometry() throws SQLException {
    sql("UPDATE defect SET geom = NULL WHERE id = 'D-5'");
    assertOnly("defect 'D-5' has no geometry");
  }

  @Test
  void bytesThatAreNoGeometry() throws SQLException {
    sql("UPDATE defect SET geom = x'00112233445566778899' WHERE id = 'D-5'");
    List<String> found = StoreCheck.check(file);
    assertTrue(
        found.contains("defect 'D-5' has a broken geometry: the bytes are not GeoPackage binary"),
        found.toString());
  }

  @Test
  void aLineAmongThePoints() throws SQLException {
    sql("UPDATE defect SET geom = (SELECT geom FROM connector LIMIT 1) WHERE id = 'D-5'");
    assertTrue(StoreCheck.check(file).contains("defect 'D-5' is a LineString in a layer of POINT"));
  }

  @Test
  void anotherReferenceSystem() throws SQLException {
    sql(
        "UPDATE defect SET geom = CAST(x'47500001e6100000' || substr(geom, 9) AS BLOB) WHERE id ="
            + " 'D-5'");
    assertOnly("defect 'D-5' is in reference system 4326, the layer in ");
  }

  @Test
  void anIndexThatWasNotKept() throws SQLException {
    sql("DELETE FROM rtree_defect_geom WHERE id = (SELECT fid FROM defect WHERE id = 'D-5')");
    assertOnly("defect's R-tree lacks row ");
  }

  @Test
  void anIndexInAnotherPlace() throws SQLException {
    sql("UPDATE rtree_defect_geom SET minx = minx - 10 WHERE id = 7");
    assertOnly("defect's R-tree has row 7 in another place than the layer");
  }

  @Test
  void anIndexOfWhatIsNotThere() throws SQLException {
    sql("INSERT INTO rtree_defect_geom VALUES (9999, 1, 2, 3, 4)");
    assertOnly("defect's R-tree has row 9999, which the layer has not");
  }

  @Test
  void aTriggerThatWasDropped() throws SQLException {
    sql("DROP TRIGGER log_defect_update");
    assertOnly("defect lacks its trigger log_defect_update");
  }

  @Test
  void anExtentThatLeavesRowsOut() throws SQLException {
    sql("UPDATE gpkg_contents SET max_x = max_x - 50 WHERE table_name = 'defect'");
    assertOnly("gpkg_contents gives layer defect too small an extent");
  }

  @Test
  void twoCurrentEditions() throws SQLException {
    sql(
        "INSERT INTO route (geom, id, edition, name, road_class, length_m, calibrated, valid_from)"
            + " SELECT geom, id, 2, name, road_class, length_m, 0, valid_from FROM route WHERE id ="
            + " 'SR 1'");
    assertOnly("route SR 1 has 2 current editions");
  }

  @Test
  void twoDecisionsOnOneStretch() throws SQLException {
    sql(
        "INSERT INTO renewal_decision (geom, section_id, route_id, from_along_m, to_along_m,"
            + " decision, reason, decided_by, decided_on) SELECT geom, 'SR 1 again', route_id,"
            + " from_along_m, to_along_m, 'rejected', 'sound', 'ben', '2026-05-01' FROM"
            + " renewal_decision WHERE section_id = 'SR 1 middle'");
    assertOnly("renewal_decision 'SR 1 middle' and 'SR 1 again' decide on one stretch");
  }

  @Test
  void aHeldDefectThatIsOpen() throws SQLException {
    sql("UPDATE defect SET status = 'open' WHERE id = 'D-10'");
    assertOnly("defect 'D-10' waits for an overlay but is open");
  }

  @Test
  void theFileItselfRefusesADecisionWithoutAReason() {
    for (String wrong :
        List.of("reason = ' '", "decided_by = ''", "decision = 'maybe'", "overlay_year = 20270")) {
      SQLException refused =
          assertThrows(
              SQLException.class,
              () -> sql("UPDATE renewal_decision SET " + wrong + " WHERE fid = 1"));
      assertTrue(refused.getMessage().contains("CHECK"), refused.getMessage());
    }
  }

  @Test
  void aFileThatDoesNotOpen() {
    Path nowhere = folder.resolve("nowhere.gpkg");
    assertEquals(List.of(nowhere + " does not exist"), StoreCheck.check(nowhere));
  }

  private void assertOnly(String start) {
    List<String> found = StoreCheck.check(file);
    assertEquals(1, found.size(), found.toString());
    assertTrue(found.get(0).startsWith(start), found.get(0));
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
