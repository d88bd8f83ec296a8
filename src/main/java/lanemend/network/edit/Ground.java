package lanemend.network.edit;

/** What became of the ground under a stretch of road that an edit carries over. */
public enum Ground {
  /** The road lies where it lay. */
  SAME,
  /** The road lies where it lay, but its line is drawn anew. */
  REDRAWN,
  /** Drawn anew so far from the old line that the place on it is an estimate. */
  REDRAWN_FAR,
  /** A new road takes the place of the old one; the old pavement is given up. */
  REBUILT
}
