package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import lanemend.inventory.Defect;
import lanemend.network.Network;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Imports killed at random moments (SIGKILL). More rounds: {@code mvn test -Dtest=KilledImportTest
 * -Dlanemend.kills=1000}.
 */
class KilledImportTest {
  private static final int ROUNDS = Integer.getInteger("lanemend.kills", 5);
  @TempDir Path folder;

  @Test
  void whatWasCommittedIsThereWholeAndNothingElse() throws Exception {
    Random random = new Random(20260601);
    int midImport = 0;
    for (int round = 0; round < ROUNDS || (midImport == 0 && round < ROUNDS + 20); round++) {
      Path file = folder.resolve("county" + round + ".gpkg");
      Network network = new Invented(7).network(3, 4000, 0);
      try (Store store = Store.create(file, Invented.Utm15.CRS)) {
        store.write("ann", "roads", c -> c.addNetwork(network));
      }

      Said said = writeUntilKilled(file, round, random);
      int told = said.committed();
      boolean logLeft = Files.exists(folder.resolve("county" + round + ".gpkg-wal"));
      assertTrue(logLeft, "the child was killed, not closed");

      try (Store store = Store.open(file)) {
        Map<String, Long> batches =
            store.read(s -> s.defects().all()).stream()
                .collect(
                    Collectors.groupingBy(
                        KilledImportTest::batch, TreeMap::new, Collectors.counting()));
        for (int i = 1; i <= told; i++) {
          assertEquals(Long.valueOf(Child.BATCH), batches.remove(Child.batchName(i)), "batch " + i);
        }
        // A commit may have landed just before its line could be printed; it must be whole too.
        for (Map.Entry<String, Long> e : batches.entrySet()) {
          assertEquals(Child.batchName(told + 1), e.getKey());
          assertEquals(Long.valueOf(Child.BATCH), e.getValue());
        }
        midImport += batches.isEmpty() && said.begun() == told + 1 ? 1 : 0;
        long committed = (long) told + batches.size();
        List<LoggedChange> log = store.read(s -> s.changesSince(1));
        assertEquals(committed * Child.BATCH, log.size());
        assertEquals(List.of(), StoreCheck.check(store));
      }
    }
    assertTrue(midImport > 0, "no kill fell inside an import: the test proves nothing");
  }

  /** The last import the child said it began, and the last it said was committed. */
  private record Said(int begun, int committed) {}

  private static String batch(Defect d) {
    return d.id().substring(0, d.id().indexOf('-') + 1);
  }

  /** Starts a child, lets it commit a few imports, kills it; returns what it said. */
  private Said writeUntilKilled(Path file, int seed, Random random)
      throws IOException, InterruptedException {
    // Into a file, which keeps what was said up to the kill; a pipe is closed with the process.
    Path said = folder.resolve("said" + seed + ".txt");
    Process child =
        new ProcessBuilder(
                Child.command(List.of(), "import", file.toString(), String.valueOf(seed)))
            .redirectOutput(said.toFile())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    for (int waited = 0; said(said).committed() < 2 && waited < 60_000; waited += 10) {
      assertTrue(child.isAlive(), "the child ended by itself");
      Thread.sleep(10);
    }
    Thread.sleep(random.nextInt(120));
    child.destroyForcibly();
    assertTrue(child.waitFor(20, TimeUnit.SECONDS));
    Said last = said(said);
    assertTrue(last.committed() >= 2, "the child never got to write");
    return last;
  }

  private static Said said(Path file) throws IOException {
    int begun = 0;
    int committed = 0;
    String text = Files.readString(file);
    // What follows the last line end may be half a number.
    for (String line : text.substring(0, text.lastIndexOf('\n') + 1).lines().toList()) {
      int number = Integer.parseInt(line);
      begun = number < 0 ? -number : begun;
      committed = number > 0 ? number : committed;
    }
    return new Said(begun, committed);
  }
}
