package lanemend.accounts;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
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

  /** Names and addresses that are kept in mind, the least recent is forgotten first. */
  private static final int KEPT = 10_000;

  private final Accounts accounts;
  private final Clock clock;
  private final Map<String, Wrong> wrong =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Wrong> eldest) {
          return size() > KEPT;
        }
      };

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
   */
  public record Outcome(Optional<Account> account, Duration waitFor) {}

  /**
   * Checks a name and password and writes it into the audit list; an attempt during a wait is
   * neither looked at nor written down.
   *
   * @param from address of the other computer
   */
  public Outcome attempt(String name, String password, String from) {
    Outcome outcome = confirm(name, password, from);
    outcome.account().ifPresent(a -> accounts.note(a.name(), from, AuditEntry.Act.SIGNED_IN, ""));
    return outcome;
  }

  /** The same for somebody who is signed in and is asked again. */
  public Outcome confirm(String name, String password, String from) {
    String byName = "account " + name.strip().toLowerCase(Locale.ROOT);
    String byAddress = "address " + from;
    Duration wait = max(wait(byName), wait(byAddress));
    if (!wait.isZero()) {
      return new Outcome(Optional.empty(), wait);
    }
    // Counted before it is looked at, so that attempts at the same time do not all go free.
    count(byName, FREE_BY_ACCOUNT);
    count(byAddress, FREE_BY_ADDRESS);
    Optional<Account> account = accounts.check(name.strip(), password);
    if (account.isEmpty()) {
      accounts.note(name.strip(), from, AuditEntry.Act.SIGN_IN_REFUSED, "name or password wrong");
      return new Outcome(Optional.empty(), max(wait(byName), wait(byAddress)));
    }
    forget(byName);
    // Not forgotten: a right password of one's own does not pay for guessing at others'.
    takeBack(byAddress);
    return new Outcome(account, Duration.ZERO);
  }

  private synchronized Duration wait(String key) {
    Wrong w = wrong.get(key);
    Instant now = clock.instant();
    return w == null || !now.isBefore(w.until()) ? Duration.ZERO : Duration.between(now, w.until());
  }

  private synchronized void count(String key, int free) {
    Wrong before = wrong.get(key);
    int times = before == null ? 1 : before.times() + 1;
    Duration wait = Duration.ZERO;
    if (times >= free) {
      wait = FIRST_WAIT.multipliedBy(1L << Math.min(times - free, 20));
      wait = wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait;
    }
    wrong.put(key, new Wrong(times, clock.instant().plus(wait)));
  }

  private synchronized void takeBack(String key) {
    Wrong w = wrong.get(key);
    if (w != null) {
      wrong.put(key, new Wrong(w.times() - 1, clock.instant()));
    }
  }

  private synchronized void forget(String key) {
    wrong.remove(key);
  }

  private static Duration max(Duration a, Duration b) {
    return a.compareTo(b) > 0 ? a : b;
  }
}
