package lanemend.crewdays;

/** Hears how planning gets on, and may stop the search; called from the planning thread. */
@FunctionalInterface
public interface PlanProgress {
  /** Nobody listens. */
  PlanProgress NONE = (stage, share, bestCost) -> true;

  /**
   * Called now and then.
   *
   * @param stage in words
   * @param share of this stage done, 0 to 1
   * @param bestCost cost of the best plan so far with what it leaves out priced in; NaN before the
   *     search
   * @return false to stop the search and keep the best plan so far
   */
  boolean at(String stage, double share, double bestCost);
}
