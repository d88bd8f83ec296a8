package lanemend.patching.traffic;

/** How traffic gets past the work: what decides tapers and devices. */
enum Passing {
  /** The open lane serves both directions by turns. */
  BY_TURNS,
  /** One lane of several in a direction is closed. */
  MERGE,
  /** A lane and the one outside of it are closed, one after the other. */
  MERGE_TWICE,
  /** Traffic is led aside without losing a lane, and back. */
  SHIFT,
  /** Nothing is left to drive on. */
  CLOSED,
  /** The lanes stay as they are: the shoulder, or the edge of a lane wide enough. */
  BESIDE,
  /** Vehicles move with the work; nothing is set on the road. */
  MOVING
}
