package lanemend.county;

/** Says in one sentence what the store lacks for what was asked. */
public final class NotReady extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** One sentence for the user, with what to do about it. */
  public NotReady(String sentence) {
    super(sentence);
  }
}
