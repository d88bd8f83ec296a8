package lanemend.web.desk;

import io.javalin.http.Context;
import jakarta.servlet.SessionTrackingMode;
import jakarta.servlet.http.HttpSession;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import lanemend.accounts.Account;
import lanemend.accounts.Accounts;
import org.eclipse.jetty.ee10.servlet.SessionHandler;
import org.eclipse.jetty.http.HttpCookie;

/**
 * Who is signed in, by Jetty's own sessions: kept in memory, so a restart signs everybody out. A
 * session is of one account as it was at sign-in; once the account's epoch has moved on, it ends.
 */
final class Sessions {
  /** Without a request for so long, sign in again. */
  static final Duration IDLE = Duration.ofMinutes(60);

  /** After so long in any case: a long shift. */
  static final Duration LONGEST = Duration.ofHours(12);

  private static final String SIGNED_IN = "signed in";
  private static final String FROM = "lanemend.from";

  private final Optional<Accounts> accounts;
  private final Clock clock;
  private final Collection<SignedIn> all = ConcurrentHashMap.newKeySet();

  Sessions(Optional<Accounts> accounts, Clock clock) {
    this.accounts = accounts;
    this.clock = clock;
  }

  /** Jetty's part. */
  static SessionHandler handler(boolean encrypted) {
    SessionHandler handler = new SessionHandler();
    // The prefix makes a browser insist on Secure, this host and the whole path.
    handler.setSessionCookie(encrypted ? "__Host-lanemend" : "lanemend");
    handler.setHttpOnly(true);
    handler.setSecureCookies(encrypted);
    handler.setSameSite(HttpCookie.SameSite.STRICT);
    handler.setMaxInactiveInterval((int) IDLE.toSeconds());
    handler.setSessionTrackingModes(Set.of(SessionTrackingMode.COOKIE));
    return handler;
  }

  /** Begins a session under an id of its own. */
  Caller begin(Context c, Account account) {
    end(c);
    HttpSession session = c.req().getSession(true);
    session.setAttribute(
        SIGNED_IN,
        new SignedIn(all, account, clock.instant(), from(c), Browsers.named(c.userAgent())));
    return caller(account);
  }

  /** Ends the request's session, if it has one. */
  void end(Context c) {
    HttpSession session = c.req().getSession(false);
    if (session != null) {
      session.invalidate();
    }
  }

  /** Who is signed in, as the account is now. */
  Optional<Caller> caller(Context c) {
    Optional<SignedIn> session = accounts.isEmpty() ? Optional.empty() : signedIn(c);
    if (session.isEmpty()) {
      return Optional.empty();
    }
    Instant now = clock.instant();
    Optional<Account> account =
        accounts.get().find(session.get().name()).filter(a -> session.get().isGood(a, now));
    if (account.isEmpty()) {
      end(c);
      return Optional.empty();
    }
    session.get().use(now);
    return account.map(Sessions::caller);
  }

  /** The request's own session. */
  Optional<SignedIn> signedIn(Context c) {
    HttpSession session = c.req().getSession(false);
    return session != null && session.getAttribute(SIGNED_IN) instanceof SignedIn in
        ? Optional.of(in)
        : Optional.empty();
  }

  /** Every session of an account that still signs in, the one used last first. */
  List<SignedIn> of(Account account) {
    Instant now = clock.instant();
    return all.stream()
        .filter(s -> s.name().equals(account.name()) && s.isGood(account, now))
        .sorted(Comparator.comparing(SignedIn::lastUsed).reversed())
        .toList();
  }

  private static Caller caller(Account a) {
    return new Caller(a.name(), a.roles(), true, a.firstPassword(), a.second());
  }

  /** Address of the other computer, a proxy looked through; set by {@link Guard}. */
  static String from(Context c) {
    String from = c.attribute(FROM);
    return from == null ? c.req().getRemoteAddr() : from;
  }

  static void noteFrom(Context c, String address) {
    c.attribute(FROM, address);
  }
}
