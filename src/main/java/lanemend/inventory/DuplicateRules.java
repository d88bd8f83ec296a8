package lanemend.inventory;

/**
 * When two defects may be one seen twice.
 *
 * @param reachM apart along the road at most; mileposts to 0.01 mile and a phone's point may each
 *     be off by half of it
 * @param daysApart found at most so many days apart; later it has been patched or is another
 * @param least belief from which on a pair is proposed, 0 to 1
 */
public record DuplicateRules(double reachM, int daysApart, double least) {

  /** 20 m, 45 days, two thirds (common practice, no source; see the planted duplicates). */
  public static final DuplicateRules STANDARD = new DuplicateRules(20, 45, 2.0 / 3);

  public DuplicateRules {
    if (!(reachM >= 0 && daysApart >= 0 && least > 0 && least <= 1)) {
      throw new IllegalArgumentException("rules for duplicates out of range");
    }
  }
}
