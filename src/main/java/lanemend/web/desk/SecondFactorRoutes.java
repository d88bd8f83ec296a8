package lanemend.web.desk;

import io.javalin.http.Context;
import io.nayuki.qrcodegen.QrCode;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import lanemend.accounts.Account;
import lanemend.accounts.AccountException;
import lanemend.accounts.Accounts;
import lanemend.accounts.OneTimeCode;
import lanemend.accounts.Role;

/** The second factor of one's own account: set up, set up anew, taken away. */
final class SecondFactorRoutes implements Area {
  private final Sessions sessions;
  private final SessionRoutes own;
  private final Optional<Accounts> accounts;
  private final PasswordAgain again;

  SecondFactorRoutes(Sessions sessions, SessionRoutes own, Door door, PasswordAgain again) {
    this.sessions = sessions;
    this.own = own;
    this.accounts = door.accounts();
    this.again = again;
  }

  /** The password, and the code where there is a second factor already. */
  record Both(String present, String code) {}

  /** A code of the key that was shown. */
  record Code(String code) {}

  /**
   * A new key; it is not in force before a code of it was given.
   *
   * @param key to type
   * @param address the same for a phone's camera
   * @param squares the address as a QR code: rows of 1 (dark) and 0, without the margin
   */
  record Key(String key, String address, List<String> squares) {}

  /**
   * The second factor is on.
   *
   * @param recovery shown this once
   */
  record On(SessionRoutes.Session session, List<String> recovery) {}

  @Override
  public void addTo(Api api) {
    api.post("/api/session/second/key", this::newKey);
    api.put("/api/session/second", this::turnOn);
    api.post("/api/session/second/off", this::turnOff);
  }

  private void newKey(Context c) {
    Both form = Api.body(c, Both.class);
    PasswordAgain.wanted(accounts);
    again.checkBoth(c, form.present(), form.code());
    String key = OneTimeCode.newKey();
    String address = OneTimeCode.address(Caller.name(c), key);
    sessions.signedIn(c).orElseThrow().setNewKey(key);
    c.json(new Key(key, address, squares(address)));
  }

  private static List<String> squares(String text) {
    QrCode code = QrCode.encodeText(text, QrCode.Ecc.MEDIUM);
    return IntStream.range(0, code.size)
        .mapToObj(
            y ->
                IntStream.range(0, code.size)
                    .mapToObj(x -> code.getModule(x, y) ? "1" : "0")
                    .collect(Collectors.joining()))
        .toList();
  }

  private void turnOn(Context c) {
    Code form = Api.body(c, Code.class);
    Accounts all = PasswordAgain.wanted(accounts);
    String key = sessions.signedIn(c).map(SignedIn::newKey).orElse(null);
    if (key == null) {
      throw new Problem(Problem.Kind.NOT_READY, "ask for a key first");
    }
    if (form.code() == null) {
      throw new Problem(Problem.Kind.BAD_VALUE, "a code of the key is wanted")
          .with("field", "code");
    }
    try {
      Accounts.SecondOn on =
          all.turnSecondOn(
              Caller.name(c),
              key,
              form.code(),
              new Accounts.Actor(Caller.name(c), Sessions.from(c)));
      // All sessions have ended; this one goes on under a new id.
      Caller caller = sessions.begin(c, on.account());
      c.json(new On(own.session(Optional.of(caller)), on.recovery()));
    } catch (AccountException e) {
      throw new Problem(Problem.Kind.BAD_VALUE, e.getMessage()).with("field", "code");
    }
  }

  private void turnOff(Context c) {
    Both form = Api.body(c, Both.class);
    Accounts all = PasswordAgain.wanted(accounts);
    Caller caller = Caller.of(c);
    again.checkBoth(c, form.present(), form.code());
    if (all.secondDemanded().stream().anyMatch(caller::is)) {
      throw new Problem(
          Problem.Kind.NO_LONGER,
          "the role "
              + all.secondDemanded().stream()
                  .filter(caller::is)
                  .sorted()
                  .map(Role::word)
                  .collect(Collectors.joining(" and "))
              + " asks for a second factor: set up another phone instead");
    }
    Account account =
        all.turnSecondOff(caller.name(), new Accounts.Actor(caller.name(), Sessions.from(c)));
    c.json(own.session(Optional.of(sessions.begin(c, account))));
  }
}
