package lanemend.accounts;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Signing in, with a wait after wrong attempts that doubles: for an account wherever the attempts
 * come from, and for an address whatever the names. Nobody is locked out for good, so nobody can
 * lock another out for good either.
 */
public final class SignIn {
  /** Wrong attempts for one account before the first wait. */
  static final int FREE_BY_ACCOUNT = 5;

  /** Wrong attempts from one address before the first wait; an office shares an address. */
  static final int FREE_BY_ADDRESS = 20;

  static final Duration FIRST_WAIT = Duration.ofSeconds(2);
  static final Duration LONGEST_WAIT = Duration.ofMinutes(15);

  /** Longer than any recovery code with its groups. */
  private static final int LONGEST_CODE = 60;

  /** Names and addresses that are kept in mind, the least recent is forgotten first. */
  private static final int KEPT = 10_000;

  private final Accounts accounts;
  private final Clock clock;
  private final Map<String, Wrong> wrong = new Recent<>(KEPT);

  public SignIn(Accounts accounts) {
    this.accounts = accounts;
    this.clock = accounts.clock();
  }

  /** Wrong attempts so far, and until when the next is not looked at. */
  private record Wrong(int times, Instant until) {}

  /**
   * What became of an attempt.
   *
   * @param account empty unless name and password were right
   * @param waitFor how long to wait before the next attempt is looked at; zero when at once
   * @param codeWanted name and password were right, but the code is missing or was not
   */
  public record Outcome(Optional<Account> account, Duration waitFor, boolean codeWanted) {
    static Outcome refused(Duration waitFor) {
      return new Outcome(Optional.empty(), waitFor, false);
    }
  }

  /**
   * Checks a name, password and, where the account has a second factor, a code, and writes it into
   * the audit list; an attempt during a wait is neither looked at nor written down.
   *
   * @param code empty for none
   * @param from address of the other computer
   */
  public Outcome attempt(String name, String password, String code, String from) {
    Outcome outcome = check(name, password, Optional.of(code), from);
    outcome.account().ifPresent(a -> accounts.note(a.name(), from, AuditEntry.Act.SIGNED_IN, ""));
    return outcome;
  }

  /** Asks somebody who is signed in for the password again. */
  public Outcome confirm(String name, String password, String from) {
    return check(name, password, Optional.empty(), from);
  }

  /** Asks somebody who is signed in for the password and, if he has a second factor, a code. */
  public Outcome confirm(String name, String password, String code, String from) {
    return check(name, password, Optional.of(code), from);
  }

  /**
   * @param code what was given for one; empty where none is asked for
   */
  private Outcome check(String name, String password, Optional<String> code, String from) {
    String byName = "account " + name.strip().toLowerCase(Locale.ROOT);
    String byAddress = "address " + from;
    Duration wait = max(wait(byName), wait(byAddress));
    if (!wait.isZero()) {
      return Outcome.refused(wait);
    }
    // Counted before it is looked at, so that attempts at the same time do not all go free.
    Counted counted = count(byName, FREE_BY_ACCOUNT);
    count(byAddress, FREE_BY_ADDRESS);
    Optional<Account> account = accounts.check(name.strip(), password);
    if (account.isEmpty()) {
      accounts.note(name.strip(), from, AuditEntry.Act.SIGN_IN_REFUSED, "name or password wrong");
      return Outcome.refused(max(wait(byName), wait(byAddress)));
    }
    if (code.isPresent() && account.get().second() == Account.Second.ON) {
      String plain = account.get().name();
      if (code.get().isBlank()) {
        // No guess yet. What was guessed wrong before still counts: a known password does not pay.
        takeBack(byName, counted);
        takeBack(byAddress);
        return new Outcome(Optional.empty(), Duration.ZERO, true);
      }
      if (!accounts.takeCode(plain, limited(code.get()), from)) {
        accounts.note(plain, from, AuditEntry.Act.SIGN_IN_REFUSED, "code wrong or used before");
        return new Outcome(Optional.empty(), max(wait(byName), wait(byAddress)), true);
      }
    }
    if (code.isEmpty() && account.get().second() == Account.Second.ON) {
      // Nor does a known password in a borrowed session pay for guessing codes.
      takeBack(byName, counted);
    } else {
      forget(byName);
    }
    // Not forgotten: a right password of one's own does not pay for guessing at others'.
    takeBack(byAddress);
    return new Outcome(account, Duration.ZERO, false);
  }

  private static String limited(String code) {
    return code.length() > LONGEST_CODE ? code.substring(0, LONGEST_CODE) : code;
  }

  private synchronized Duration wait(String key) {
    Wrong w = wrong.get(key);
    Instant now = clock.instant();
    return w == null || !now.isBefore(w.until()) ? Duration.ZERO : Duration.between(now, w.until());
  }

  /** An attempt as it was counted; before is null for the first. */
  private record Counted(Wrong before, Wrong after) {}

  private synchronized Counted count(String key, int free) {
    Wrong before = wrong.get(key);
    int times = before == null ? 1 : before.times() + 1;
    Duration wait = Duration.ZERO;
    if (times >= free) {
      wait = FIRST_WAIT.multipliedBy(1L << Math.min(times - free, 20));
      wait = wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait;
    }
    Wrong after = new Wrong(times, clock.instant().plus(wait));
    wrong.put(key, after);
    return new Counted(before, after);
  }

  private synchronized void takeBack(String key) {
    Wrong w = wrong.get(key);
    if (w != null) {
      wrong.put(key, new Wrong(w.times() - 1, clock.instant()));
    }
  }

  /** Leaves a wait that another attempt at the same time has earned. */
  private synchronized void takeBack(String key, Counted counted) {
    wrong.computeIfPresent(
        key,
        (k, w) ->
            w.equals(counted.after()) ? counted.before() : new Wrong(w.times() - 1, w.until()));
  }

  private synchronized void forget(String key) {
    wrong.remove(key);
  }

  private static Duration max(Duration a, Duration b) {
    return a.compareTo(b) > 0 ? a : b;
  }
}
