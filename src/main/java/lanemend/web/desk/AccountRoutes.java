package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import lanemend.accounts.Account;
import lanemend.accounts.AccountException;
import lanemend.accounts.Accounts;
import lanemend.accounts.AuditEntry;
import lanemend.accounts.Role;

/** Accounts of others, and the audit list, for the admin. */
final class AccountRoutes implements Area {
  private static final int SHOWN = 100;

  private final Optional<Accounts> accounts;

  AccountRoutes(Door door) {
    this.accounts = door.accounts();
  }

  /** An account as the admin sees it. */
  record AccountView(
      String name, List<String> roles, Instant madeAt, Instant passwordAt, boolean firstPassword) {
    static AccountView of(Account a) {
      return new AccountView(
          a.name(),
          a.roles().stream().sorted().map(Role::word).toList(),
          a.madeAt(),
          a.passwordAt(),
          a.firstPassword());
    }
  }

  /** A new account; its owner replaces the password at the first sign-in. */
  record NewAccount(String name, List<String> roles, String password) {}

  /** Other roles. */
  record Roles(List<String> roles) {}

  /** A password for somebody who has lost his own. */
  record Password(String password) {}

  /** A line of the audit list. */
  record Line(long number, Instant at, String who, String from, String act, String about) {
    static Line of(AuditEntry e) {
      String act = e.act().name().toLowerCase(Locale.ROOT);
      return new Line(e.number(), e.at(), e.who(), e.from(), act, e.about());
    }
  }

  /** What became of it. */
  record Kept(String said) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/accounts", c -> c.json(all().all().stream().map(AccountView::of).toList()));
    api.post("/api/accounts", this::add);
    api.put("/api/accounts/{name}", this::change);
    api.delete("/api/accounts/{name}", this::remove);
    api.put("/api/accounts/{name}/password", this::setPassword);
    api.post("/api/accounts/{name}/sign-out", this::endSessions);
    api.get("/api/audit", this::audit);
  }

  private Accounts all() {
    return PasswordAgain.wanted(accounts);
  }

  private static Accounts.Actor by(Context c) {
    return new Accounts.Actor(Caller.name(c), Sessions.from(c));
  }

  private String named(Context c) {
    String name = c.pathParam("name");
    return all()
        .find(name)
        .map(Account::name)
        .orElseThrow(
            () -> new Problem(Problem.Kind.NOT_FOUND, "there is no account '" + name + "'"));
  }

  private static Set<Role> roles(List<String> words) {
    Set<Role> roles = EnumSet.noneOf(Role.class);
    for (String word : words == null ? List.<String>of() : words) {
      roles.add(
          Role.of(word == null ? "" : word)
              .orElseThrow(
                  () ->
                      new Problem(
                              Problem.Kind.BAD_VALUE,
                              "'" + word + "' is no role; there are " + Role.words())
                          .with("field", "roles")));
    }
    if (roles.isEmpty()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "an account needs a role: " + Role.words())
          .with("field", "roles");
    }
    return roles;
  }

  private static String given(String field, String value) {
    if (value == null) {
      throw new Problem(Problem.Kind.BAD_VALUE, "the " + field + " is missing")
          .with("field", field);
    }
    return value;
  }

  private void add(Context c) {
    NewAccount form = Api.body(c, NewAccount.class);
    Set<Role> roles = roles(form.roles());
    try {
      Account made =
          all()
              .add(
                  given("name", form.name()),
                  roles,
                  given("password", form.password()),
                  false,
                  by(c));
      c.status(201).json(AccountView.of(made));
    } catch (AccountException e) {
      throw new Problem(Problem.Kind.BAD_VALUE, e.getMessage());
    }
  }

  private void change(Context c) {
    Set<Role> roles = roles(Api.body(c, Roles.class).roles());
    String name = named(c);
    if (name.equals(Caller.name(c)) && !roles.contains(Role.ADMIN)) {
      throw new Problem(Problem.Kind.BAD_VALUE, "you cannot take the role admin from yourself")
          .with("field", "roles");
    }
    c.json(AccountView.of(all().setRoles(name, roles, by(c))));
  }

  private void remove(Context c) {
    String name = named(c);
    if (name.equals(Caller.name(c))) {
      throw new Problem(Problem.Kind.BAD_VALUE, "you cannot remove your own account");
    }
    all().remove(name, by(c));
    c.json(new Kept(name + " is removed and signed out; the name stays in the logs."));
  }

  private void setPassword(Context c) {
    String password = given("password", Api.body(c, Password.class).password());
    String name = named(c);
    try {
      all().setPassword(name, password, false, by(c));
    } catch (AccountException e) {
      throw new Problem(Problem.Kind.BAD_VALUE, e.getMessage()).with("field", "password");
    }
    c.json(new Kept(name + " is signed out and chooses another password at the next sign-in."));
  }

  private void endSessions(Context c) {
    String name = named(c);
    all().endSessions(name, by(c));
    c.json(new Kept(name + " is signed out everywhere."));
  }

  private void audit(Context c) {
    long before = Api.whole(c, "before", Integer.MAX_VALUE, 1, Integer.MAX_VALUE);
    int count = Api.whole(c, "count", SHOWN, 1, 1_000);
    c.json(all().audit(before, count).stream().map(Line::of).toList());
  }
}
