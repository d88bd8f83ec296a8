package lanemend.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.PlanStop;

/**
 * While open, Ctrl-C ends the search instead of the program: the best plan so far is checked, kept
 * and reported, and only then the program ends.
 */
final class KeptOnInterrupt implements AutoCloseable {
  /** Longest the program is held to finish what it has begun. */
  private static final long PATIENCE_SECONDS = 120;

  private final CountDownLatch finished = new CountDownLatch(1);
  private final Thread hook;
  private final PlanStop stop = new PlanStop();

  KeptOnInterrupt() {
    hook =
        new Thread(
            () -> {
              stop.stop();
              try {
                finished.await(PATIENCE_SECONDS, TimeUnit.SECONDS);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            },
            "keep the best plan");
    Runtime.getRuntime().addShutdownHook(hook);
  }

  /** Passes progress on; Ctrl-C ends the search. */
  PlanProgress hearing(PlanProgress listener) {
    return stop.hearing(listener);
  }

  /** True once Ctrl-C, or a signal to end, came. */
  boolean stopped() {
    return stop.stopped();
  }

  @Override
  public void close() {
    finished.countDown();
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // The program is ending already: the hook was let go by the line above.
      hook.setName("ended");
    }
  }
}
