package lanemend.store;

/** Something the store could not do, in one sentence for the person at the keyboard. */
public class StoreException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public StoreException(String sentence) {
    super(sentence);
  }

  public StoreException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
