package lanemend.inventory;

/** Severity of a distress, the three levels of ASTM D6433. */
public enum Severity {
  LOW,
  MEDIUM,
  HIGH
}
