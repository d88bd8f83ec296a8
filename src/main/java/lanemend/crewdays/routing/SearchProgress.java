package lanemend.crewdays.routing;

/** Hears how a search gets on, and may stop it; called from the thread that started it. */
public interface SearchProgress {
  /** Nobody listens. */
  SearchProgress NONE =
      (share, bestCost) -> {
        return true;
      };

  /**
   * Called now and then.
   *
   * @param share of the budget used, 0 to 1
   * @param bestCost of the best solution so far
   * @return false to stop and keep the best so far
   */
  boolean at(double share, double bestCost);
}
