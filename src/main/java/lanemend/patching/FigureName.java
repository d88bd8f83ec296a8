package lanemend.patching;

/** Names of the figures that more than one place reads. */
public final class FigureName {
  public static final String MIX = "mix to order";
  public static final String TACK = "tack to spray";
  public static final String LIFTS = "lifts";
  public static final String PASSES = "blade passes";
  public static final String LOADS = "truck loads";

  /** Mix the grader and roller can place in an hour, tonnes. */
  public static final String LAYDOWN_RATE = "laydown rate";

  /** Begins the names of the least temperatures; what is laid follows. */
  public static final String LEAST_TEMPERATURE = "least temperature for ";

  private FigureName() {}
}
