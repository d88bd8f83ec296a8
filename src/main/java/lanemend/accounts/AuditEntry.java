package lanemend.accounts;

import java.time.Instant;

/**
 * One line of the audit list. Lines are only ever added.
 *
 * @param number counts from 1
 * @param who account name as given, or the name of the one at the command line
 * @param from address of the other computer; empty for the command line
 * @param about in a few words, never a password
 */
public record AuditEntry(long number, Instant at, String who, String from, Act act, String about) {

  /** What is written down. */
  public enum Act {
    SIGNED_IN,
    SIGN_IN_REFUSED,
    SIGNED_OUT,
    SIGNED_OUT_EVERYWHERE,
    SESSION_ENDED,
    REFUSED,
    PASSWORD_CHANGED,
    ACCOUNT_ADDED,
    ACCOUNT_CHANGED,
    ACCOUNT_REMOVED,
    ACCOUNTS_RESTORED,
    SECOND_FACTOR_ON,
    SECOND_FACTOR_OFF,
    SECOND_FACTOR_DEMANDED,
    RECOVERY_CODE_USED
  }
}
