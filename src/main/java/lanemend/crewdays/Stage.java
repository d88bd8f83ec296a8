package lanemend.crewdays;

import java.util.function.IntConsumer;
import java.util.stream.IntStream;

/**
 * A long piece of planning in many steps apart from each other: done on all cores, a chunk at a
 * time, between which the listener hears how far it is and may end it.
 *
 * @param name in words
 * @param from share of the stage done before
 * @param to share done after it
 */
record Stage(PlanProgress progress, String name, double from, double to) {
  /** About so many times a listener hears. */
  private static final int CHUNKS = 32;

  /** Fewer steps at once are not worth a second thread. */
  private static final int LEAST_CHUNK = 64;

  /** A stage nobody listens to. */
  static Stage quiet() {
    return new Stage(PlanProgress.NONE, "", 0, 1);
  }

  /**
   * Does the steps 0 to {@code count}, in no order.
   *
   * @throws PlanStopped when the listener ends it
   */
  void each(int count, IntConsumer step) {
    chunks(count, (low, high) -> IntStream.range(low, high).parallel().forEach(step));
  }

  /** Takes the steps from one number up to another. */
  @FunctionalInterface
  interface Chunk {
    void take(int low, int high);
  }

  /** As {@link #each}, for work that goes about a chunk of steps in its own way. */
  void chunks(int count, Chunk work) {
    int size = Math.max(LEAST_CHUNK, count / CHUNKS + 1);
    for (int low = 0; low < count; low += size) {
      int high = Math.min(count, low + size);
      work.take(low, high);
      if (!progress.at(name, from + (to - from) * high / count, Double.NaN)) {
        throw new PlanStopped();
      }
    }
  }
}
