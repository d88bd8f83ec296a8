package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Duration;
import java.util.Objects;
import java.util.Optional;
import lanemend.accounts.SignIn;

/**
 * Asks somebody who is signed in for the password once more, before an act that a borrowed session
 * must not be enough for. Guessing it there is slowed as at sign-in, and with it.
 */
final class PasswordAgain {
  private final Optional<SignIn> signIn;

  PasswordAgain(Optional<SignIn> signIn) {
    this.signIn = signIn;
  }

  /**
   * Lets the right password pass.
   *
   * @param present as typed; null when it was not sent
   */
  void check(Context c, String present) {
    require(present);
    pass(c, wanted(signIn).confirm(Caller.name(c), present, Sessions.from(c)), "");
  }

  /** Lets the right password pass, with a code where there is a second factor. */
  void checkBoth(Context c, String present, String code) {
    require(present);
    String typed = Objects.requireNonNullElse(code, "");
    pass(c, wanted(signIn).confirm(Caller.name(c), present, typed, Sessions.from(c)), typed);
  }

  private static void require(String present) {
    if (present == null) {
      throw new Problem(Problem.Kind.BAD_VALUE, "the present password is wanted")
          .with("field", "present");
    }
  }

  private static void pass(Context c, SignIn.Outcome outcome, String code) {
    if (outcome.account().isPresent()) {
      return;
    }
    slowDown(c, outcome.waitFor());
    if (outcome.codeWanted()) {
      throw codeWanted(Problem.Kind.BAD_VALUE, code);
    }
    throw new Problem(Problem.Kind.BAD_VALUE, "the present password is not right")
        .with("field", "present");
  }

  /** Asks for a code; pages show its field by the member {@code codeWanted}. */
  static Problem codeWanted(Problem.Kind kind, String given) {
    boolean none = given == null || given.isBlank();
    return new Problem(
            kind,
            none
                ? "the code of your second factor is wanted"
                : "that code is not right, or was used already: wait for the next one")
        .with("codeWanted", true)
        .with("field", "code");
  }

  /** Refuses for so long as the next attempt is not looked at, if at all. */
  static void slowDown(Context c, Duration waitFor) {
    // Up, so that who waits as long as it says is not refused again.
    long seconds = (waitFor.toMillis() + 999) / 1_000;
    if (seconds > 0) {
      c.header("Retry-After", Long.toString(seconds));
      throw new Problem(
              Problem.Kind.TOO_MANY,
              "name, password or code was wrong too often: the next attempt is looked at in "
                  + (seconds < 120 ? seconds + " seconds" : (seconds + 59) / 60 + " minutes"))
          .with("waitSeconds", seconds);
    }
  }

  /** What a desk with accounts has, or the reason why this one has not. */
  static <T> T wanted(Optional<T> ofAccounts) {
    return ofAccounts.orElseThrow(
        () ->
            new Problem(
                Problem.Kind.NOT_READY, "this desk has one user and no sign-in, so no accounts"));
  }
}
