package lanemend.accounts;

/**
 * The disk is full; nothing was changed. No {@link AccountException}, since what was asked for was
 * right.
 */
public final class NoRoomForAccountsException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  NoRoomForAccountsException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
