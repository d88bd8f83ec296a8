package lanemend.inventory;

/** Kinds of asphalt distress, in the terms of ASTM D6433 (list from memory). */
public enum DefectKind {
  POTHOLE,
  ALLIGATOR_CRACKING,
  RUTTING,
  SHOVING,
  EDGE_BREAK,
  DEPRESSION,
  RAVELLING,
  BLOCK_CRACKING,
  LONGITUDINAL_CRACKING,
  TRANSVERSE_CRACKING
}
