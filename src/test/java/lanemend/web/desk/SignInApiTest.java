package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.accounts.Account;
import lanemend.accounts.Accounts;
import lanemend.accounts.AuditEntry;
import lanemend.accounts.Role;
import lanemend.store.WriteDone;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Signing in, sessions and roles, over HTTP as a browser speaks it. */
class SignInApiTest {
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

  private static SmallDesk.Answer withCookie(String cookie, String path) {
    return people
        .desk()
        .send(HttpRequest.newBuilder(people.desk().at(path)).header("Cookie", cookie).GET());
  }

  private static void add(String name, Set<Role> roles) {
    people.accounts().add(name, roles, People.PASSWORD, true, new Accounts.Actor("test", ""));
  }

  @Test
  void withoutSignInThereIsNothingButTheSignInPage() {
    assertEquals(401, people.desk().get("/api/county").status());
    assertEquals(
        "/problems/sign-in", people.desk().get("/api/defects").json().path("type").asText());
    SmallDesk.Answer page = people.desk().get("/defects?where=x");
    assertEquals(302, page.status());
    assertEquals(
        "/sign-in?then=%2Fdefects%3Fwhere%3Dx",
        page.whole()
            .headers()
            .firstValue("Location")
            .orElseThrow()
            .replaceFirst("^http://[^/]*", ""));
    assertEquals(200, people.desk().get("/sign-in").status());
    assertEquals("null", people.desk().get("/api/session").json().path("name").toString());
  }

  @Test
  void theSessionsCookieIsOutOfReachOfScriptsAndOtherSites() {
    SmallDesk.Answer in = people.signIn(People.name(Role.CREW), People.PASSWORD);
    String set = in.whole().headers().firstValue("Set-Cookie").orElseThrow();
    assertTrue(set.contains("HttpOnly") && set.contains("SameSite=Strict"), set);
    assertTrue(set.contains("Path=/") && !set.contains("Domain"), set);
    assertEquals(200, withCookie(People.cookie(in), "/api/county").status());
    assertEquals(
        "no-store",
        withCookie(People.cookie(in), "/api/county")
            .whole()
            .headers()
            .firstValue("Cache-Control")
            .orElseThrow());
  }

  @Test
  void everySignInHasAnIdOfItsOwnAndAnOldOneIsWorthNothing() {
    add("Two Times", Set.of(Role.CREW));
    String first = People.cookie(people.signIn("Two Times", People.PASSWORD));
    // Given somebody who was handed a session id before signing in
    SmallDesk.Answer again =
        people
            .desk()
            .send(
                "POST",
                "/api/session",
                "{\"name\":\"Two Times\",\"password\":\"" + People.PASSWORD + "\"}",
                "Origin",
                people.origin(),
                "Cookie",
                first);
    assertNotEquals(first, People.cookie(again));
    assertEquals(401, withCookie(first, "/api/county").status());
    assertEquals(200, withCookie(People.cookie(again), "/api/county").status());
  }

  @Test
  void signingOutEndsTheSessionAtTheDeskAndEverywhereEndsAll() {
    add("Sue Out", Set.of(Role.CREW));
    List<String> sessions =
        java.util.stream.Stream.generate(
                () -> People.cookie(people.signIn("Sue Out", People.PASSWORD)))
            .limit(3)
            .toList();
    people
        .desk()
        .send("DELETE", "/api/session", "{}", "Cookie", sessions.get(0), "Origin", people.origin());
    assertEquals(401, withCookie(sessions.get(0), "/api/county").status());
    assertEquals(200, withCookie(sessions.get(1), "/api/county").status());
    people
        .desk()
        .send(
            "POST",
            "/api/session/everywhere",
            "{}",
            "Cookie",
            sessions.get(1),
            "Origin",
            people.origin());
    assertEquals(401, withCookie(sessions.get(2), "/api/county").status());
  }

  @Test
  void aSessionEndsWithANewPasswordOtherRolesOrTheAccount() {
    add("Max Change", Set.of(Role.CREW));
    Accounts.Actor boss = new Accounts.Actor("test", "");
    Runnable[] acts = {
      () -> people.accounts().setRoles("Max Change", Set.of(Role.PATROL), boss),
      () -> people.accounts().setPassword("Max Change", People.PASSWORD, true, boss),
      () -> people.accounts().remove("Max Change", boss)
    };
    for (Runnable act : acts) {
      String cookie = People.cookie(people.signIn("Max Change", People.PASSWORD));
      assertEquals(200, withCookie(cookie, "/api/county").status());
      act.run();
      assertEquals(401, withCookie(cookie, "/api/county").status());
    }
    assertEquals(401, people.signIn("Max Change", People.PASSWORD).status());
  }

  @Test
  void aWrongPasswordAndAWrongNameGetTheSameAnswer() {
    SmallDesk.Answer password = people.signIn(People.name(Role.ENGINEER), "wrong");
    SmallDesk.Answer name = people.signIn("Nobody There", "wrong");
    assertEquals(401, password.status());
    assertEquals(password.whole().body(), name.whole().body());
  }

  @Test
  void guessingIsSlowedAndSaysForHowLong() {
    add("Gus Guess", Set.of(Role.CREW));
    SmallDesk.Answer last = null;
    for (int i = 0; i < 6; i++) {
      last = people.signIn("Gus Guess", "wrong " + i);
    }
    assertEquals(429, last.status());
    assertTrue(
        Integer.parseInt(last.whole().headers().firstValue("Retry-After").orElseThrow()) >= 1);
    assertEquals(429, people.signIn("Gus Guess", People.PASSWORD).status());
  }

  @Test
  void aFirstPasswordIsReplacedBeforeAnythingElse() {
    SmallDesk.Answer made =
        people.send(
            Role.ADMIN,
            "POST",
            "/api/accounts",
            "{\"name\":\"New Nell\",\"roles\":[\"planner\"],\"password\":\"first one for nell\"}");
    assertEquals(201, made.status(), made.whole().body());
    SmallDesk.Answer in = people.signIn("New Nell", "first one for nell");
    assertTrue(in.json().path("firstPassword").asBoolean());
    String cookie = People.cookie(in);
    assertEquals(403, withCookie(cookie, "/api/county").status());
    assertEquals(302, withCookie(cookie, "/map").status());
    assertEquals(200, withCookie(cookie, "/account").status());
    String change = "{\"present\":\"first one for nell\",\"password\":\"%s\"}";
    String[] headers = {"Cookie", cookie, "Origin", people.origin()};
    assertEquals(
        422,
        people
            .desk()
            .send("PUT", "/api/session/password", change.formatted("first one for nell"), headers)
            .status());
    assertEquals(
        422,
        people
            .desk()
            .send("PUT", "/api/session/password", change.formatted("password1234"), headers)
            .status());
    SmallDesk.Answer changed =
        people
            .desk()
            .send(
                "PUT", "/api/session/password", change.formatted("eleven brass kettles"), headers);
    assertEquals(200, changed.status(), changed.whole().body());
    assertEquals(401, withCookie(cookie, "/api/county").status());
    assertEquals(200, withCookie(People.cookie(changed), "/api/county").status());
  }

  @Test
  void aCrewRecordsButDoesNotPlanAndTheRefusalIsWrittenDown() {
    SmallDesk.Answer refused = people.send(Role.CREW, "POST", "/api/plan/urgent", "{}");
    assertEquals(403, refused.status());
    assertEquals(
        "this is for the role planner; Invented crew has crew",
        refused.json().path("detail").asText());
    assertEquals(403, people.get(Role.CREW, "/api/audit").status());
    JsonNode audit = people.get(Role.ADMIN, "/api/audit").json();
    boolean told = false;
    for (JsonNode line : audit) {
      told |=
          line.path("act").asText().equals("refused")
              && line.path("who").asText().equals("Invented crew")
              && line.path("about").asText().equals("post /api/plan/urgent");
    }
    assertTrue(told, audit.toString());
  }

  @Test
  void aChangeIsInTheNameOfWhoSignedInAndOthersDoNotTakeItBack() {
    ObjectNode form =
        (ObjectNode) people.get(Role.PATROL, "/api/defects?count=1&sort=id").json().at("/rows/0");
    String id = form.path("id").asText();
    String version = form.path("version").asText();
    form.remove(
        Set.of("id", "version", "alongM", "size", "route", "milepost", "milepostTo", "lon", "lat"));
    form.put("note", "seen again");
    SmallDesk.Answer changed =
        people.send(
            Role.PATROL,
            "PUT",
            "/api/defects/" + id,
            form.toString(),
            "If-Match",
            '"' + version + '"');
    assertEquals(200, changed.status(), changed.whole().body());
    WriteDone last =
        people.desk().store().read(s -> s.writes()).stream().reduce((a, b) -> b).orElseThrow();
    assertEquals("Invented patrol", last.who());
    String undo = "/api/changes/" + last.edit() + "/undo";
    assertEquals(403, people.send(Role.CREW, "POST", undo, "{}").status());
    assertEquals(200, people.send(Role.PATROL, "POST", undo, "{}").status());
  }

  @Test
  void aChangeWithoutItsPagesOriginOrAsAFormIsRefused() {
    String cookie = people.cookie(Role.PLANNER);
    String[] own = {"Cookie", cookie, "Origin", people.origin()};
    // The same request, from a page of the desk and otherwise
    assertEquals(428, people.desk().send("POST", "/api/plan/urgent", "{}", own).status());
    assertEquals(
        403, people.desk().send("POST", "/api/plan/urgent", "{}", "Cookie", cookie).status());
    for (String origin :
        List.of("http://evil.example", "null", "https://127.0.0.1", people.origin() + "0")) {
      assertEquals(
          403,
          people
              .desk()
              .send("POST", "/api/plan/urgent", "{}", "Cookie", cookie, "Origin", origin)
              .status(),
          origin);
    }
    for (String type :
        List.of(
            "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x")) {
      HttpRequest.Builder form =
          HttpRequest.newBuilder(people.desk().at("/api/plan/urgent"))
              .header("Cookie", cookie)
              .header("Origin", people.origin())
              .header("Content-Type", type)
              .POST(HttpRequest.BodyPublishers.ofString("{}"));
      assertEquals(400, people.desk().send(form).status(), type);
    }
  }

  @Test
  void theAdminLooksAfterAccountsButNotIntoPasswords() {
    add("Vic Tim", Set.of(Role.CREW));
    String list = people.get(Role.ADMIN, "/api/accounts").whole().body();
    assertTrue(
        list.contains("Vic Tim") && !list.contains("argon2") && !list.contains("hash"), list);
    assertEquals(
        200,
        people
            .send(Role.ADMIN, "PUT", "/api/accounts/Vic%20Tim", "{\"roles\":[\"crew\",\"patrol\"]}")
            .status());
    Account now = people.accounts().find("Vic Tim").orElseThrow();
    assertEquals(Set.of(Role.CREW, Role.PATROL), now.roles());
    assertEquals(200, people.send(Role.ADMIN, "DELETE", "/api/accounts/Vic%20Tim", "{}").status());
    // but not his own seat from under himself
    String self = "/api/accounts/Invented%20admin";
    assertEquals(422, people.send(Role.ADMIN, "DELETE", self, "{}").status());
    assertEquals(422, people.send(Role.ADMIN, "PUT", self, "{\"roles\":[\"crew\"]}").status());
    List<AuditEntry.Act> acts =
        people.accounts().audit(Long.MAX_VALUE, 2).stream().map(AuditEntry::act).toList();
    assertEquals(List.of(AuditEntry.Act.ACCOUNT_REMOVED, AuditEntry.Act.ACCOUNT_CHANGED), acts);
  }

  @Test
  void requestsOfOneAccountAreHeldToARate() {
    Instant[] now = {Instant.parse("2026-04-01T08:00:00Z")};
    Clock clock =
        new Clock() {
          @Override
          public ZoneId getZone() {
            return ZoneId.of("UTC");
          }

          @Override
          public Clock withZone(ZoneId zone) {
            return this;
          }

          @Override
          public Instant instant() {
            return now[0];
          }
        };
    RequestRate rate = new RequestRate(clock);
    for (int i = 0; i < RequestRate.BURST; i++) {
      rate.check("a");
    }
    assertThrows(Problem.class, () -> rate.check("a"));
    rate.check("b");
    now[0] = now[0].plusSeconds(1);
    for (int i = 0; i < RequestRate.PER_SECOND; i++) {
      rate.check("a");
    }
    assertThrows(Problem.class, () -> rate.check("a"));
  }

  @Test
  void otherComputersAreAnsweredWithSignInAndTlsOnly() {
    Optional<Accounts> some = Optional.of(people.accounts());
    String without = refusal("0.0.0.0", Optional.empty());
    assertTrue(without.contains("only with sign-in"), without);
    String plain = refusal("0.0.0.0", some);
    assertTrue(plain.contains("only over TLS"), plain);
    assertFalse(plain.contains("\n"));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            new Door(
                "0.0.0.0",
                Optional.empty(),
                Optional.of(Door.resolved("10.0.0.2")),
                Set.of(),
                some));
    new Door(
        "0.0.0.0",
        Optional.empty(),
        Optional.of(Door.resolved("10.0.0.2")),
        Set.of("desk.example"),
        some);
    new Door("127.0.0.1", Optional.empty(), Optional.empty(), Set.of(), Optional.empty());
  }

  private static String refusal(String address, Optional<Accounts> accounts) {
    return assertThrows(
            IllegalArgumentException.class,
            () ->
                new Door(
                    address, Optional.empty(), Optional.empty(), Set.of("desk.example"), accounts))
        .getMessage();
  }
}
