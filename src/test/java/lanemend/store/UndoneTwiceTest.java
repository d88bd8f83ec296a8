package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import lanemend.inventory.RoadAttribute;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A write that took rows out and put others in, taken back, and the taking back taken back. */
class UndoneTwiceTest {
  @TempDir Path folder;

  @Test
  void rowsGoAndComeAsOftenAsItIsAskedFor() {
    try (Store store = Filled.store(folder.resolve("county.gpkg"))) {
      List<RoadAttribute> first = store.read(s -> s.attributes().all());
      // given a write that replaces every fact of the roads
      List<RoadAttribute> second = first.subList(0, 3);
      store.write(
          "ann",
          "other facts",
          c -> {
            c.attributes().deleteAll();
            c.attributes().insertAll(second);
          });
      // when it is taken back, and that again, and that again
      for (int i = 0; i < 4; i++) {
        long last = store.read(s -> s.writes()).stream().mapToLong(WriteDone::edit).max().orElse(0);
        store.undo(last, "ann");
        // then the facts are those before and those after by turns, each row in one piece
        List<RoadAttribute> now = store.read(s -> s.attributes().all());
        Set<RoadAttribute> expected = new HashSet<>(i % 2 == 0 ? first : second);
        assertEquals(expected, new HashSet<>(now), "time " + i);
        assertEquals(expected.size(), now.size());
        assertEquals(List.of(), StoreCheck.check(store));
      }
    }
  }
}
