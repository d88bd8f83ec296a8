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

  /** The county that is kept in the folder sample-network. */
  public static final SampleSize STANDARD = new SampleSize(600, 400, 60, 8);

  public SampleSize {
    if (roadMiles < 150 || roadMiles > 6000) {
      throw new IllegalArgumentException(roadMiles + " road miles are not 150 to 6,000");
    }
    if (openDefects < 0 || findings < 0 || !(repairsPerMile >= 0)) {
      throw new IllegalArgumentException("a county has no negative counts");
    }
  }

  /** The standard county with another number of open defects. */
  public static SampleSize withDefects(int openDefects) {
    return new SampleSize(
        STANDARD.roadMiles, openDefects, STANDARD.findings, STANDARD.repairsPerMile);
  }

  /** How much wider and higher than the standard county the land is. */
  double stretch() {
    return StrictMath.sqrt(roadMiles / 600.0);
  }
}
