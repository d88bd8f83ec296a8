package lanemend.patching;

/** What is sprayed as tack; they grow with heat by different rules. */
public enum TackMaterial {
  EMULSION,
  /** Straight paving asphalt. */
  ASPHALT
}
