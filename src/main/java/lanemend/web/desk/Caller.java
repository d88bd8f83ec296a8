package lanemend.web.desk;

import io.javalin.http.Context;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import lanemend.accounts.Account;
import lanemend.accounts.Role;

/**
 * Who asks. What a request writes is written in this name.
 *
 * @param name as it goes into the change log
 * @param signedIn false for the single user of a desk without sign-in, who may do everything
 * @param firstPassword true until a password that somebody else set is replaced
 * @param second whether a code was asked for beside the password, or has to be set up first
 */
record Caller(
    String name, Set<Role> roles, boolean signedIn, boolean firstPassword, Account.Second second) {
  private static final String KEY = "lanemend.caller";

  static Caller single(String who) {
    return new Caller(who, EnumSet.allOf(Role.class), false, false, Account.Second.NONE);
  }

  /** Why nothing but one's own account is open yet; empty when everything of the roles is. */
  Optional<String> heldBy() {
    if (firstPassword) {
      return Optional.of("choose a password of your own first, on the page Account");
    }
    return second == Account.Second.WANTED
        ? Optional.of("your role asks for a second factor: set it up first, on the page Account")
        : Optional.empty();
  }

  boolean is(Role role) {
    return roles.contains(role);
  }

  void noteIn(Context c) {
    c.attribute(KEY, this);
  }

  /** Who asks; set by {@link Access} before any handler runs. */
  static Caller of(Context c) {
    Caller caller = c.attribute(KEY);
    if (caller == null) {
      throw new IllegalStateException("nobody is known to ask " + c.path());
    }
    return caller;
  }

  /** Who asks, where a handler is open to those who have not signed in. */
  static Optional<Caller> known(Context c) {
    return Optional.ofNullable(c.attribute(KEY));
  }

  /** The name a write is to carry. */
  static String name(Context c) {
    return of(c).name();
  }
}
