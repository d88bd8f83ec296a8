package lanemend.cli;

import java.time.Duration;
import java.time.Instant;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;

/**
 * A progress bar on standard error that appears only when the work takes longer than a second, so
 * quick commands stay quiet. Safe for several threads.
 */
final class Progress implements AutoCloseable {
  private static final Duration QUIET = Duration.ofSeconds(1);

  private final String task;
  private final long total;
  private final Instant started = Instant.now();
  private ProgressBar bar;

  /**
   * @param total steps in all, or -1 when not known
   */
  Progress(String task, long total) {
    this.task = task;
    this.total = total;
  }

  /** Says how many steps are done. */
  synchronized void at(long done) {
    if (bar == null && Duration.between(started, Instant.now()).compareTo(QUIET) > 0) {
      bar =
          new ProgressBarBuilder()
              .setTaskName(task)
              .setInitialMax(total)
              .setStyle(ProgressBarStyle.ASCII)
              .setUpdateIntervalMillis(500)
              .build();
    }
    if (bar != null) {
      bar.stepTo(done);
    }
  }

  @Override
  public synchronized void close() {
    if (bar != null) {
      bar.close();
    }
  }
}
