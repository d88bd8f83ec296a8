package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A program killed at random moments of imports and edits (SIGKILL). A thousand rounds: {@code mvn
 * -q -Pbench test-compile exec:java -Dexec.args="kill 1000"}.
 */
class KilledWritesTest {
  private static final int ROUNDS = 8;
  private static final int MOST_ROUNDS = 60;
  @TempDir Path folder;

  @Test
  void whatWasCommittedIsThereToTheLastBitAndNothingElse() throws Exception {
    KillRounds rounds = new KillRounds(folder, 20260601);
    KillRounds.Figures hit = rounds.run(ROUNDS, null);
    assertEquals(ROUNDS, hit.kills());
    assertTrue(hit.edits() > 0);
    for (int more = 0; hit.midEdit() == 0 && more < MOST_ROUNDS; more++) {
      hit = rounds.run(1, null);
    }
    assertTrue(hit.midEdit() > 0, "no kill fell inside an edit: the test proves nothing");
  }
}
