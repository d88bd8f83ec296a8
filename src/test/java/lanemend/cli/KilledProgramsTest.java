package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A few kills of whole programs; the bench words 'kill-desk' and 'kill-commands' do many. */
class KilledProgramsTest {
  @TempDir Path folder;

  @Test
  void whatTheDeskSaidWasKeptIsThereAfterAKill() {
    assertTrue(new KilledPrograms(folder, 11).desks(2, System.out) > 0, "something was told");
  }

  @Test
  void aKilledCommandIsThereWholeOrNotAtAll() {
    // The first is let run to its end, so one landed at least.
    assertTrue(new KilledPrograms(folder, 12).commands(3, System.out) >= 1);
  }
}
