package lanemend.inventory.edit;

/** What became of an event. */
public enum Outcome {
  /** On the same ground; at most its route, along or milepost are called otherwise. */
  STAYS("stays at the place"),
  /** The road's line or its mileposts moved, and the event with them. */
  MOVED("moved with the road"),
  /** A part of it lies on road that is no longer the same route. */
  SHORTENED("shortened"),
  /** It cannot be told where it lies now. */
  NEEDS_LOOK("needs a look");

  private final String words;

  Outcome(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
