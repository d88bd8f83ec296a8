package lanemend.inventory;

/** What else a patrol reports, for whoever owns it. */
public enum FindingKind {
  FENCE,
  SIGN,
  CULVERT,
  DRAINAGE,
  OTHER
}
