package lanemend.web.renewal;

import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.sections.Cluster;

/**
 * One flagged section as put before an engineer.
 *
 * @param id as decisions and the program name it
 * @param cluster why it is flagged
 * @param fromAlongM limits the evidence is drawn up for: the cluster's, or as the engineer set them
 * @param overlay thickness and costs over these limits
 */
public record FlaggedSection(
    String id, Cluster cluster, double fromAlongM, double toAlongM, OverlayCase overlay) {

  public FlaggedSection {
    if (!(fromAlongM < toAlongM)) {
      throw new IllegalArgumentException(
          "section %s: limits %s to %s".formatted(id, fromAlongM, toAlongM));
    }
  }

  /** A section with the limits the scan found. */
  public static FlaggedSection asFlagged(String id, Cluster cluster, OverlayCase overlay) {
    return new FlaggedSection(id, cluster, cluster.fromAlongM(), cluster.toAlongM(), overlay);
  }

  public double lengthM() {
    return toAlongM - fromAlongM;
  }
}
