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
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import lanemend.inventory.Defect;
import lanemend.network.Network;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StoreBackupTest {
  @TempDir Path folder;
  private Path file;
  private Path copy;

  @BeforeEach
  void aStore() {
    file = folder.resolve("county.gpkg");
    copy = folder.resolve("backups/county-1.gpkg");
    Filled.store(file).close();
  }

  @Test
  void aCopyHoldsEveryRowAndStandsAlone() throws Exception {
    try (Store store = Store.open(file)) {
      // What is committed but still in the write-ahead log is part of the store.
      store.write("ann", "setting", c -> c.putSetting("late", "1"));
      assertTrue(Files.size(folder.resolve("county.gpkg-wal")) > 0);
      StoreBackup.Copied made = StoreBackup.copy(file, copy);
      assertEquals(copy, made.file());
      assertEquals(Files.size(copy), made.bytes());
    }
    assertEquals(print(file), print(copy));
    assertEquals(List.of("county-1.gpkg"), names(copy.getParent()));
    // SQLite file format 1.3.3: 1 is the rollback journal, 2 would need a log beside the file.
    assertEquals(1, Files.readAllBytes(copy)[18]);
    try (Store store = Store.open(copy)) {
      assertEquals("1", store.read(s -> s.setting("late")).orElseThrow());
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  @Test
  void aStoreThatIsWrittenMeanwhileIsCopiedAsOfOneMoment() throws Exception {
    Invented invented = new Invented(4);
    AtomicBoolean enough = new AtomicBoolean();
    AtomicInteger edits = new AtomicInteger();
    try (Store store = Store.open(file)) {
      Network network = store.read(Snapshot::network);
      Thread writer =
          new Thread(
              () -> {
                while (!enough.get()) {
                  int n = edits.incrementAndGet();
                  List<Defect> batch = invented.defects(network, "W" + n + "-", 20);
                  store.write("writer", "batch", c -> c.defects().insertAll(batch));
                }
              });
      writer.start();
      int during = 0;
      for (int i = 0; i < 4; i++) {
        int before = edits.get();
        Path to = folder.resolve("copy" + i + ".gpkg");
        StoreBackup.copy(file, to);
        during += edits.get() - before;
        try (Store copied = Store.open(to)) {
          // Whole batches only.
          assertEquals(
              0, (copied.read(s -> s.defects().count()) - Filled.DEFECTS) % 20, "half a batch");
          assertEquals(List.of(), StoreCheck.check(copied));
        }
      }
      enough.set(true);
      writer.join();
      assertTrue(during > 0, "nothing was written meanwhile: the test proves nothing");
    }
  }

  @Test
  void aFileIsNeverReplaced() throws IOException {
    Files.createDirectories(copy.getParent());
    Files.writeString(copy, "something else");
    assertEquals(
        copy + " already exists; a backup never replaces a file",
        assertThrows(StoreException.class, () -> StoreBackup.copy(file, copy)).getMessage());
    assertEquals("something else", Files.readString(copy));
  }

  @Test
  void aDamagedStoreMakesNoBackup() throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    Arrays.fill(bytes, bytes.length / 3, bytes.length, (byte) 0x5a);
    Files.write(file, bytes);
    StoreException e = assertThrows(StoreException.class, () -> StoreBackup.copy(file, copy));
    assertTrue(e.getMessage().contains("damaged"), e.getMessage());
    assertFalse(Files.exists(copy));
    assertEquals(List.of("county.gpkg"), names(folder));
  }

  @Test
  void aCopyPutBackIsTheStoreAndTheOneBeforeIsKept() throws Exception {
    StoreBackup.copy(file, copy);
    Fingerprint then = print(file);
    try (Store store = Store.open(file)) {
      store.write("ann", "a mistake", c -> c.findings().deleteAll());
    }
    Fingerprint mistake = print(file);
    StoreBackup.Restored done = StoreBackup.restore(copy, file);
    assertEquals(then, print(file));
    assertEquals(mistake, print(done.setAside().orElseThrow()));
    assertEquals(then, print(copy), "the copy is still there");
    try (Store store = Store.open(file)) {
      assertEquals(List.of(), StoreCheck.check(store));
    }
    assertEquals(0, names(folder).stream().filter(n -> n.endsWith(".making")).count());
  }

  @Test
  void aCopyPutBackWhereNoStoreIs() throws Exception {
    StoreBackup.copy(file, copy);
    Path elsewhere = folder.resolve("new/lanemend.gpkg");
    assertTrue(StoreBackup.restore(copy, elsewhere).setAside().isEmpty());
    assertEquals(print(file), print(elsewhere));
  }

  @Test
  void aStoreThatIsOpenIsNotReplaced() throws Exception {
    StoreBackup.copy(file, copy);
    try (Store store = Store.open(file)) {
      store.write("ann", "more", c -> c.putSetting("more", "1"));
      StoreException e = assertThrows(StoreException.class, () -> StoreBackup.restore(copy, file));
      assertEquals(
          file + " is open in another program: close that first; nothing was changed",
          e.getMessage());
      assertEquals("1", store.read(s -> s.setting("more")).orElseThrow());
    }
  }

  /**
   * By POSIX, closing a file takes away every lock the process has on it: a copy made inside the
   * program that has the store open must not make it look unused to others.
   */
  @Test
  void aCopyMadeByTheProgramItselfKeepsItsLocks() throws Exception {
    try (Store store = Store.open(file)) {
      StoreBackup.copy(file, copy);
      Process other =
          new ProcessBuilder(Child.command(List.of(), "restore", file.toString(), copy.toString()))
              .start();
      String said = new String(other.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertEquals(3, other.waitFor(), said);
      assertTrue(said.contains("is open in another program"), said);
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  @Test
  void aDamagedStoreIsSetAsideAsItIsWithItsLog() throws Exception {
    StoreBackup.copy(file, copy);
    byte[] noise = "no database at all".repeat(400).getBytes(StandardCharsets.UTF_8);
    Files.write(file, noise);
    Files.writeString(folder.resolve("county.gpkg-wal"), "left over");
    StoreBackup.Restored done = StoreBackup.restore(copy, file);
    Path aside = done.setAside().orElseThrow();
    assertArrayEquals(noise, Files.readAllBytes(aside));
    assertFalse(Files.exists(folder.resolve("county.gpkg-wal")));
    assertEquals(print(copy), print(file));
  }

  @Test
  void whatIsNoBackupIsNotPutBack() throws Exception {
    Fingerprint before = print(file);
    Path other = folder.resolve("other.gpkg");
    Files.writeString(other, "x".repeat(300));
    assertEquals(
        other + " is not a GeoPackage (it is no SQLite file)",
        assertThrows(StoreException.class, () -> StoreBackup.restore(other, file)).getMessage());
    byte[] half = Files.readAllBytes(file);
    Files.write(other, Arrays.copyOf(half, half.length / 2));
    assertTrue(
        assertThrows(StoreException.class, () -> StoreBackup.restore(other, file))
            .getMessage()
            .contains("is damaged"));
    assertEquals(before, print(file));
  }

  private static Fingerprint print(Path file) throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file)) {
      return Fingerprint.of(c);
    }
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }
}
