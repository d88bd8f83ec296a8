package lanemend.web.desk;

import java.util.Optional;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;

/** How far a section has come; each is drawn in a way of its own. */
enum SectionState {
  /** Flagged, put on the list or put off: still to be decided. */
  CANDIDATE,
  ACCEPTED,
  REJECTED;

  static SectionState of(Optional<DecidedSection> decision) {
    EngineerDecision.Kind kind = decision.map(d -> d.decision().kind()).orElse(null);
    if (kind == EngineerDecision.Kind.ACCEPTED || kind == EngineerDecision.Kind.LIMITS_CHANGED) {
      return ACCEPTED;
    }
    return kind == EngineerDecision.Kind.REJECTED ? REJECTED : CANDIDATE;
  }

  /** In a few words, with the year where there is one. */
  static String words(Optional<DecidedSection> decision) {
    if (decision.isEmpty()) {
      return "to be decided";
    }
    DecidedSection d = decision.get();
    String year =
        d.overlayYear() != 0
            ? ", overlay in " + d.overlayYear()
            : d.decision().notBefore() != 0 ? ", not before " + d.decision().notBefore() : "";
    return switch (d.decision().kind()) {
          case ADDED -> "put on the list by hand";
          case ACCEPTED -> "accepted";
          case LIMITS_CHANGED -> "accepted with other limits";
          case DEFERRED -> "put off";
          case REJECTED -> "rejected";
        }
        + year;
  }
}
