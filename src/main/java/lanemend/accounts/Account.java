package lanemend.accounts;

import java.time.Instant;
import java.util.EnumSet;
import java.util.Set;

/**
 * Somebody who may sign in.
 *
 * @param name as it stands in the change log; told apart without regard to case
 * @param roles at least one
 * @param madeAt when the account was added
 * @param passwordAt when its password was set last
 * @param firstPassword true while the password is one that somebody else set: its owner has to
 *     choose another before anything else
 * @param epoch grows whenever every session of the account has to end: with a new password, other
 *     roles, or a sign-out everywhere
 * @param second whether a code is asked for beside the password
 */
public record Account(
    String name,
    Set<Role> roles,
    Instant madeAt,
    Instant passwordAt,
    boolean firstPassword,
    long epoch,
    Second second) {

  /** The second factor of an account. */
  public enum Second {
    /** The password is enough. */
    NONE,
    /** One of its roles demands it: its owner has to set it up before anything else. */
    WANTED,
    /** A code is asked for at each sign-in. */
    ON
  }

  /** Longest name. */
  public static final int LONGEST_NAME = 40;

  /**
   * Copies the roles.
   *
   * @throws AccountException when there is none
   */
  public Account {
    if (roles.isEmpty()) {
      throw new AccountException("an account needs a role: " + Role.words());
    }
    roles = Set.copyOf(EnumSet.copyOf(roles));
  }

  /** The same account with every session of it ended. */
  Account signedOut() {
    return new Account(name, roles, madeAt, passwordAt, firstPassword, epoch + 1, second);
  }

  /** Checks a name before an account is made with it. */
  static String checkName(String name) {
    String plain = name == null ? "" : name.strip();
    // A letter or digit first: the name stands in tables that a spreadsheet opens.
    if (!plain.matches("[\\p{L}\\p{N}][\\p{L}\\p{M}\\p{N} ._'-]{1," + (LONGEST_NAME - 1) + "}")) {
      throw new AccountException(
          "found the name '"
              + plain
              + "', expected 2 to "
              + LONGEST_NAME
              + " letters, digits, blanks and . _ ' - with a letter or digit first");
    }
    return plain;
  }
}
