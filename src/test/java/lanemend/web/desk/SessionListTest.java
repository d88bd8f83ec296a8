package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.util.Set;
import lanemend.accounts.Accounts;
import lanemend.accounts.AuditEntry;
import lanemend.accounts.Role;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Somebody sees where he is signed in, and ends what he left open (OWASP ASVS 5.0.0, 7.5.2). */
class SessionListTest {
  private static final String PHONE =
      "Mozilla/5.0 (Linux; Android 14) AppleWebKit/537.36 Chrome/130.0 Mobile Safari/537.36";
  private static final String OFFICE =
      "Mozilla/5.0 (X11; Linux x86_64; rv:130.0) Gecko/20100101 Firefox/130.0";

  @TempDir static Path folder;
  private static People people;

  @BeforeAll
  static void open() {
    people = People.at(folder);
  }

  @AfterAll
  static void close() {
    people.close();
  }

  private static void add(String name) {
    people
        .accounts()
        .add(name, Set.of(Role.CREW), People.PASSWORD, true, new Accounts.Actor("test", ""));
  }

  private static String signIn(String name, String browser) {
    String form =
        Api.JSON.createObjectNode().put("name", name).put("password", People.PASSWORD).toString();
    return People.cookie(
        people
            .desk()
            .send("POST", "/api/session", form, "Origin", people.origin(), "User-Agent", browser));
  }

  private static SmallDesk.Answer get(String cookie, String path) {
    return people
        .desk()
        .send(HttpRequest.newBuilder(people.desk().at(path)).header("Cookie", cookie).GET());
  }

  private static SmallDesk.Answer post(String cookie, String path, String json) {
    return people.desk().send("POST", path, json, "Cookie", cookie, "Origin", people.origin());
  }

  private static final String PRESENT = "{\"present\":\"" + People.PASSWORD + "\"}";

  private static JsonNode other(JsonNode all) {
    return all.path(0).path("here").asBoolean() ? all.path(1) : all.path(0);
  }

  @Test
  void eachSessionSaysSinceWhenWhereAndWhichBrowserAndNoneGivesItsIdAway() {
    add("Lia List");
    String phone = signIn("Lia List", PHONE);
    String office = signIn("Lia List", OFFICE);
    SmallDesk.Answer answer = get(office, "/api/sessions");
    JsonNode all = answer.json();
    assertEquals(2, all.size());
    assertEquals("Chrome on Android", other(all).path("browser").asText());
    assertEquals("127.0.0.1", other(all).path("from").asText());
    assertFalse(other(all).path("since").asText().isBlank());
    assertFalse(other(all).path("lastUsed").asText().isBlank());
    for (String cookie : new String[] {phone, office}) {
      String id = cookie.replaceFirst("^[^=]*=", "").replaceFirst("[.].*$", "");
      assertFalse(answer.whole().body().contains(id), "an id of a session signs in");
    }
  }

  @Test
  void oneSessionIsEndedByThePasswordAndWrittenDown() {
    add("Eve Ending");
    String phone = signIn("Eve Ending", PHONE);
    String office = signIn("Eve Ending", OFFICE);
    String path =
        "/api/sessions/" + other(get(office, "/api/sessions").json()).path("id").asText() + "/end";
    // A borrowed session alone is not enough
    assertEquals(422, post(office, path, "{\"present\":\"wrong\"}").status());
    assertEquals(422, post(office, path, "{}").status());
    assertEquals(200, get(phone, "/api/county").status());
    SmallDesk.Answer ended = post(office, path, PRESENT);
    assertEquals(200, ended.status(), ended.whole().body());
    assertEquals(1, ended.json().size());
    assertEquals(401, get(phone, "/api/county").status());
    assertEquals(200, get(office, "/api/county").status());
    AuditEntry last = people.accounts().audit(Long.MAX_VALUE, 1).get(0);
    assertEquals(AuditEntry.Act.SESSION_ENDED, last.act());
    assertEquals("Eve Ending", last.who());
    assertEquals("Chrome on Android at 127.0.0.1", last.about());
    assertEquals(404, post(office, path, PRESENT).status(), "it has ended already");
  }

  @Test
  void allOthersEndAtOnceAndThisOneGoesOn() {
    add("Otto Others");
    String first = signIn("Otto Others", PHONE);
    String second = signIn("Otto Others", PHONE);
    String here = signIn("Otto Others", OFFICE);
    SmallDesk.Answer left = post(here, "/api/sessions/end-others", PRESENT);
    assertEquals(1, left.json().size());
    assertTrue(left.json().path(0).path("here").asBoolean());
    assertEquals(401, get(first, "/api/county").status());
    assertEquals(401, get(second, "/api/county").status());
    assertEquals(200, get(here, "/api/county").status());
  }

  @Test
  void nobodySeesOrEndsTheSessionsOfAnother() {
    add("Ann Owner");
    String hers = signIn("Ann Owner", OFFICE);
    String id = get(hers, "/api/sessions").json().path(0).path("id").asText();
    SmallDesk.Answer other =
        people.send(Role.ADMIN, "POST", "/api/sessions/" + id + "/end", PRESENT);
    assertEquals(404, other.status());
    assertFalse(people.get(Role.ADMIN, "/api/sessions").whole().body().contains(id));
    assertEquals(200, get(hers, "/api/county").status());
    assertEquals(401, people.desk().get("/api/sessions").status());
  }

  @Test
  void guessingThePasswordThereIsSlowedAsAtSignIn() {
    add("Gil Guess");
    String here = signIn("Gil Guess", OFFICE);
    int last = 0;
    for (int i = 0; i < 6; i++) {
      last = post(here, "/api/sessions/end-others", "{\"present\":\"no " + i + "\"}").status();
    }
    assertEquals(429, last);
  }

  // Strings as browsers send them, from memory.
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Mozilla/5.0 (Windows NT 10.0; Win64) Chrome/130.0 Safari/537.36 Edg/130.0|Edge on Windows",
        "Mozilla/5.0 (iPhone; CPU iPhone OS 17_0 like Mac OS X) Version/17.0 Safari/604.1|Safari on iPhone",
        "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15) Chrome/130.0 Safari/537.36|Chrome on macOS",
        "curl/8.5.0|another browser",
        "<script>alert(1)</script>|another browser"
      })
  void aBrowserIsNamedInFixedWordsOnly(String sent, String named) {
    assertEquals(named, Browsers.named(sent));
  }
}
