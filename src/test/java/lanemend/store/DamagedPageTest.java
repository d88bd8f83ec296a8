package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * One page of the file overwritten, as a failing disk does. Which page belongs to what is told by
 * SQLite's own dbstat table or, where it is not built in, by following the file format (sqlite.org,
 * "Database File Format", 1.6: interior pages name their children).
 */
class DamagedPageTest {
  private static final int PAGE = 4096;
  @TempDir Path folder;
  private Path file;
  private Path sound;

  @BeforeEach
  void aStore() throws IOException {
    file = folder.resolve("county.gpkg");
    sound = folder.resolve("sound.gpkg");
    Filled.store(file).close();
    StoreBackup.copy(file, sound);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"defect", "patch", "calibration_post", "rtree_defect_geom_node", "setting"})
  void aPageOfATableIsNamedAndItsRowsComeBackFromTheLog(String table) throws Exception {
    damage(leafOf(table));
    String said = String.join("\n", StoreCheck.check(file));
    assertTrue(said.contains("damaged"), said);
    if (opens()) {
      assertTrue(said.contains(table), said);
    }
    salvagedIsWhole();
  }

  @ParameterizedTest
  @ValueSource(strings = {"defect_by_place", "change_log_by_row"})
  void aPageOfAnIndexIsNamedAndNothingIsLost(String index) throws Exception {
    damage(leafOf(index));
    String said = String.join("\n", StoreCheck.check(file));
    assertTrue(said.contains("index " + index), said);
    StoreSalvage.Saved saved = salvagedIsWhole();
    assertEquals(0, saved.fromLog(), "the table has all its rows");
  }

  @Test
  void aRoadsDrawingIsInItsPageOnlyAndItsLossIsSaid() throws Exception {
    damage(leafOf("route"));
    Path to = folder.resolve("saved.gpkg");
    StoreSalvage.Saved saved = StoreSalvage.run(file, to);
    assertTrue(saved.fromLog() > 0 && saved.lost().get(0).startsWith("route: up to "));
    List<String> troubles = StoreCheck.check(to);
    assertTrue(troubles.get(0).matches("route 'SR \\d' has no geometry"), troubles.toString());
    try (Store store = Store.open(to)) {
      assertEquals(Filled.DEFECTS, (long) store.read(s -> s.defects().count()));
    }
  }

  @Test
  void aPageOfTheChangeLogLosesHistoryAndNoRows() throws Exception {
    damage(leafOf("change_log"));
    Path to = folder.resolve("saved.gpkg");
    StoreSalvage.Saved saved = StoreSalvage.run(file, to);
    assertTrue(saved.lost().get(0).startsWith("change_log: up to "), saved.lost().toString());
    try (Store store = Store.open(to)) {
      assertEquals(Filled.DEFECTS, (long) store.read(s -> s.defects().count()));
    }
  }

  @Test
  void ofAnotherProgramsTableWithADamagedEndTheRestIsSavedAndTheLossSaid() throws Exception {
    // Given a table that SQLite keeps no count of and the change log does not know
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = c.createStatement()) {
      s.execute("CREATE TABLE bridge_note (number INTEGER PRIMARY KEY, text TEXT)");
      s.execute(
          "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 100)"
              + " INSERT INTO bridge_note SELECT i, printf('%.500c', 'x') FROM n");
    }
    List<Long> leaves = leavesOf("bridge_note");
    long end = leaves.get(leaves.size() - 1);
    int there = java.nio.ByteBuffer.wrap(Files.readAllBytes(file)).getShort(at(end) + 3);
    // When its last page is lost
    damage(end);
    Path to = folder.resolve("saved.gpkg");
    StoreSalvage.Saved saved = StoreSalvage.run(file, to);
    // Then every row of the pages before it is there
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + to);
        Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT count(*) FROM bridge_note")) {
      assertEquals(100 - there, r.getInt(1));
    }
    assertTrue(
        saved.lost().stream().anyMatch(l -> l.startsWith("bridge_note: up to ")),
        saved.lost().toString());
  }

  @Test
  void aDamagedFirstPageIsSaidAndABackupPutBack() throws Exception {
    damage(1);
    String said = String.join("\n", StoreCheck.check(file));
    assertEquals(file + " is not a GeoPackage (it is no SQLite file)", said);
    StoreException e =
        assertThrows(
            StoreException.class, () -> StoreSalvage.run(file, folder.resolve("saved.gpkg")));
    assertTrue(e.getMessage().contains("put back a backup copy"), e.getMessage());
    assertTrue(Files.notExists(folder.resolve("saved.gpkg")));
    StoreBackup.restore(sound, file);
    assertEquals(List.of(), StoreCheck.check(file));
  }

  @Test
  void aDamagedListOfTablesIsSaidAndABackupPutBack() throws Exception {
    // Behind the header's 100 bytes the first page is the root of the list of tables.
    byte[] bytes = Files.readAllBytes(file);
    java.util.Arrays.fill(bytes, 100, PAGE, (byte) 0x5a);
    Files.write(file, bytes);
    String said = String.join("\n", StoreCheck.check(file));
    assertTrue(said.startsWith(file + " is damaged ("), said);
    assertTrue(said.contains("put back a backup copy with 'restore'"), said);
    StoreBackup.restore(sound, file);
    assertEquals(List.of(), StoreCheck.check(file));
  }

  private boolean opens() {
    try (Store store = Store.open(file)) {
      return store.file().equals(file);
    } catch (StoreException e) {
      return false;
    }
  }

  private StoreSalvage.Saved salvagedIsWhole() throws SQLException {
    Path to = folder.resolve("saved.gpkg");
    StoreSalvage.Saved saved = StoreSalvage.run(file, to);
    try (Store store = Store.open(to)) {
      assertEquals(List.of(), StoreRepair.repair(store, "ann").left());
    }
    assertEquals(List.of(), StoreCheck.check(to));
    assertEquals(rows(sound), rows(to), "row for row what it was");
    return saved;
  }

  /** Every row; drawings and versions apart, which a repair makes anew. */
  private static String rows(Path store) throws SQLException {
    List<String> tables = Tables.ALL.stream().filter(Table::logged).map(Table::name).toList();
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + store)) {
      return Fingerprint.of(c, tables, java.util.Set.of("geom", "version")).sha256();
    }
  }

  private void damage(long page) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    java.util.Arrays.fill(bytes, at(page), at(page) + PAGE, (byte) 0x5a);
    Files.write(file, bytes);
  }

  private static int at(long page) {
    return (int) (page - 1) * PAGE;
  }

  /** A page in the middle of a table's or index's leaves. */
  private long leafOf(String name) throws SQLException, IOException {
    List<Long> leaves = leavesOf(name);
    return leaves.get(leaves.size() / 2);
  }

  /** The pages of a table's or index's leaves in their order, by the file format. */
  private List<Long> leavesOf(String name) throws SQLException, IOException {
    long root;
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = c.createStatement();
        ResultSet r =
            s.executeQuery("SELECT rootpage FROM sqlite_master WHERE name = '" + name + "'")) {
      assertTrue(r.next(), name);
      root = r.getLong(1);
    }
    List<Long> leaves = new ArrayList<>();
    leaves(Files.readAllBytes(file), root, leaves);
    return leaves;
  }

  private static void leaves(byte[] bytes, long page, List<Long> found) {
    java.nio.ByteBuffer b = java.nio.ByteBuffer.wrap(bytes);
    int at = at(page);
    int kind = b.get(at);
    if (kind == 13 || kind == 10) {
      found.add(page);
      return;
    }
    // Interior: 2 for an index, 5 for a table; cells of 12 bytes in, each begins with a child.
    int cells = Short.toUnsignedInt(b.getShort(at + 3));
    for (int i = 0; i < cells; i++) {
      int cell = at + Short.toUnsignedInt(b.getShort(at + 12 + 2 * i));
      leaves(bytes, Integer.toUnsignedLong(b.getInt(cell)), found);
    }
    leaves(bytes, Integer.toUnsignedLong(b.getInt(at + 8)), found);
  }
}
