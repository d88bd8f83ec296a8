package lanemend.crewdays;

/**
 * How sure a crew day must be to end inside its shift, and how far minutes stray besides those of
 * the repairs' own steps, each one standard deviation as a share of the mean. The shares are common
 * practice without a source; an agency with records puts its own.
 *
 * @param probability wanted chance of being back inside the shift, below 1; 0 asks for none
 * @param daySpread all minutes of one day together: the crew's form, weather, traffic
 * @param driveSpread one drive
 * @param setUpSpread setting up, taking down and shifting from patch to patch
 * @param truckWaitSpread waiting for trucks while laying
 */
public record FinishRule(
    double probability,
    double daySpread,
    double driveSpread,
    double setUpSpread,
    double truckWaitSpread) {

  /** Asks for nothing: a day fits when its mean does. */
  public static final FinishRule NONE = new FinishRule(0, 0.08, 0.15, 0.25, 0.40);

  /**
   * Checks the shares.
   *
   * @throws IllegalArgumentException when the probability is not in 0 to below 1 or a share is
   *     negative
   */
  public FinishRule {
    if (!(probability >= 0 && probability < 1)) {
      throw new IllegalArgumentException("a chance of finishing of " + probability);
    }
    if (!(daySpread >= 0 && driveSpread >= 0 && setUpSpread >= 0 && truckWaitSpread >= 0)) {
      throw new IllegalArgumentException("a spread below 0");
    }
  }

  /** The same spreads with another wanted probability. */
  public FinishRule asking(double wanted) {
    return new FinishRule(wanted, daySpread, driveSpread, setUpSpread, truckWaitSpread);
  }

  /** True when days must keep a probability. */
  public boolean asked() {
    return probability > 0;
  }
}
