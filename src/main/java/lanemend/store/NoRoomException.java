package lanemend.store;

/** The disk is full; nothing was changed, and what is there can be read. */
public final class NoRoomException extends StoreException {
  private static final long serialVersionUID = 1L;

  NoRoomException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
