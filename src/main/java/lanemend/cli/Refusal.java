package lanemend.cli;

/** Says in one sentence why a command did nothing; shown without a stack trace. */
final class Refusal extends RuntimeException {
  private static final long serialVersionUID = 1L;

  Refusal(String sentence) {
    super(sentence);
  }
}
