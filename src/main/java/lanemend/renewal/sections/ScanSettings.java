package lanemend.renewal.sections;

import lanemend.measure.Conversion;

/**
 * How clusters are looked for.
 *
 * @param minLengthM shortest window
 * @param maxLengthM longest window
 * @param chance what counts as chance
 * @param replicates most random routes drawn per route
 * @param enough stop drawing once this many beat the route's own cluster (Besag and Clifford 1991):
 *     its p-value is then known well enough
 * @param falseDiscovery share of flagged routes that may be false
 */
public record ScanSettings(
    double minLengthM,
    double maxLengthM,
    Chance chance,
    int replicates,
    int enough,
    double falseDiscovery,
    long seed) {

  /** What the random routes look like. */
  public enum Chance {
    /** Kulldorff's own: counts are Poisson about the families' expectation. */
    POISSON,
    /**
     * Cells differ as the fitted frailty says, but neighbours are no more alike than strangers. One
     * bad cell among good ones is then no cluster.
     */
    FRAILTY
  }

  /** Windows of 0.3 to 3 miles (common practice, no source), 5 % false discoveries. */
  public static ScanSettings standard() {
    return new ScanSettings(
        0.3 * Conversion.M_PER_MILE,
        3 * Conversion.M_PER_MILE,
        Chance.FRAILTY,
        9999,
        20,
        0.05,
        20_260_101L);
  }
}
