package lanemend.crewdays;

/**
 * Lets anybody end a search from outside: the best plan found so far is then what comes of it. Hand
 * {@link #hearing} to the planner and call {@link #stop} from any thread.
 */
public final class PlanStop {
  private volatile boolean stopped;

  /** Ends the search at its next look, within a fifth of a second. */
  public void stop() {
    stopped = true;
  }

  public boolean stopped() {
    return stopped;
  }

  /** Passes progress on and carries the wish to stop back. */
  public PlanProgress hearing(PlanProgress listener) {
    return (stage, share, bestCost) -> listener.at(stage, share, bestCost) && !stopped;
  }
}
