package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import lanemend.SmallDisk;
import lanemend.inventory.Defect;
import lanemend.network.Network;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A store on a disk that is really full. */
class FullDiskTest {
  @TempDir Path folder;
  private SmallDisk disk;
  private Network network;

  @BeforeEach
  void aSmallDiskWithAStore() throws Exception {
    disk = SmallDisk.in(folder, 3);
    network = new Invented(5).network(2, 3000, 0);
    try (Store store = Store.create(file(), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));
    }
  }

  @AfterEach
  void takeItAway() throws Exception {
    if (disk != null) {
      disk.close();
    }
  }

  private Path file() {
    return disk.folder().resolve("county.gpkg");
  }

  @Test
  void anImportThatDoesNotFitLeavesTheStoreAsItWas() throws Exception {
    List<Defect> few = new Invented(6).defects(network, "A-", 50);
    List<Defect> many = new Invented(7).defects(network, "B-", 4000);
    try (Store store = Store.open(file())) {
      store.write("ann", "few", c -> c.defects().insertAll(few));
      StoreException e =
          assertThrows(
              StoreException.class,
              () -> store.write("ann", "many", c -> c.defects().insertAll(many)));
      assertEquals(
          "there is no room left to write " + file() + "; nothing was changed", e.getMessage());
      assertEquals(few, store.read(s -> s.defects().all()));
    }
    // Opened again, as after a crash on the full disk.
    try (Store store = Store.open(file())) {
      assertEquals(few, store.read(s -> s.defects().all()));
      assertEquals(List.of(), StoreCheck.check(store));
      store.write("ann", "one more", c -> c.putSetting("a", "1"));
    }
  }

  @Test
  void aBackupThatDoesNotFitLeavesNothing() throws Exception {
    Path fill = disk.folder().resolve("fill");
    long free = Files.getFileStore(disk.folder()).getUsableSpace();
    Files.write(fill, new byte[(int) free - 100_000]);
    Path copy = disk.folder().resolve("copy.gpkg");
    StoreException e = assertThrows(StoreException.class, () -> StoreBackup.copy(file(), copy));
    assertTrue(e.getMessage().contains("no room left"), e.getMessage());
    assertFalse(Files.exists(copy));
    try (Stream<Path> left = Files.list(disk.folder())) {
      assertEquals(
          List.of("county.gpkg", "fill"),
          left.map(f -> f.getFileName().toString()).sorted().toList());
    }
    Files.delete(fill);
    StoreBackup.copy(file(), copy);
    assertEquals(List.of(), StoreCheck.check(copy));
  }
}
