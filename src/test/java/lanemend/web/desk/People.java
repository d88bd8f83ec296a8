package lanemend.web.desk;

import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import lanemend.accounts.Accounts;
import lanemend.accounts.Role;

/** Invented people of an agency, one for each role, and their requests at a desk with sign-in. */
final class People implements AutoCloseable {
  static final String PASSWORD = "quiet river mango stapler";

  private final Accounts accounts;
  private final SmallDesk desk;
  private final Map<Role, String> cookies = new EnumMap<>(Role.class);

  private People(Accounts accounts, SmallDesk desk) {
    this.accounts = accounts;
    this.desk = desk;
  }

  /** A desk over the small county where these people sign in. */
  static People at(Path folder) {
    Accounts accounts = Accounts.open(folder);
    for (Role role : Role.values()) {
      accounts.add(name(role), Set.of(role), PASSWORD, true, new Accounts.Actor("test", ""));
    }
    return new People(accounts, SmallDesk.open(folder, Door.ofThisComputer(accounts)));
  }

  static String name(Role role) {
    return "Invented " + role.word();
  }

  SmallDesk desk() {
    return desk;
  }

  Accounts accounts() {
    return accounts;
  }

  String origin() {
    return desk.address().replaceFirst("/$", "");
  }

  SmallDesk.Answer signIn(String name, String password) {
    return desk.send(
        "POST",
        "/api/session",
        Api.JSON.createObjectNode().put("name", name).put("password", password).toString(),
        "Origin",
        origin());
  }

  /** The session's cookie as it is sent back, of an answer that set one. */
  static String cookie(SmallDesk.Answer answer) {
    return answer.whole().headers().firstValue("Set-Cookie").orElseThrow().replaceFirst(";.*", "");
  }

  /** Signs in once; the cookie of that session. */
  String cookie(Role role) {
    return cookies.computeIfAbsent(role, r -> cookie(signIn(name(r), PASSWORD)));
  }

  SmallDesk.Answer get(Role role, String path) {
    return desk.send(HttpRequest.newBuilder(desk.at(path)).header("Cookie", cookie(role)).GET());
  }

  /** A change as a page of the desk sends it. */
  SmallDesk.Answer send(Role role, String method, String path, String json, String... headers) {
    String[] all = java.util.Arrays.copyOf(headers, headers.length + 4);
    all[headers.length] = "Cookie";
    all[headers.length + 1] = cookie(role);
    all[headers.length + 2] = "Origin";
    all[headers.length + 3] = origin();
    return desk.send(method, path, json, all);
  }

  @Override
  public void close() {
    desk.close();
    accounts.close();
  }
}
