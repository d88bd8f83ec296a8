package lanemend.crewdays;

/** Planning was told to stop before there was any plan. */
public final class PlanStopped extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public PlanStopped() {
    super("planning was stopped before there was any plan");
  }
}
