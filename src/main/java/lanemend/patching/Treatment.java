package lanemend.patching;

/** What is done about a defect. */
public enum Treatment {
  HAND_PATCH,
  BLADE_PATCH,
  DIG_OUT_AND_REBUILD,
  EDGE_REPAIR,
  CRACK_TREATMENT,
  SURFACE_TREATMENT,
  DEFER_TO_OVERLAY
}
