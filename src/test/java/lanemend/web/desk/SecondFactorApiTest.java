package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.eatthepath.otp.TimeBasedOneTimePasswordGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Set;
import javax.crypto.spec.SecretKeySpec;
import lanemend.accounts.Accounts;
import lanemend.accounts.Role;
import org.apache.commons.codec.binary.Base32;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Setting up a second factor and signing in with it, over HTTP as a page does. */
class SecondFactorApiTest {
  private static final Accounts.Actor BOSS = new Accounts.Actor("test", "");
  private static final String PRESENT = "{\"present\":\"" + People.PASSWORD + "\"}";

  @TempDir Path folder;
  private People people;

  @BeforeEach
  void open() {
    people = People.at(folder);
  }

  @AfterEach
  void close() {
    people.close();
  }

  /** The code of a phone whose clock is so many steps of 30 s off. */
  static String code(String key, int steps) throws Exception {
    return new TimeBasedOneTimePasswordGenerator()
        .generateOneTimePasswordString(
            new SecretKeySpec(new Base32().decode(key), "RAW"),
            Instant.now().plusSeconds(30L * steps));
  }

  private SmallDesk.Answer send(String cookie, String method, String path, String json) {
    return people.desk().send(method, path, json, "Cookie", cookie, "Origin", people.origin());
  }

  private int county(String cookie) {
    return people
        .desk()
        .send(
            HttpRequest.newBuilder(people.desk().at("/api/county")).header("Cookie", cookie).GET())
        .status();
  }

  private SmallDesk.Answer signIn(String name, String code) {
    return people
        .desk()
        .send(
            "POST",
            "/api/session",
            Api.JSON
                .createObjectNode()
                .put("name", name)
                .put("password", People.PASSWORD)
                .put("code", code)
                .toString(),
            "Origin",
            people.origin());
  }

  @Test
  void whoSetsItUpIsAskedForACodeFromThenOn() throws Exception {
    String name = People.name(Role.PLANNER);
    String cookie = People.cookie(people.signIn(name, People.PASSWORD));
    String other = People.cookie(people.signIn(name, People.PASSWORD));
    // An open screen alone is not enough, and a key that was not shown is none
    assertEquals(422, send(cookie, "POST", "/api/session/second/key", "{}").status());
    assertEquals(409, send(cookie, "PUT", "/api/session/second", "{\"code\":\"123456\"}").status());
    JsonNode key = send(cookie, "POST", "/api/session/second/key", PRESENT).json();
    String secret = key.path("key").asText();
    assertTrue(key.path("address").asText().contains("secret=" + secret), key.toString());
    String far = "{\"code\":\"" + code(secret, 20) + "\"}";
    assertEquals(422, send(cookie, "PUT", "/api/session/second", far).status());
    assertEquals(200, people.signIn(name, People.PASSWORD).status(), "not in force yet");
    String near = "{\"code\":\"" + code(secret, 0) + "\"}";
    SmallDesk.Answer on = send(cookie, "PUT", "/api/session/second", near);
    assertEquals(200, on.status(), on.whole().body());
    assertEquals("on", on.json().at("/session/second").asText());
    // The other session has ended, this one goes on under another id
    assertEquals(401, county(other));
    assertEquals(401, county(cookie));
    assertEquals(200, county(People.cookie(on)));
    // Then the password alone does not sign in
    SmallDesk.Answer alone = people.signIn(name, People.PASSWORD);
    assertEquals(401, alone.status());
    assertTrue(alone.json().path("codeWanted").asBoolean());
    assertTrue(alone.whole().headers().firstValue("Set-Cookie").isEmpty());
    SmallDesk.Answer in = signIn(name, code(secret, 1));
    assertEquals(200, in.status(), in.whole().body());
    assertEquals(401, signIn(name, code(secret, 1)).status(), "the same code again");
    // and a recovery code does, once
    String recovery = on.json().at("/recovery/0").asText();
    assertEquals(200, signIn(name, recovery).status());
    assertEquals(401, signIn(name, recovery).status());
  }

  @Test
  void whatTheRoleDemandsIsSetUpBeforeAnythingElse() throws Exception {
    String cookie = people.cookie(Role.ENGINEER);
    assertEquals(200, county(cookie));
    people.accounts().demandSecond(Set.of(Role.ENGINEER), BOSS);
    // At once, for sessions at hand too; and for no other role
    SmallDesk.Answer held = people.get(Role.ENGINEER, "/api/county");
    assertEquals(403, held.status());
    assertTrue(held.json().path("detail").asText().contains("second factor"));
    assertEquals(302, people.get(Role.ENGINEER, "/map").status());
    assertEquals(200, people.get(Role.ENGINEER, "/account").status());
    assertEquals(200, people.get(Role.CREW, "/api/county").status());
    JsonNode session = people.get(Role.ENGINEER, "/api/session").json();
    assertEquals("wanted", session.path("second").asText());
    String secret =
        send(cookie, "POST", "/api/session/second/key", PRESENT).json().path("key").asText();
    SmallDesk.Answer on =
        send(cookie, "PUT", "/api/session/second", "{\"code\":\"" + code(secret, 0) + "\"}");
    cookie = People.cookie(on);
    assertEquals(200, county(cookie));
    // It is not taken away again while the role demands it, by whatever code
    String both = "{\"present\":\"" + People.PASSWORD + "\",\"code\":\"" + code(secret, 1) + "\"}";
    assertEquals(409, send(cookie, "POST", "/api/session/second/off", both).status());
    people.accounts().demandSecond(Set.of(), BOSS);
    assertEquals(422, send(cookie, "POST", "/api/session/second/off", PRESENT).status());
    String last = on.json().at("/recovery/9").asText();
    String byRecovery = both.replaceFirst("\\d{6}", last);
    SmallDesk.Answer off = send(cookie, "POST", "/api/session/second/off", byRecovery);
    assertEquals(200, off.status(), off.whole().body());
    assertEquals("none", off.json().path("second").asText());
    assertEquals(200, people.signIn(People.name(Role.ENGINEER), People.PASSWORD).status());
  }

  @Test
  void theKeyIsNotToldAgainAnywhere() throws Exception {
    String cookie = people.cookie(Role.CREW);
    String secret =
        send(cookie, "POST", "/api/session/second/key", PRESENT).json().path("key").asText();
    SmallDesk.Answer on =
        send(cookie, "PUT", "/api/session/second", "{\"code\":\"" + code(secret, 0) + "\"}");
    assertFalse(on.whole().body().contains(secret));
    assertFalse(people.get(Role.ADMIN, "/api/accounts").whole().body().contains(secret));
    assertFalse(people.get(Role.ADMIN, "/api/audit").whole().body().contains(secret));
  }
}
