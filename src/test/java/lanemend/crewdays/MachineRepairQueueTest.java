package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The finite-source queue against worked rows; which column was read where stands beside it. */
class MachineRepairQueueTest {

  /**
   * Inputs of the first row read in An Introduction to Management Science, page 497 (six machines);
   * the others in posted textbook problems. Answers worked out apart from this code, by a script;
   * those of the first row agree with the book's .4845, .3297, .8451, 3.28, 1.28 (from memory).
   */
  @ParameterizedTest
  @CsvSource({
    "6, 1, 0.05, 0.5, .484515, .845149, .329664, 3.279044, 1.279044, .257743",
    "8, 1, 0.05, 0.5, .338318, 1.383184, .721503, 4.180816, 2.180816, .330841",
    "8, 2, 0.05, 0.5, .456643, .785994, .064594, 2.179079, .179079, .360700",
    "5, 1, 0.4, 2.5, .377503, 1.109393, .486896, .712866, .312866, 1.556243",
    "8, 1, 0.0476190476, 0.35, .198903, 2.111936, 1.310839, 7.532301, 4.675158, .280384",
    "8, 2, 0.0476190476, 0.35, .343123, 1.088902, .148617, 3.308728, .451585, .329100"
  })
  void agreesWithWorkedRows(
      int n, int c, double u, double m, double p0, double l, double lq, double w, double wq) {
    MachineRepairQueue q = new MachineRepairQueue(n, c, u, m);
    assertEquals(p0, q.idle(), 1e-5);
    assertEquals(l, q.inSystem(), 1e-5);
    assertEquals(lq, q.waiting(), 1e-5);
    assertEquals(w, q.systemMinutes(), 1e-5);
    assertEquals(wq, q.waitMinutes(), 1e-5);
    assertEquals(l / w, q.throughputPerMinute(), 1e-5);
  }

  /**
   * Two machines, exact in fractions: 9/29, 12/29, 8/29 (problem read, fractions worked by hand).
   */
  @Test
  void twoMachinesComeOutInFractions() {
    MachineRepairQueue q = new MachineRepairQueue(2, 1, 1.0 / 12, 1.0 / 8);
    assertEquals(9.0 / 29, q.chances()[0], 1e-12);
    assertEquals(12.0 / 29, q.chances()[1], 1e-12);
    assertEquals(8.0 / 29, q.chances()[2], 1e-12);
    assertEquals(28.0 / 29, q.inSystem(), 1e-12);
  }

  @Test
  void withOneServerThroughputIsServiceRateTimesBusyShare() {
    MachineRepairQueue q = new MachineRepairQueue(4, 1, 0.02, 0.1);
    assertEquals(0.1 * (1 - q.idle()), q.throughputPerMinute(), 1e-12);
  }

  @Test
  void aQueueWithoutTrucksIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new MachineRepairQueue(0, 1, 1, 1));
  }
}
