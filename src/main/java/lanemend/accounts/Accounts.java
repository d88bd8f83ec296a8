package lanemend.accounts;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/**
 * The accounts of a work folder, and the audit list. Safe for several threads, and for the command
 * line beside a running desk: what one writes the other sees at once.
 *
 * <p>Every failure is an {@link AccountException} whose message is one sentence for the user, or
 * where the disk is full a {@link NoRoomForAccountsException}.
 */
public final class Accounts implements AutoCloseable {
  /** Name of the file in the work folder. */
  public static final String FILE = "accounts.db";

  /** How long a password that somebody else set may be used to choose one's own. */
  static final Duration FIRST_PASSWORD_LASTS = Duration.ofDays(14);

  private final AccountFile file;
  private final Clock clock;

  private Accounts(AccountFile file, Clock clock) {
    this.file = file;
    this.clock = clock;
  }

  /**
   * Opens the accounts of a folder; makes an empty file that only its owner can read if need be.
   */
  public static Accounts open(Path folder) {
    return open(folder, Clock.systemUTC());
  }

  static Accounts open(Path folder, Clock clock) {
    return new Accounts(AccountFile.open(folder.resolve(FILE)), clock);
  }

  /** Whether a folder has accounts. */
  public static boolean areIn(Path folder) {
    return java.nio.file.Files.exists(folder.resolve(FILE));
  }

  /** Who acts, for the audit list: a name and where from (empty at the command line). */
  public record Actor(String name, String from) {}

  /** Every account, by name. */
  public List<Account> all() {
    return file.all();
  }

  /** The account of a name. */
  public Optional<Account> find(String name) {
    return file.find(name).map(AccountFile.Row::account);
  }

  /**
   * Adds an account.
   *
   * @param own true when its owner chose the password; else another must be chosen at sign-in
   */
  public Account add(String name, Set<Role> roles, String password, boolean own, Actor by) {
    String plain = Account.checkName(name);
    Instant now = clock.instant();
    Account made = new Account(plain, roles, now, now, !own, 1, Account.Second.NONE);
    PasswordRules.check(password, plain);
    String hash = PasswordHashes.hash(password);
    file.change(
        change -> {
          change.insert(made, hash);
          change.audit(now, by, AuditEntry.Act.ACCOUNT_ADDED, plain + ": " + words(roles));
        });
    return made;
  }

  /** Gives an account other roles, which ends its sessions. */
  public Account setRoles(String name, Set<Role> roles, Actor by) {
    Instant now = clock.instant();
    return file.write(
        change -> {
          Account was = change.wanted(name).account();
          Account is =
              new Account(
                  was.name(),
                  roles,
                  was.madeAt(),
                  was.passwordAt(),
                  was.firstPassword(),
                  was.epoch() + 1,
                  was.second());
          change.update(is, null);
          change.audit(
              now,
              by,
              AuditEntry.Act.ACCOUNT_CHANGED,
              was.name() + ": " + words(was.roles()) + " to " + words(roles));
          // Read again: the new roles may demand a second factor.
          return change.wanted(was.name()).account();
        });
  }

  /** Sets a password for somebody else, or at the command line; ends the account's sessions. */
  public Account setPassword(String name, String password, boolean own, Actor by) {
    Account before = file.wanted(name).account();
    PasswordRules.check(password, before.name());
    String hash = PasswordHashes.hash(password);
    Instant now = clock.instant();
    return file.write(
        change -> {
          Account was = change.wanted(name).account();
          Account is =
              new Account(
                  was.name(), was.roles(), was.madeAt(), now, !own, was.epoch() + 1, was.second());
          change.update(is, hash);
          change.audit(now, by, AuditEntry.Act.PASSWORD_CHANGED, was.name());
          return is;
        });
  }

  /**
   * Changes one's own password, the present one having been confirmed.
   *
   * @throws AccountException when the new one is the same, or not to be taken
   */
  public Account changeOwn(String name, String present, String password, String from) {
    if (password.equals(present)) {
      throw new AccountException("the new password is the present one: choose another");
    }
    return setPassword(name, password, true, new Actor(name, from));
  }

  /** Ends every session of an account. */
  public void endSessions(String name, Actor by) {
    Instant now = clock.instant();
    file.change(
        change -> {
          Account was = change.wanted(name).account();
          change.update(was.signedOut(), null);
          change.audit(now, by, AuditEntry.Act.SIGNED_OUT_EVERYWHERE, was.name());
        });
  }

  /**
   * An account with the codes to write down: the only time they can be seen.
   *
   * @param recovery each is good once in place of a code
   */
  public record SecondOn(Account account, List<String> recovery) {}

  /**
   * Sets up the second factor, or another key for it; ends the account's sessions.
   *
   * @param code made with the key, so that nobody is left with a phone that does not fit
   * @throws AccountException when the code is not the key's
   */
  public SecondOn turnSecondOn(String name, String key, String code, Actor by) {
    Instant now = clock.instant();
    long step =
        OneTimeCode.step(key, code, now)
            .orElseThrow(
                () ->
                    new AccountException(
                        "that code is not the one of this key at this moment: look whether the"
                            + " phone's clock is set by the network"));
    List<String> recovery = RecoveryCodes.make();
    return file.write(
        change -> {
          Account was = change.wanted(name).account();
          change.update(was.signedOut(), null);
          change.setSecond(was.name(), key, step);
          recovery.forEach(r -> change.addRecovery(was.name(), RecoveryCodes.hash(r)));
          change.audit(now, by, AuditEntry.Act.SECOND_FACTOR_ON, was.name());
          return new SecondOn(change.wanted(was.name()).account(), recovery);
        });
  }

  /** Takes the second factor of an account away with its recovery codes; ends its sessions. */
  public Account turnSecondOff(String name, Actor by) {
    Instant now = clock.instant();
    return file.write(
        change -> {
          Account was = change.wanted(name).account();
          change.update(was.signedOut(), null);
          change.setSecond(was.name(), null, 0);
          change.audit(now, by, AuditEntry.Act.SECOND_FACTOR_OFF, was.name());
          return change.wanted(was.name()).account();
        });
  }

  /**
   * Uses up a code of the phone, or a recovery code. What was used once, or is older than what was
   * used, is not taken again.
   */
  boolean takeCode(String name, String code, String from) {
    Instant now = clock.instant();
    String key = file.wanted(name).secondKey();
    if (key == null) {
      return false;
    }
    OptionalLong step = OneTimeCode.step(key, code, now);
    return file.write(
        change -> {
          if (step.isPresent()) {
            return change.useStep(name, step.getAsLong());
          }
          boolean taken = change.useRecovery(name, RecoveryCodes.hash(code));
          if (taken) {
            change.audit(now, new Actor(name, from), AuditEntry.Act.RECOVERY_CODE_USED, "");
          }
          return taken;
        });
  }

  /** How many recovery codes an account has left. */
  public int recoveryLeft(String name) {
    return file.recoveryLeft(name);
  }

  /** Roles whose accounts have to have a second factor. */
  public Set<Role> secondDemanded() {
    return file.secondDemanded();
  }

  /** Says which roles have to have a second factor; who lacks it sets it up at the next request. */
  public void demandSecond(Set<Role> roles, Actor by) {
    Instant now = clock.instant();
    file.change(
        change -> {
          change.demandSecond(roles);
          change.audit(
              now,
              by,
              AuditEntry.Act.SECOND_FACTOR_DEMANDED,
              roles.isEmpty() ? "of no role" : "of " + words(roles));
        });
  }

  /** Removes an account. Its name stays in the logs and is not given to anybody else. */
  public void remove(String name, Actor by) {
    Instant now = clock.instant();
    file.change(
        change -> {
          Account was = change.wanted(name).account();
          change.remove(was.name(), now);
          change.audit(now, by, AuditEntry.Act.ACCOUNT_REMOVED, was.name());
        });
  }

  /**
   * Checks a name and password; takes as long whether or not there is such an account.
   *
   * @return empty when they are not right
   * @throws AccountException when the password is right, but was set by somebody else too long ago
   */
  Optional<Account> check(String name, String password) {
    Optional<AccountFile.Row> row = file.find(name);
    String hash = row.map(AccountFile.Row::hash).orElse(null);
    if (!PasswordHashes.matches(limited(password), hash)) {
      return Optional.empty();
    }
    Account account = row.orElseThrow().account();
    if (account.firstPassword()
        && clock.instant().isAfter(account.passwordAt().plus(FIRST_PASSWORD_LASTS))) {
      throw new AccountException(
          "the first password is more than "
              + FIRST_PASSWORD_LASTS.toDays()
              + " days old and no longer taken: ask the admin for another");
    }
    return Optional.of(account);
  }

  /** What is longer than any password is not hashed whole. */
  private static String limited(String password) {
    return password.length() > 2 * PasswordRules.LONGEST
        ? password.substring(0, 2 * PasswordRules.LONGEST)
        : password;
  }

  /** Writes a line of the audit list. */
  public void note(String who, String from, AuditEntry.Act act, String about) {
    Instant now = clock.instant();
    file.change(change -> change.audit(now, new Actor(who, from), act, about));
  }

  /**
   * The audit list, the latest first.
   *
   * @param before only lines with a smaller number; {@link Long#MAX_VALUE} for the latest
   */
  public List<AuditEntry> audit(long before, int count) {
    return file.audit(before, count);
  }

  Clock clock() {
    return clock;
  }

  private static String words(Set<Role> roles) {
    return roles.stream()
        .sorted()
        .map(Role::word)
        .collect(java.util.stream.Collectors.joining(" "));
  }

  @Override
  public void close() {
    file.close();
  }
}
