package lanemend.web.desk;

import io.javalin.http.Context;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import lanemend.accounts.Account;
import lanemend.accounts.AccountException;
import lanemend.accounts.Accounts;
import lanemend.accounts.AuditEntry;
import lanemend.accounts.Role;
import lanemend.accounts.SignIn;

/** Signing in and out, and one's own password. */
final class SessionRoutes implements Area {
  private final Access access;
  private final Sessions sessions;
  private final Optional<Accounts> accounts;
  private final Optional<SignIn> signIn;
  private final PasswordAgain again;
  private final boolean encrypted;

  SessionRoutes(
      Access access, Sessions sessions, Door door, Optional<SignIn> signIn, PasswordAgain again) {
    this.access = access;
    this.sessions = sessions;
    this.accounts = door.accounts();
    this.signIn = signIn;
    this.again = again;
    this.encrypted = door.encrypted();
  }

  /**
   * Who asks.
   *
   * @param signInOn false where the desk has one user and no sign-in
   * @param name null when nobody has signed in
   * @param firstPassword true while a password of one's own has to be chosen first
   * @param second none, wanted (has to be set up first) or on
   * @param recoveryLeft recovery codes not used yet
   * @param not routes that are refused to this user, for pages to leave out
   */
  record Session(
      boolean signInOn,
      String name,
      List<String> roles,
      boolean firstPassword,
      String second,
      int recoveryLeft,
      Set<String> not) {}

  /** Name and password, and the code where the account has a second factor. */
  record Entry(String name, String password, String code) {}

  /** The present password and the new one. */
  record NewPassword(String present, String password) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/session", c -> c.json(session(access.caller(c))));
    api.post("/api/session", this::signIn);
    api.delete("/api/session", this::signOut);
    api.post("/api/session/everywhere", this::signOutEverywhere);
    api.put("/api/session/password", this::changePassword);
  }

  Session session(Optional<Caller> caller) {
    return new Session(
        access.signInOn(),
        caller.map(Caller::name).orElse(null),
        caller.map(c -> c.roles().stream().sorted().map(Role::word).toList()).orElse(List.of()),
        caller.map(Caller::firstPassword).orElse(false),
        caller.map(Caller::second).orElse(Account.Second.NONE).name().toLowerCase(Locale.ROOT),
        caller.filter(Caller::signedIn).map(this::recoveryLeft).orElse(0),
        caller.map(AccessTable::notFor).orElse(Set.of()));
  }

  private int recoveryLeft(Caller caller) {
    return PasswordAgain.wanted(accounts).recoveryLeft(caller.name());
  }

  private void signIn(Context c) {
    Entry entry = Api.body(c, Entry.class);
    PasswordAgain.wanted(accounts);
    if (entry.name() == null || entry.password() == null || entry.name().isBlank()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "a name and a password are wanted");
    }
    SignIn.Outcome outcome;
    try {
      outcome =
          signIn
              .orElseThrow()
              .attempt(
                  entry.name(),
                  entry.password(),
                  Objects.requireNonNullElse(entry.code(), ""),
                  Sessions.from(c));
    } catch (AccountException e) {
      throw new Problem(Problem.Kind.SIGN_IN, e.getMessage());
    }
    if (outcome.account().isEmpty()) {
      PasswordAgain.slowDown(c, outcome.waitFor());
      if (outcome.codeWanted()) {
        throw PasswordAgain.codeWanted(Problem.Kind.SIGN_IN, entry.code());
      }
      throw new Problem(Problem.Kind.SIGN_IN, "there is no such name with that password");
    }
    Caller caller = sessions.begin(c, outcome.account().orElseThrow());
    c.json(session(Optional.of(caller)));
  }

  private void signOut(Context c) {
    Caller caller = Caller.of(c);
    PasswordAgain.wanted(accounts)
        .note(caller.name(), Sessions.from(c), AuditEntry.Act.SIGNED_OUT, "");
    sessions.end(c);
    forget(c);
    c.json(session(Optional.empty()));
  }

  private void signOutEverywhere(Context c) {
    String name = Caller.name(c);
    PasswordAgain.wanted(accounts).endSessions(name, new Accounts.Actor(name, Sessions.from(c)));
    sessions.end(c);
    forget(c);
    c.json(session(Optional.empty()));
  }

  /** Browsers do as told over TLS only. Entries still to be sent from a phone are left alone. */
  private void forget(Context c) {
    if (encrypted) {
      c.header("Clear-Site-Data", "\"cache\"");
    }
  }

  private void changePassword(Context c) {
    NewPassword form = Api.body(c, NewPassword.class);
    Accounts all = PasswordAgain.wanted(accounts);
    if (form.present() == null || form.password() == null) {
      throw new Problem(Problem.Kind.BAD_VALUE, "the present and the new password are wanted");
    }
    String name = Caller.name(c);
    again.check(c, form.present());
    Account account;
    try {
      account = all.changeOwn(name, form.present(), form.password(), Sessions.from(c));
    } catch (AccountException e) {
      throw new Problem(Problem.Kind.BAD_VALUE, e.getMessage()).with("field", "password");
    }
    // All sessions have ended; this one goes on under a new id.
    c.json(session(Optional.of(sessions.begin(c, account))));
  }
}
