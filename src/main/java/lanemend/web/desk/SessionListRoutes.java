package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import lanemend.accounts.Account;
import lanemend.accounts.Accounts;
import lanemend.accounts.AuditEntry;

/** Where one is signed in, and ending a session that one has left open or does not know. */
final class SessionListRoutes implements Area {
  private final Sessions sessions;
  private final Optional<Accounts> accounts;
  private final PasswordAgain again;

  SessionListRoutes(Sessions sessions, Door door, PasswordAgain again) {
    this.sessions = sessions;
    this.accounts = door.accounts();
    this.again = again;
  }

  /**
   * A session.
   *
   * @param id for this list only
   * @param from address of the other computer
   * @param browser roughly
   * @param here whether it is the one that asks
   */
  record SessionView(
      String id, Instant since, Instant lastUsed, String from, String browser, boolean here) {}

  /** The password, so that a borrowed session cannot end those of its owner. */
  record Present(String present) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/sessions", c -> c.json(list(c)));
    api.post("/api/sessions/{session}/end", this::end);
    api.post("/api/sessions/end-others", this::endOthers);
  }

  private List<SignedIn> own(Context c) {
    Accounts all = PasswordAgain.wanted(accounts);
    Account account = all.find(Caller.name(c)).orElseThrow();
    return sessions.of(account);
  }

  private List<SessionView> list(Context c) {
    return own(c).stream()
        .map(
            s ->
                new SessionView(
                    s.id(), s.since(), s.lastUsed(), s.from(), s.browser(), isHere(c, s)))
        .toList();
  }

  private boolean isHere(Context c, SignedIn s) {
    return sessions.signedIn(c).filter(here -> here == s).isPresent();
  }

  private void end(Context c) {
    Present form = Api.body(c, Present.class);
    // Others' sessions are looked for among one's own, and so are not there.
    SignedIn one =
        own(c).stream()
            .filter(s -> s.id().equals(c.pathParam("session")))
            .findFirst()
            .orElseThrow(
                () -> new Problem(Problem.Kind.NOT_FOUND, "that session has ended already"));
    again.check(c, form.present());
    one.end();
    note(c, one.browser() + " at " + one.from());
    c.json(list(c));
  }

  private void endOthers(Context c) {
    Present form = Api.body(c, Present.class);
    List<SignedIn> others = own(c).stream().filter(s -> !isHere(c, s)).toList();
    again.check(c, form.present());
    others.forEach(SignedIn::end);
    note(c, others.size() + (others.size() == 1 ? " other" : " others"));
    c.json(list(c));
  }

  private void note(Context c, String about) {
    PasswordAgain.wanted(accounts)
        .note(Caller.name(c), Sessions.from(c), AuditEntry.Act.SESSION_ENDED, about);
  }
}
