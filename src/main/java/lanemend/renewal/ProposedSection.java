package lanemend.renewal;

import java.util.Optional;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.repairs.RepairForecast;
import lanemend.renewal.sections.Cluster;

/**
 * A section as it is put before an engineer: flagged, or chosen by hand.
 *
 * @param id as decisions and the program name it
 * @param fromAlongM limits of the project: the cluster's, widened to the shortest project, or as an
 *     engineer decided
 * @param forecast of patching it on
 * @param decision on file, if any
 */
public record ProposedSection(
    String id,
    Cluster cluster,
    double fromAlongM,
    double toAlongM,
    RepairForecast forecast,
    OverlayCase overlay,
    Optional<DecidedSection> decision) {}
