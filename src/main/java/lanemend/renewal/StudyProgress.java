package lanemend.renewal;

import java.util.concurrent.CancellationException;

/** Hears how a renewal study gets on, and may end it; called from the thread that studies. */
@FunctionalInterface
public interface StudyProgress {
  /** Nobody listens. */
  StudyProgress NONE = (stage, share) -> true;

  /**
   * Called as each stage begins.
   *
   * @param stage in words
   * @param share of the whole study that is done, 0 to 1
   * @return false to end the study, of which nothing then comes
   */
  boolean at(String stage, double share);

  /**
   * Tells of a stage.
   *
   * @throws CancellationException when the study is to end
   */
  default void goOn(String stage, double share) {
    if (!at(stage, share)) {
      throw new CancellationException("the study was ended");
    }
  }
}
