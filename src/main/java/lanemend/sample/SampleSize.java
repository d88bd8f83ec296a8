package lanemend.sample;

/**
 * How big a county to invent.
 *
 * @param roadMiles road miles to aim at, 150 to 6,000; a divided road counts once
 * @param openDefects open asphalt defects, exactly
 * @param findings other findings, exactly
 * @param repairsPerMile repairs a road mile has in the ten years of history, on average; 0 for none
 */
public record SampleSize(int roadMiles, int openDefects, int findings, double repairsPerMile) {
  private static final int LEAST_MILES = 150;
  private static final int MOST_MILES = 6_000;

  /** The county that is kept in the folder sample-network. */
  public static final SampleSize STANDARD = new SampleSize(600, 400, 60, 8);

  public SampleSize {
    if (roadMiles < LEAST_MILES || roadMiles > MOST_MILES) {
      throw new IllegalArgumentException(roadMiles + " road miles are not 150 to 6,000");
    }
    if (openDefects < 0 || findings < 0 || !(repairsPerMile >= 0)) {
      throw new IllegalArgumentException("a county has no negative counts");
    }
  }

  /**
   * A county for this many open defects: its road miles grow with them from those of the standard
   * county, as far as the bounds allow, and yards, plants and crews grow with the miles.
   */
  public static SampleSize withDefects(int openDefects) {
    long miles = Math.round((double) STANDARD.roadMiles * openDefects / STANDARD.openDefects);
    return new SampleSize(
        (int) Math.max(LEAST_MILES, Math.min(MOST_MILES, miles)),
        openDefects,
        STANDARD.findings,
        STANDARD.repairsPerMile);
  }

  /** Areas of the standard county's size, each with its yards and crews; at least one. */
  int districts() {
    return Math.max(1, (int) Math.round((double) roadMiles / STANDARD.roadMiles));
  }

  /** How much wider and higher than the standard county the land is. */
  double stretch() {
    return StrictMath.sqrt(roadMiles / 600.0);
  }
}
