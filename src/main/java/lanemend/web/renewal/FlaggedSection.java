package lanemend.web.renewal;

import java.util.Optional;
import lanemend.renewal.overlay.ConditionIndex;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.sections.Cluster;

/**
 * One flagged section as put before an engineer.
 *
 * @param id as decisions and the program name it
 * @param cluster why it is flagged
 * @param fromAlongM limits the evidence is drawn up for: the cluster's, or as the engineer set them
 * @param overlay thickness and costs over these limits
 * @param condition of a survey; empty where none was made
 */
public record FlaggedSection(
    String id,
    Cluster cluster,
    double fromAlongM,
    double toAlongM,
    OverlayCase overlay,
    Optional<ConditionIndex.Result> condition) {

  public FlaggedSection {
    if (!(fromAlongM < toAlongM)) {
      throw new IllegalArgumentException(
          "section %s: limits %s to %s".formatted(id, fromAlongM, toAlongM));
    }
  }

  /** A section with the limits the scan found. */
  public static FlaggedSection asFlagged(String id, Cluster cluster, OverlayCase overlay) {
    return new FlaggedSection(
        id, cluster, cluster.fromAlongM(), cluster.toAlongM(), overlay, Optional.empty());
  }

  public double lengthM() {
    return toAlongM - fromAlongM;
  }
}
