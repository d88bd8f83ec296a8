package lanemend.renewal;

import java.time.LocalDate;

/**
 * What an engineer made of a section, flagged or put on the list by hand; kept with its reason.
 *
 * @param fromAlongM the limits as decided
 * @param notBefore first year an overlay may be planned for; only where deferred, else 0
 * @param reason in the engineer's words; never empty except when accepted as it stands
 * @param by name
 */
public record EngineerDecision(
    String sectionId,
    Kind kind,
    double fromAlongM,
    double toAlongM,
    int notBefore,
    String reason,
    String by,
    LocalDate on) {

  /** What was decided. */
  public enum Kind {
    /** Put on the list by hand, to be looked at; nothing is decided yet. */
    ADDED,
    ACCEPTED,
    LIMITS_CHANGED,
    DEFERRED,
    REJECTED
  }

  public EngineerDecision {
    if (kind != Kind.ACCEPTED && reason.isBlank()) {
      throw new IllegalArgumentException("section " + sectionId + ": " + kind + " needs a reason");
    }
    if (by.isBlank()) {
      throw new IllegalArgumentException("section " + sectionId + ": who decided is missing");
    }
    if (!(fromAlongM < toAlongM)) {
      throw new IllegalArgumentException(
          "section %s: limits %s to %s".formatted(sectionId, fromAlongM, toAlongM));
    }
    if ((kind == Kind.DEFERRED) != (notBefore > 0)) {
      throw new IllegalArgumentException(
          "section " + sectionId + ": a first year goes with a deferral and only with one");
    }
  }

  /** The same decision between other limits. */
  public EngineerDecision between(double fromM, double toM) {
    return new EngineerDecision(sectionId, kind, fromM, toM, notBefore, reason, by, on);
  }
}
