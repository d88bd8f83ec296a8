package lanemend.cli;

/** Says in one sentence why a command did nothing; shown without a stack trace. */
final class Refusal extends RuntimeException {
  private static final long serialVersionUID = 1L;

  Refusal(String sentence) {
    super(sentence);
  }

  /** Refuses an option's number unless it is one that can be worked with. */
  static void unless(boolean good, String option, Object found, String expected) {
    if (!good) {
      throw new Refusal("found " + option + " " + found + ", expected " + expected);
    }
  }
}
