package lanemend.inventory.edit;

import java.util.Arrays;
import java.util.Set;
import lanemend.inventory.AttributeName;

/** Kinds of event that an edit of their road treats alike. */
public enum EventKind {
  /** A defect that still asks for something. */
  OPEN_DEFECT,
  /** A defect that is done or withdrawn. */
  CLOSED_DEFECT,
  FINDING,
  /** A repair that was done. */
  PATCH,
  /** What was measured of the pavement: a survey's distress, a core. */
  RECORD,
  /** A fact about what lies there: widths, lanes, surface, base, age, level. */
  PAVEMENT_FACT,
  /** A fact about who drives there and how: posted speed, direction, traffic, town or country. */
  TRAFFIC_FACT,
  /** A fact under a name of the agency's own. */
  AGENCY_FACT,
  /** An engineer's decision on a section. */
  DECISION;

  private static final Set<AttributeName> TRAFFIC =
      Set.of(
          AttributeName.POSTED_SPEED_KMH,
          AttributeName.ONE_WAY,
          AttributeName.AADT,
          AttributeName.TRUCK_SHARE,
          AttributeName.URBAN);

  /** The kind of a fact by its name. */
  public static EventKind ofFact(String name) {
    return Arrays.stream(AttributeName.values())
        .filter(n -> n.key().equals(name))
        .findFirst()
        .map(n -> TRAFFIC.contains(n) ? TRAFFIC_FACT : PAVEMENT_FACT)
        .orElse(AGENCY_FACT);
  }

  /** Facts may be cut into pieces; of anything else there is one. */
  public boolean fact() {
    return this == PAVEMENT_FACT || this == TRAFFIC_FACT || this == AGENCY_FACT;
  }

  /** History: it needs no road of today. */
  public boolean history() {
    return this == CLOSED_DEFECT || this == PATCH || this == RECORD || fact();
  }
}
