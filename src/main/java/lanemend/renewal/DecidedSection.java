package lanemend.renewal;

import java.util.Optional;
import lanemend.renewal.program.HoldTogether;

/**
 * An engineer's decision with the road it is about.
 *
 * @param overlayYear calendar year the overlay is agreed for, or 0 when none is: only where the
 *     section was accepted, as it stands or with other limits
 */
public record DecidedSection(String routeId, EngineerDecision decision, int overlayYear) {

  public DecidedSection {
    boolean agreed =
        decision.kind() == EngineerDecision.Kind.ACCEPTED
            || decision.kind() == EngineerDecision.Kind.LIMITS_CHANGED;
    if (overlayYear != 0 && !agreed) {
      throw new IllegalArgumentException(
          "section "
              + decision.sectionId()
              + ": an overlay year goes with an accepted section only");
    }
  }

  /** The overlay that is agreed, with whose decision it is; empty where no year is. */
  public Optional<HoldTogether.Overlaid> overlaid() {
    return overlayYear == 0
        ? Optional.empty()
        : Optional.of(
            new HoldTogether.Overlaid(
                decision.sectionId(),
                routeId,
                decision.fromAlongM(),
                decision.toAlongM(),
                overlayYear,
                "accepted by " + decision.by() + " on " + decision.on()));
  }

  /** True where this and a stretch of the road have more than a touch in common. */
  public boolean overlaps(String onRoute, double fromAlongM, double toAlongM) {
    return routeId.equals(onRoute)
        && fromAlongM < decision.toAlongM()
        && toAlongM > decision.fromAlongM();
  }
}
