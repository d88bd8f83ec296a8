package lanemend.inventory;

/**
 * A kind of linear event.
 *
 * @param several false where one value holds at a place (a posted speed), so that two different
 *     ones are a conflict; true where several may lie over each other (defects, past repairs)
 */
public record EventTable(String name, boolean several) {

  /** A table of which one value holds at a place. */
  public static EventTable one(String name) {
    return new EventTable(name, false);
  }

  /** A table whose events may lie over each other. */
  public static EventTable several(String name) {
    return new EventTable(name, true);
  }
}
