package lanemend.accounts;

/** Why something could not be done with accounts, in one sentence for the user. */
public final class AccountException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public AccountException(String sentence) {
    super(sentence);
  }

  AccountException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
