package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Requests made at random from the description; the bench word {@code fuzz} sends 10,000. */
class FuzzTest {
  private static final long SEED = 20261125;

  @TempDir Path folder;
  private People people;

  @BeforeEach
  void open() {
    people = People.at(folder);
  }

  @AfterEach
  void close() {
    people.close();
  }

  @Test
  void whateverIsSentTheDeskAnswersWithASentenceAndLetsNobodyInWhoMayNot() {
    Fuzz fuzz = new Fuzz(people, SEED);
    fuzz.run(480);
    assertEquals(List.of(), fuzz.wrong());
    // and it is not that everything was refused
    assertTrue(fuzz.statuses().getOrDefault(200, 0) > 50, fuzz.toString());
  }

  @Test
  void everyCallThatARoleMayNotMakeIsRefused() {
    Fuzz fuzz = new Fuzz(people, SEED);
    fuzz.everyForbiddenCall();
    assertEquals(List.of(), fuzz.wrong());
    assertTrue(fuzz.forbidden() > 120, fuzz.toString());
    assertEquals(List.of(401, 403), List.copyOf(fuzz.statuses().keySet()), fuzz.toString());
  }
}
