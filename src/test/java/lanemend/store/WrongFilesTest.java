package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import lanemend.inventory.Defect;
import lanemend.network.Network;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that are no store, or no longer: one sentence each, and none of them is changed. */
class WrongFilesTest {
  @TempDir Path folder;

  @Test
  void aFileThatIsNotThere() {
    Path file = folder.resolve("county.gpkg");
    assertEquals(file + " does not exist", refusal(file));
    assertFalse(Files.exists(file), "looking must not make it");
  }

  @Test
  void aFolder() {
    assertEquals(folder + " is not a file", refusal(folder));
  }

  @Test
  void aFileThatIsNoDatabase() throws IOException {
    Path file = folder.resolve("county.gpkg");
    Files.writeString(file, "route,milepost\nSR 1,2.3\n".repeat(20));
    assertEquals(file + " is not a GeoPackage (it is no SQLite file)", refusal(file));
    Files.write(file, new byte[0]);
    assertEquals(file + " is not a GeoPackage (it is no SQLite file)", refusal(file));
  }

  @Test
  void aDatabaseThatIsNoGeoPackage() throws Exception {
    Path file = folder.resolve("other.gpkg");
    sql(file, "CREATE TABLE t (a)");
    assertEquals(
        file + " is an SQLite file, but not a GeoPackage (its application id is not GPKG)",
        refusal(file));
  }

  @Test
  void aGeoPackageBySomebodyElseIsLeftAsItWas() throws Exception {
    Path file = folder.resolve("theirs.gpkg");
    sql(file, "PRAGMA application_id = " + 0x47504B47, "CREATE TABLE roads (fid)");
    byte[] before = Files.readAllBytes(file);
    assertEquals(
        file + " is a GeoPackage, but not a Lanemend store; import from it instead", refusal(file));
    assertArrayEquals(before, Files.readAllBytes(file));
    assertFalse(Files.exists(folder.resolve("theirs.gpkg-wal")));
  }

  @Test
  void aStoreOfANewerLanemend() throws Exception {
    Path file = store();
    sql(file, "UPDATE lanemend_store SET schema_version = 7");
    assertEquals(
        file
            + " was written by a newer Lanemend: its layout is version 7, this program knows"
            + " version "
            + Store.SCHEMA_VERSION,
        refusal(file));
  }

  @Test
  void aCopyThatBrokeOff() throws IOException {
    Path file = store();
    byte[] bytes = Files.readAllBytes(file);
    Files.write(file, Arrays.copyOf(bytes, bytes.length / 2));
    assertEquals(
        file
            + " is damaged: it has "
            + bytes.length / 2
            + " bytes of "
            + bytes.length
            + "; put back a backup copy",
        refusal(file));
  }

  @Test
  void aFileWithDamagedPagesIsSaidToBeDamaged() throws IOException {
    Path file = store();
    byte[] bytes = Files.readAllBytes(file);
    // All but the first pages, which hold what opening looks at.
    Arrays.fill(bytes, bytes.length / 3, bytes.length, (byte) 0x5a);
    Files.write(file, bytes);
    List<String> found = StoreCheck.check(file);
    assertFalse(found.isEmpty());
    assertTrue(found.get(0).contains("damaged"), found.get(0));
    assertFalse(found.get(0).contains("\n"));
  }

  @Test
  void aReadOnlyFile() throws Exception {
    Path file = store();
    Assumptions.assumeTrue(file.toFile().setReadOnly(), "this system has no read-only files");
    Process opening =
        new ProcessBuilder(Child.command(Child.withoutRootsPowers(), "open", file.toString()))
            .start();
    String said = new String(opening.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(3, opening.waitFor(), said);
    assertEquals(file + " cannot be written: the file is read-only", said.strip());
  }

  @Test
  void aFileThatIsAlreadyThereIsNotOverwritten() {
    Path file = store();
    StoreException e =
        assertThrows(StoreException.class, () -> Store.create(file, Invented.Utm15.CRS).close());
    assertEquals(file + " already exists", e.getMessage());
  }

  @Test
  void aNameWithoutTheStandardsExtension() {
    // Req 3: a GeoPackage has the file extension .gpkg.
    Path file = folder.resolve("county.db");
    StoreException e =
        assertThrows(StoreException.class, () -> Store.create(file, Invented.Utm15.CRS).close());
    assertEquals(file + " must end in .gpkg, as the GeoPackage standard asks", e.getMessage());
  }

  @Test
  void anotherProgramThatKeepsWriting() throws Exception {
    Path file = store();
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = other.createStatement();
        Store store = Store.open(file, 200)) {
      s.execute("BEGIN IMMEDIATE");
      StoreException e =
          assertThrows(
              StoreException.class,
              () -> store.write("ann", "setting", c -> c.putSetting("a", "1")));
      assertEquals(
          file
              + " is being written by another program; nothing was changed, try again when it has"
              + " finished",
          e.getMessage());
      s.execute("ROLLBACK");
      store.write("ann", "setting", c -> c.putSetting("a", "1"));
      assertEquals("1", store.read(x -> x.setting("a")).orElseThrow());
    }
  }

  @Test
  void aFullDiskUndoesTheWholeWrite() {
    Invented invented = new Invented(5);
    Network network = invented.network(1, 3000, 0);
    List<Defect> defects = invented.defects(network, 1500);
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));
      // SQLite reports this limit as it does a full disk (SQLITE_FULL).
      store.limitPages(180);
      StoreException e =
          assertThrows(
              StoreException.class,
              () -> store.write("ann", "defects", c -> c.defects().insertAll(defects)));
      assertEquals(
          "there is no room left to write " + store.file() + "; nothing was changed",
          e.getMessage());
      assertEquals(0L, (long) store.read(s -> s.defects().count()));
      store.limitPages(1_000_000);
      store.write("ann", "defects", c -> c.defects().insertAll(defects));
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  private Path store() {
    Path file = folder.resolve("county.gpkg");
    Invented invented = new Invented(3);
    Network network = invented.network(3, 4000, 1);
    try (Store store = Store.create(file, Invented.Utm15.CRS)) {
      store.write(
          "ann",
          "import",
          c -> {
            c.addNetwork(network);
            c.defects().insertAll(invented.defects(network, 200));
          });
    }
    return file;
  }

  private static String refusal(Path file) {
    return assertThrows(StoreException.class, () -> Store.open(file).close()).getMessage();
  }

  private static void sql(Path file, String... statements) throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = c.createStatement()) {
      for (String statement : statements) {
        s.execute(statement);
      }
    }
  }
}
