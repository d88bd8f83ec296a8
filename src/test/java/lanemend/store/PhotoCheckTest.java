package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Photos in the store: with their record or not at all, and what check says of those that are off.
 */
class PhotoCheckTest {
  @TempDir Path folder;
  private Path file;
  private final PhotoContent one = photo("one");
  private String defect;

  @BeforeEach
  void aStoreWithAPhoto() {
    file = folder.resolve("county.gpkg");
    try (Store store = Filled.store(file)) {
      defect = store.read(s -> s.defects().all()).get(0).id();
      store.write(
          "ann",
          "photo",
          c -> {
            c.keepPhoto(one);
            c.keepPhoto(one);
            c.photos().insert(of("P-1", one));
          });
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  private static PhotoContent photo(String bytes) {
    return PhotoContent.of("image/jpeg", 4, 3, bytes.getBytes(StandardCharsets.UTF_8));
  }

  private Photo of(String id, PhotoContent content) {
    return new Photo(
        id, content.hash(), Photo.Of.DEFECT, defect, LocalDate.of(2026, 5, 4), "ann", "");
  }

  private void past(String sql) throws SQLException {
    // As a program would that knows nothing of the store's rules.
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = c.createStatement()) {
      s.execute("PRAGMA foreign_keys = OFF");
      s.execute(sql);
    }
  }

  @Test
  void aPhotoWithoutItsFileIsNamedWithWhatItShows() throws SQLException {
    past("DELETE FROM photo_content");
    List<String> found = StoreCheck.check(file);
    assertEquals(
        List.of(
            "photo 'P-1' of defect "
                + defect
                + " has lost its file: put back a backup copy, or remove the photo"),
        found);
  }

  @Test
  void aFileThatIsNotWhatItsHashSaysIsNamed() throws SQLException {
    past("UPDATE photo_content SET bytes = x'00'");
    List<String> found = StoreCheck.check(file);
    assertEquals(1, found.size());
    assertTrue(found.get(0).startsWith("photo_content " + one.hash() + " is damaged"));
  }

  @Test
  void aFileNothingNamesIsAnOrphanAfterTwoDaysAndRepairTakesItOut() throws SQLException {
    try (Store store = Store.open(file)) {
      store.write("ann", "on its way", c -> c.keepPhoto(photo("two")));
      assertEquals(List.of(), StoreCheck.check(store), "its entry may still be on the way");
    }
    past("UPDATE photo_content SET stored_at = '2026-01-05T00:00:00.000Z'");
    try (Store store = Store.open(file)) {
      List<String> found = StoreCheck.check(store);
      assertEquals(1, found.size(), found.toString());
      assertTrue(found.get(0).contains("is an orphan: it came on 2026-01-05"), found.get(0));
      StoreRepair.Repaired repaired = StoreRepair.repair(store, "ann");
      assertEquals(List.of("removed photo files that nothing names"), repaired.done());
      assertEquals(List.of(), StoreCheck.check(store));
      assertEquals(true, store.read(s -> s.hasPhotoContent(one.hash())));
    }
  }

  @Test
  void aPhotoTakenOffKeepsItsFileForUndo() {
    try (Store store = Store.open(file)) {
      store.write("ben", "take off", c -> c.photos().delete(c.photos().find("P-1").orElseThrow()));
      long edit =
          store.read(Snapshot::writes).stream().mapToLong(WriteDone::edit).max().orElseThrow();
      store.undo(edit, "ben");
      assertEquals(of("P-1", one), store.read(s -> s.photos().all()).get(0));
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  @Test
  void takingBackADefectThatGotAPhotoSinceIsRefusedWithTheReason() {
    try (Store store = Store.open(file)) {
      StoreException refused = assertThrows(StoreException.class, () -> store.undo(1, "ann"));
      assertTrue(refused.getMessage().contains("photo"), refused.getMessage());
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  @Test
  void aRecordThatFailsTakesItsPhotoWithIt() {
    try (Store store = Store.open(file)) {
      assertThrows(
          StoreException.class,
          () ->
              store.write(
                  "ann",
                  "two",
                  c -> {
                    c.keepPhoto(photo("three"));
                    c.photos()
                        .insert(
                            new Photo(
                                "P-3",
                                photo("three").hash(),
                                Photo.Of.DEFECT,
                                "no such defect",
                                null,
                                "ann",
                                ""));
                  }));
      assertEquals(false, store.read(s -> s.hasPhotoContent(photo("three").hash())));
    }
  }

  @Test
  void anIdThatArrivedArrivesNoSecondTime() {
    try (Store store = Store.open(file)) {
      EntryReceived entry = new EntryReceived("e-1", "abc", "defect", defect);
      store.write("ann", "phone", c -> c.receive(entry));
      assertEquals(entry, store.read(s -> s.received("e-1")).orElseThrow());
      assertThrows(StoreException.class, () -> store.write("ann", "phone", c -> c.receive(entry)));
    }
  }
}
