package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import lanemend.county.County;
import lanemend.county.LearnedWork;
import lanemend.crewdays.learning.DoneRepair;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.WebElement;

/** The season's report and what done work teaches, over HTTP and in a browser. */
class SeasonPageTest {
  @TempDir Path folder;
  private SmallDesk desk;

  @BeforeEach
  void open() {
    desk = SmallDesk.open(folder);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private JsonNode learned() {
    return desk.get("/api/learned").json();
  }

  private static String keys(String... keys) {
    ObjectNode body = Api.JSON.createObjectNode();
    for (String key : keys) {
      body.withArray("keys").add(key);
    }
    return body.toString();
  }

  @Test
  void theSeasonIsThatOfTheLastPlannedWorkAndItsGroupsAddUp() {
    JsonNode season = desk.get("/api/season").json();
    assertEquals("2025-01-01", season.path("from").asText());
    int all = season.at("/total/repairs").asInt();
    assertTrue(all > 0);
    for (String by : new String[] {"crew", "treatment", "route", "month"}) {
      int sum = 0;
      for (JsonNode line : season.at("/lines/" + by)) {
        sum += line.path("repairs").asInt();
      }
      assertEquals(all, sum, by);
    }
    String csv = desk.get("/api/season/csv").whole().body();
    assertTrue(csv.startsWith("from,to,by,group,repairs,crew_days_planned"), csv);
    assertEquals(422, desk.get("/api/season?from=2025-06-01&to=2025-05-01").status());
    assertEquals(422, desk.get("/api/season?from=summer").status());
  }

  @Test
  void aFactorIsAcceptedAgainstTheStateThatWasReadAndTakenOutAgain() {
    JsonNode learned = learned();
    String key = learned.at("/proposals/0/key").asText();
    assertEquals(428, desk.send("POST", "/api/learned/accept", keys(key)).status());
    assertEquals(
        412, desk.send("POST", "/api/learned/accept", keys(key), "If-Match", "\"0\"").status());
    assertEquals(
        404,
        desk.send("POST", "/api/learned/accept", keys("minutes moon"), "If-Match", "\"0\"")
            .status());
    String state = "\"" + learned.path("state").asText() + "\"";
    SmallDesk.Answer kept = desk.send("POST", "/api/learned/accept", keys(key), "If-Match", state);
    assertEquals(200, kept.status(), kept.whole().body());
    assertEquals(key, learned().at("/inForce/0/key").asText());
    assertEquals("tester", County.read(desk.store()).learned().all().get(0).by());
    // and what is in force now is what is proposed, so nothing speaks against it
    assertFalse(learned().at("/proposals/0/clear").asBoolean());
    assertEquals(200, desk.send("POST", "/api/learned/release", keys(key)).status());
    assertEquals(0, learned().path("inForce").size());
    assertEquals(409, desk.send("POST", "/api/learned/release", keys(key)).status());
  }

  @Test
  void aRecordFromASheetKeepsWhatWasPlannedAndTeaches() {
    JsonNode day = desk.get("/api/plan").json().at("/days/0");
    String at = day.path("date").asText() + "/" + day.path("crew").asText();
    JsonNode sheet = desk.get("/api/sheets/" + at).json();
    JsonNode repair = sheet.at("/day/zones/0/repairs/0");
    ObjectNode form = Api.JSON.createObjectNode();
    form.withArray("repairs")
        .addObject()
        .put("repair", repair.path("id").asText())
        .put("mix", 3)
        .put("hours", 1.5)
        .put("cost", 900);
    SmallDesk.Answer kept = desk.send("POST", "/api/sheets/" + at + "/done", form.toString());
    assertEquals(200, kept.status(), kept.whole().body());
    DoneRepair done =
        new LearnedWork(County.read(desk.store()))
            .done().stream().filter(r -> r.id().startsWith("done-")).findFirst().orElseThrow();
    assertEquals(day.path("crew").asText(), done.crewId());
    assertEquals(DoneRepair.Basis.SHEET, done.planned().basis());
    assertEquals(day.path("date").asText(), done.planned().on().toString());
    assertEquals(repair.path("hoursPlanned").asDouble(), done.planned().minutes() / 60, 0.051);
    assertTrue(done.planned().hourCost() > 0);
    assertEquals(900, done.cost().doubleValue(), 0);
  }

  @Test
  void aPlannerSeesTheEffectBeforeAFactorIsPutInForce() {
    DeskBrowser browser = DeskBrowser.on(desk);
    browser.open("/season");
    browser.assertClean("the season", 0);
    browser.awaitText("#report", "difference");
    browser.awaitText("#learned", "Minutes, hand patch, the agency");
    for (WebElement tick :
        browser.driver().findElements(By.cssSelector("#learned input:checked"))) {
      tick.click();
    }
    browser.press("Put the ticked in force");
    browser.awaitText("#error", "Tick a factor first");
    browser.one("#learned input[type=checkbox]").click();
    browser.press("What would the ticked do to the plan?");
    browser.awaitText("#effect", "Planned anew with these factors");
    browser.assertClean("the effect", 0);
    browser.press("Put the ticked in force");
    browser.awaitText("dialog", "must be planned again");
    browser.press("Put in force");
    browser.awaitText("#in-force", "accepted");
    browser.assertClean("in force", 0);
  }
}
