package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import lanemend.network.Network;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * About 600 road miles and 10,000 events. The limits are several times what an idle two-core
 * machine takes (figures in the docs), so that only a change of order fails them.
 */
class SizeAndSpeedTest {
  @TempDir Path folder;

  @Test
  void aCountyIsImportedInSecondsAndLoadedInUnderOne() throws IOException {
    Invented invented = new Invented(600);
    // 60 routes of 16 km: 597 miles.
    Network network = invented.network(60, 16_000, 200);
    Path file = folder.resolve("county.gpkg");
    long start = System.nanoTime();
    try (Store store = Store.create(file, Invented.Utm15.CRS)) {
      store.write(
          "ann",
          "import",
          c -> {
            c.addNetwork(network);
            c.defects().insertAll(invented.defects(network, 4000));
            c.findings().insertAll(invented.findings(network, 1000));
            c.patches().insertAll(invented.patches(network, 4400));
            c.attributes().insertAll(invented.attributes(network, 10));
          });
    }
    final long imported = System.nanoTime();
    long events;
    try (Store store = Store.open(file)) {
      events =
          store.read(
              s -> {
                assertEquals(60, s.network().routes().size());
                return s.defects().all().size()
                    + s.findings().all().size()
                    + s.patches().all().size()
                    + s.attributes().all().size()
                    + 0L;
              });
    }
    final long loaded = System.nanoTime();
    List<String> found = StoreCheck.check(file);
    long checked = System.nanoTime();
    assertEquals(10_000, events);
    assertEquals(List.of(), found);
    System.out.printf(
        "store: import %.2f s, load %.2f s, check %.2f s, %.1f MB%n",
        (imported - start) / 1e9,
        (loaded - imported) / 1e9,
        (checked - loaded) / 1e9,
        Files.size(file) / 1e6);
    assertTrue(imported - start < 20_000_000_000L, "import");
    assertTrue(loaded - imported < 5_000_000_000L, "load");
  }
}
