package lanemend.county;

import lanemend.crewdays.PlanStopped;

/** Says in one sentence what the store lacks for what was asked. */
public final class NotReady extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** One sentence for the user, with what to do about it. */
  public NotReady(String sentence) {
    super(sentence);
  }

  /** A plan that was ended before there was any. */
  static NotReady ended(PlanStopped e) {
    return new NotReady(e.getMessage() + ": nothing was kept, the plan before stands");
  }
}
