package lanemend.web.desk;

import jakarta.servlet.http.HttpSessionBindingEvent;
import jakarta.servlet.http.HttpSessionBindingListener;
import java.time.Instant;
import java.util.Collection;
import java.util.UUID;
import lanemend.accounts.Account;

/**
 * One session of an account, as its owner tells it from others. Lies in Jetty's session, and in the
 * list of all for as long as that lasts.
 */
final class SignedIn implements HttpSessionBindingListener {
  private final Collection<SignedIn> all;

  // Not the session's own id, which is as good as a password.
  private final String id = UUID.randomUUID().toString();
  private final String name;
  private final long epoch;
  private final Instant since;
  private final String from;
  private final String browser;
  private volatile Instant lastUsed;
  private volatile boolean ended;
  private volatile String newKey;

  /**
   * @param all the list it enters and leaves; for several threads
   */
  SignedIn(Collection<SignedIn> all, Account account, Instant since, String from, String browser) {
    this.all = all;
    this.name = account.name();
    this.epoch = account.epoch();
    this.since = since;
    this.from = from;
    this.browser = browser;
    this.lastUsed = since;
  }

  @Override
  public void valueBound(HttpSessionBindingEvent event) {
    all.add(this);
  }

  @Override
  public void valueUnbound(HttpSessionBindingEvent event) {
    all.remove(this);
  }

  String id() {
    return id;
  }

  String name() {
    return name;
  }

  Instant since() {
    return since;
  }

  Instant lastUsed() {
    return lastUsed;
  }

  String from() {
    return from;
  }

  String browser() {
    return browser;
  }

  void use(Instant now) {
    lastUsed = now;
  }

  /** It ends at its next request, or when Jetty clears it away. */
  void end() {
    ended = true;
  }

  /** Whether it still signs in, as the account and the clock are now. */
  boolean isGood(Account account, Instant now) {
    return !ended
        && epoch == account.epoch()
        && !now.isAfter(since.plus(Sessions.LONGEST))
        && now.isBefore(lastUsed.plus(Sessions.IDLE));
  }

  /** A key of the second factor that is shown but not confirmed yet; null for none. */
  String newKey() {
    return newKey;
  }

  void setNewKey(String key) {
    newKey = key;
  }
}
