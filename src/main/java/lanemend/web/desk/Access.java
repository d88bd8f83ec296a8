package lanemend.web.desk;

import io.javalin.http.Context;
import io.javalin.http.Handler;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import lanemend.accounts.Accounts;
import lanemend.accounts.AuditEntry;
import lanemend.accounts.Recent;
import lanemend.accounts.Role;

/** Stands before every route: says who asks, and refuses what {@link AccessTable} does not give. */
final class Access {
  private static final int KEPT = 5_000;
  private static final Duration NOTED_AGAIN_AFTER = Duration.ofMinutes(1);

  private final Optional<Accounts> accounts;
  private final Sessions sessions;
  private final Caller single;
  private final RequestRate rate = new RequestRate(Clock.systemUTC());
  private final Map<String, Instant> noted = new Recent<>(KEPT);

  Access(Door door, Sessions sessions, String who) {
    this.accounts = door.accounts();
    this.sessions = sessions;
    this.single = Caller.single(who);
  }

  /** Whether people sign in at all. */
  boolean signInOn() {
    return accounts.isPresent();
  }

  /** Who asks; empty when nobody has signed in. */
  Optional<Caller> caller(Context c) {
    return accounts.isEmpty() ? Optional.of(single) : sessions.caller(c);
  }

  /** A page that opens only for those who may see it; others are led to sign in. */
  Handler guardedPage(String path, Handler handler) {
    return guarded("get", path, true, handler);
  }

  /** A handler that runs only for those who may use its route. */
  Handler guarded(String method, String path, Handler handler) {
    return guarded(method, path, false, handler);
  }

  private Handler guarded(String method, String path, boolean page, Handler handler) {
    String route = method + " " + path;
    AccessTable.Rule rule = AccessTable.rule(route);
    return c -> {
      if (rule == null) {
        throw new Problem(
            Problem.Kind.FORBIDDEN,
            "'" + route + "' has no line in AccessTable: nobody may use it");
      }
      Optional<Caller> caller = caller(c);
      if (signInOn()) {
        rate.check(caller.map(Caller::name).orElse("from " + Sessions.from(c)));
      }
      if (caller.isEmpty() && !rule.open()) {
        refuseUnknown(c, page);
        return;
      }
      if (caller.isPresent()) {
        check(c, caller.get(), route, rule);
        Optional<String> held = caller.get().heldBy();
        if (held.isPresent() && !rule.own()) {
          refuseHeld(c, page, held.get());
          return;
        }
        caller.get().noteIn(c);
      }
      handler.handle(c);
    };
  }

  private static void refuseUnknown(Context c, boolean page) {
    if (!page) {
      throw new Problem(Problem.Kind.SIGN_IN, "sign in first");
    }
    String query = c.queryString() == null ? "" : "?" + c.queryString();
    c.redirect("/sign-in?then=" + URLEncoder.encode(c.path() + query, StandardCharsets.UTF_8));
  }

  private void check(Context c, Caller caller, String route, AccessTable.Rule rule) {
    if (rule.roles().stream().noneMatch(caller::is)) {
      note(c, caller, route);
      throw new Problem(
              Problem.Kind.FORBIDDEN,
              "this is for the role "
                  + rule.roles().stream()
                      .sorted()
                      .map(Role::word)
                      .collect(Collectors.joining(" or "))
                  + "; "
                  + caller.name()
                  + " has "
                  + caller.roles().stream()
                      .sorted()
                      .map(Role::word)
                      .collect(Collectors.joining(" and ")))
          .with("route", route);
    }
  }

  private static void refuseHeld(Context c, boolean page, String why) {
    if (!page) {
      throw new Problem(Problem.Kind.FORBIDDEN, why);
    }
    c.redirect("/account");
  }

  /** Writes a refusal down, the same one once a minute. */
  private void note(Context c, Caller caller, String route) {
    if (accounts.isEmpty()) {
      return;
    }
    Instant now = Instant.now();
    synchronized (noted) {
      Instant before = noted.get(caller.name() + " " + route);
      if (before != null && now.isBefore(before.plus(NOTED_AGAIN_AFTER))) {
        return;
      }
      noted.put(caller.name() + " " + route, now);
    }
    accounts
        .get()
        .note(
            caller.name(),
            Sessions.from(c),
            AuditEntry.Act.REFUSED,
            c.method().name().toLowerCase(Locale.ROOT) + " " + c.path());
  }
}
