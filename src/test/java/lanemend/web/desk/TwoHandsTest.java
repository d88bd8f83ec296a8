package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Set;
import lanemend.accounts.Role;
import lanemend.county.County;
import lanemend.crewdays.Assignment;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.chrome.ChromeDriver;

/** Two people at the same thing: neither is overwritten, and the second sees both and chooses. */
class TwoHandsTest {
  @TempDir Path folder;
  private People people;

  @BeforeEach
  void open() {
    people = People.at(folder);
    people
        .accounts()
        .add(
            "Second Planner",
            Set.of(Role.PLANNER, Role.CREW),
            People.PASSWORD,
            true,
            new lanemend.accounts.Accounts.Actor("test", ""));
  }

  @AfterEach
  void close() {
    people.close();
  }

  private Assignment kept() {
    return County.read(people.desk().store()).assignment();
  }

  private JsonNode planner(String path) {
    return people.get(Role.PLANNER, path).json();
  }

  private void signIn(DeskBrowser browser, String name) {
    browser.driver().manage().deleteAllCookies();
    browser.open("/sign-in");
    browser.one("#s-name").clear();
    browser.one("#s-name").sendKeys(name);
    browser.one("#s-password").sendKeys(People.PASSWORD);
    browser.press("Sign in");
    browser.await("the map", () -> browser.driver().getCurrentUrl().endsWith("/map"));
  }

  /** Two sessions in two browsers, as two people at two desks have them. */
  @Test
  void twoPlannersChangeOneDefectAndTheSecondChoosesFieldByField() {
    DeskBrowser first = DeskBrowser.on(people.desk());
    ChromeDriver other = DeskBrowser.start();
    try {
      DeskBrowser second = DeskBrowser.at(other, people.desk().address());
      second.size(1440, 900);
      signIn(first, People.name(Role.PLANNER));
      signIn(second, "Second Planner");
      JsonNode before = planner("/api/defects?count=1&sort=id").at("/rows/0");
      String id = before.path("id").asText();
      // Given both have the same defect open
      for (DeskBrowser browser : new DeskBrowser[] {first, second}) {
        openForm(browser, id);
      }
      // when the first saves another note and severity, then the second another note and width
      String severity = before.path("severity").asText().equals("high") ? "low" : "high";
      first.one("#f-note").clear();
      first.one("#f-note").sendKeys("water stands in it");
      first.one("#f-severity option[value=" + severity + "]").click();
      first.press("Save");
      first.await("saved", () -> first.driver().findElements(By.cssSelector("dialog")).isEmpty());
      second.one("#f-note").clear();
      second.one("#f-note").sendKeys("next to a manhole");
      second.one("#f-width").clear();
      second.one("#f-width").sendKeys("4.5");
      second.press("Save");
      // then the second sees both, with what only one changed chosen already
      second.awaitText("#both", "water stands in it");
      second.awaitText("#both", "next to a manhole");
      assertTrue(second.one("[name=both-severity][value=theirs]").isSelected());
      assertTrue(second.one("[name=both-width][value=yours]").isSelected());
      second.assertClean("both versions", 1);
      second.press("Save what is chosen");
      second.awaitText("#both .error", "Choose one");
      second.one("[name=both-note][value=theirs]").click();
      second.press("Save what is chosen");
      second.await("saved", () -> second.driver().findElements(By.cssSelector("dialog")).isEmpty());
      JsonNode after = planner("/api/defects/" + id);
      assertEquals("water stands in it", after.path("note").asText());
      assertEquals(severity, after.path("severity").asText());
      assertEquals(4.5, after.path("width").asDouble(), 1e-3);
      // and nothing else moved
      Set<String> chosen = Set.of("note", "severity", "width", "version", "size");
      assertEquals(((ObjectNode) before).remove(chosen), ((ObjectNode) after).remove(chosen));
    } finally {
      other.quit();
    }
  }

  private static void openForm(DeskBrowser browser, String id) {
    browser.open("/defects?id=" + id);
    browser.press("Change");
    browser.await("the form", () -> browser.one("#f-note").isDisplayed());
  }

  @Test
  void aZoneMovedInAPlanThatAnotherHasChangedIsRefusedWithBothShown() {
    // Given a zone that can go to two other days, and two who look at the plan as it is
    String state = planner("/api/plan").path("state").asText();
    String repair = null;
    JsonNode[] to = new JsonNode[2];
    for (Assignment.Day day : kept().days()) {
      String one = day.zones().get(0).defectIds().get(0);
      int n = 0;
      for (JsonNode p : planner("/api/plan/places?repair=" + SmallDesk.coded(one))) {
        if (p.path("possible").asBoolean() && !p.path("home").asBoolean() && n < 2) {
          to[n++] = p;
        }
      }
      if (n == 2) {
        repair = one;
        break;
      }
    }
    Assignment.Day home = kept().dayOf(repair).orElseThrow();
    String body = "{\"repair\":\"%s\",\"crew\":\"%s\",\"date\":\"%s\",\"reason\":\"%s\"}";
    String first =
        body.formatted(repair, to[0].path("crew").asText(), to[0].path("date").asText(), "school");
    String second =
        body.formatted(repair, to[1].path("crew").asText(), to[1].path("date").asText(), "fair");
    // when one moves it and then the other
    assertEquals(
        200,
        people.send(Role.PLANNER, "POST", "/api/plan/moves", first, "If-Match", state).status());
    SmallDesk.Answer refused =
        people.send(Role.PLANNER, "POST", "/api/plan/moves", second, "If-Match", state);
    // then the second is told who did what, where it was, where it is, and what he wanted
    assertEquals(412, refused.status(), refused.whole().body());
    JsonNode theirs = refused.json().path("theirs");
    assertEquals(home.date().toString(), theirs.at("/before/date").asText());
    assertEquals(to[0].path("date").asText(), theirs.at("/now/date").asText());
    assertEquals("Invented planner", theirs.at("/changes/0/who").asText());
    assertTrue(theirs.at("/changes/0/why").asText().contains("school"), theirs.toString());
    assertTrue(refused.json().path("yours").asText().contains(to[1].path("date").asText()));
    assertEquals(to[0].path("date").asText(), kept().dayOf(repair).orElseThrow().date().toString());
    // and may do it all the same, from the plan as it is
    SmallDesk.Answer again =
        people.send(
            Role.PLANNER,
            "POST",
            "/api/plan/moves",
            second,
            "If-Match",
            theirs.path("state").asText());
    assertTrue(again.status() == 200 || again.status() == 422, again.whole().body());
  }

  @Test
  void aPlanChangedMeanwhileIsShownOnThePageAndTheChoiceIsTheUsers() {
    DeskBrowser browser = DeskBrowser.on(people.desk());
    signIn(browser, People.name(Role.PLANNER));
    browser.open("/days");
    // Given a page that shows the plan's first day, and somebody else who locks the last
    Assignment.Day day = kept().days().get(kept().days().size() - 1);
    String lock = "{\"kind\":\"lock_day\",\"crew\":\"%s\",\"date\":\"%s\",\"reason\":\"%s\"}";
    String state = planner("/api/plan").path("state").asText();
    assertEquals(
        200,
        people
            .send(
                Role.PLANNER,
                "POST",
                "/api/plan/rules",
                lock.formatted(day.crewId(), day.date(), "road race"),
                "If-Match",
                state)
            .status());
    // when the page's user locks the day on show
    browser.press("Lock the day");
    browser.one("dialog #reason").sendKeys("my reason");
    browser.press("Lock");
    browser.awaitText("dialog[open]:last-of-type", "road race");
    browser.awaitText("#both", "lock day");
    browser.assertClean("the plan was changed meanwhile", 1);
    browser.press("Do mine all the same");
    browser.awaitText("#by-hand", "my reason");
    browser.awaitText("#by-hand", "road race");
  }

  @Test
  void workRecordedByTwoIsThereOnceAndTheSecondChooses() {
    Assignment.Day day =
        kept().days().stream()
            .filter(d -> !d.date().isAfter(LocalDate.now(java.time.ZoneId.systemDefault())))
            .findFirst()
            .orElse(kept().days().get(0));
    String repair = day.zones().get(0).defectIds().get(0);
    String today = LocalDate.now(java.time.ZoneId.systemDefault()).toString();
    String path = "/api/sheets/" + day.date() + "/" + day.crewId() + "/done";
    String done =
        "{\"on\":\"%s\",\"repairs\":[{\"repair\":\"%s\",\"mix\":%s,\"hours\":%s,\"note\":\"\"}]}";
    assertEquals(
        200,
        people.send(Role.CREW, "POST", path, done.formatted(today, repair, "2", "1.5")).status());
    // when another records the same repair
    SmallDesk.Answer twice =
        people.send(Role.PLANNER, "POST", path, done.formatted(today, repair, "3", "1.5"));
    // then both are there to choose from, and nothing is written
    assertEquals(412, twice.status(), twice.whole().body());
    JsonNode theirs = twice.json().at("/theirs").path(repair);
    assertEquals(2, theirs.path("mix").asDouble(), 1e-9);
    assertEquals("Invented crew", theirs.path("who").asText());
    assertEquals(3, twice.json().at("/yours/0/mix").asDouble(), 1e-9);
    // and the second's choice goes over what was read, not over what comes after
    String record = "/api/records/" + SmallDesk.coded(theirs.path("id").asText());
    String version = theirs.path("version").asText();
    String correction = "{\"on\":\"" + today + "\",\"mix\":3,\"hours\":1.5}";
    SmallDesk.Answer corrected =
        people.send(Role.PLANNER, "PUT", record, correction, "If-Match", version);
    assertEquals(200, corrected.status(), corrected.whole().body());
    assertEquals(3, corrected.json().path("mix").asDouble(), 1e-9);
    SmallDesk.Answer stale = people.send(Role.CREW, "PUT", record, correction, "If-Match", version);
    assertEquals(412, stale.status());
    assertEquals("Invented planner", stale.json().at("/theirs/who").asText());
    assertEquals(
        1,
        County.read(people.desk().store()).patches().stream()
            .filter(p -> p.id().startsWith("done-" + repair))
            .count());
  }

  /** Two crews at one zone: both press Record, hours apart or a minute. */
  @Test
  void theSecondCrewSeesBothEntriesOfOneRepairAndItsChoiceStands() throws java.io.IOException {
    Assignment.Day day = kept().days().get(0);
    String repair = day.zones().get(0).defectIds().get(0);
    DeskBrowser browser = DeskBrowser.on(people.desk());
    signIn(browser, "Second Planner");
    // Given the sheet open at the second crew, when the first records a repair of its first stop
    browser.open("/sheets?date=" + day.date() + "&crew=" + SmallDesk.coded(day.crewId()));
    browser.await("the stop", () -> browser.one("form.stop").isDisplayed());
    String done =
        "{\"on\":\"%s\",\"repairs\":[{\"repair\":\"%s\",\"mix\":2,\"hours\":1.5,\"note\":\"\"}]}"
            .formatted(day.date(), repair);
    String path = "/api/sheets/" + day.date() + "/" + day.crewId() + "/done";
    assertEquals(200, people.send(Role.CREW, "POST", path, done).status());
    // and the second records the whole stop with other numbers for that repair
    browser.one("form.stop .act button").click();
    String suffix = repair.replaceAll("[^\\w-]", "_");
    browser.one("#mix-" + suffix).clear();
    browser.one("#mix-" + suffix).sendKeys("3");
    browser.one("#hours-" + suffix).clear();
    browser.one("#hours-" + suffix).sendKeys("2.5");
    browser.one("form.stop .act .main").click();
    // then it sees both, with nothing chosen where both have a number
    browser.awaitText("dialog", repair + " is recorded already");
    browser.awaitText("dialog", "Invented crew");
    browser.awaitText("#both", "2.5");
    assertTrue(
        browser.driver().findElements(By.cssSelector("#both input:checked")).isEmpty(),
        "nobody but the crew knows which is right");
    browser.assertClean("two entries of one repair", 1);
    browser.press("Save what is chosen");
    browser.awaitText("#both .error", "Choose one");
    String at = System.getProperty("lanemend.pictures");
    if (at != null) {
      java.nio.file.Files.write(Path.of(at, "done-twice.png"), browser.picture());
    }
    browser.one("[name=both-mix][value=yours]").click();
    browser.one("[name=both-hours][value=theirs]").click();
    browser.press("Save what is chosen");
    browser.awaitText("#done", repair);
    // and the record is there once, as chosen; the other repairs of the stop are recorded, too
    JsonNode record = planner("/api/records/" + SmallDesk.coded("done-" + repair));
    assertEquals(3, record.path("mix").asDouble(), 1e-9);
    assertEquals(1.5, record.path("hours").asDouble(), 1e-9);
    for (String each : day.zones().get(0).defectIds()) {
      assertEquals(
          1,
          County.read(people.desk().store()).patches().stream()
              .filter(p -> p.id().equals("done-" + each))
              .count(),
          each);
    }
  }
}
