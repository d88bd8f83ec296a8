package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import lanemend.county.County;
import lanemend.crewdays.Assignment;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Severity;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;

/** What hindered somebody new to the desk, and no longer does: docs/new-user.md has the walk. */
class NewcomerTest {
  @TempDir Path folder;
  private SmallDesk desk;
  private DeskBrowser browser;

  @BeforeEach
  void open() {
    desk = SmallDesk.open(folder);
    browser = DeskBrowser.on(desk);
  }

  @AfterEach
  void close() {
    browser.driver().get("about:blank");
    desk.close();
  }

  @Test
  void theWorstRoadStandsFirstAndIsShownWhenPressed() {
    // Given what waits on each road
    Map<String, List<Defect>> waiting =
        County.read(desk.store()).defects().stream()
            .filter(d -> d.status() == DefectStatus.OPEN || d.status() == DefectStatus.PLANNED)
            .collect(
                Collectors.groupingBy(d -> d.place().routeId(), TreeMap::new, Collectors.toList()));
    long most = waiting.values().stream().mapToLong(NewcomerTest::high).max().orElseThrow();
    browser.open("/map");
    // then the first road of the list has as many of high severity as any
    String worst = browser.one("#worst-rows tr").getAttribute("data-road");
    assertEquals(most, high(waiting.get(worst)));
    assertEquals(String.valueOf(most), browser.text("#worst-rows tr td"));
    browser.assertClean("worst roads", 0);
    // and pressed it is in the strip, all of it
    browser.one("#worst-rows button").click();
    browser.awaitText("#strip-told", waiting.get(worst).size() + " defect");
    assertEquals(worst, browser.one("#strip-route").getAttribute("value"));
    // and by another measure, another order
    browser.script(
        "const s = document.querySelector('#worst-by'); s.value = 'open';"
            + " s.dispatchEvent(new Event('change'))");
    int longest = waiting.values().stream().mapToInt(List::size).max().orElseThrow();
    assertEquals(
        longest, waiting.get(browser.one("#worst-rows tr").getAttribute("data-road")).size());
  }

  private static long high(List<Defect> defects) {
    return defects.stream().filter(d -> d.severity() == Severity.HIGH).count();
  }

  @Test
  void beforeAWeekIsPlannedItIsSaidWhatComesOffTheOtherDays() {
    List<Assignment.Day> days = County.read(desk.store()).assignment().days();
    browser.open("/days");
    browser.press("Plan");
    // Given next week alone, which the plan there is does not reach
    browser
        .driver()
        .findElement(By.xpath("//button[starts-with(normalize-space(), 'Next week only')]"))
        .click();
    LocalDate from = LocalDate.parse(browser.one("#p-from").getAttribute("value"));
    assertEquals(DayOfWeek.MONDAY, from.getDayOfWeek());
    assertTrue(from.isAfter(LocalDate.now(java.time.ZoneId.systemDefault())));
    LocalDate until = LocalDate.parse(browser.one("#p-until").getAttribute("value"));
    long outside =
        days.stream().filter(d -> d.date().isBefore(from) || d.date().isAfter(until)).count();
    // when other days are not to stay
    browser.one("#p-anew").click();
    // then the number of crew days that lose their work stands there before anything is done
    browser.awaitText("#p-told", outside + " of " + days.size() + " crew days");
    browser.assertClean("consequences", 0);
    // and none when the plan's own dates are asked for
    LocalDate first = days.stream().map(Assignment.Day::date).min(Comparator.naturalOrder()).get();
    assertFalse(first.isAfter(until));
    browser
        .driver()
        .findElement(By.xpath("//button[starts-with(normalize-space(), \"The plan's dates\")]"))
        .click();
    assertFalse(browser.text("#p-told").contains("outside"));
  }

  @Test
  void whatIsTakenBackIsGoneFromTheCalendarAtOnce() {
    // Given a day that is locked
    Assignment.Day day = County.read(desk.store()).assignment().days().get(0);
    String state = desk.get("/api/plan").json().path("state").asText();
    SmallDesk.Answer locked =
        desk.send(
            "POST",
            "/api/plan/rules",
            "{\"kind\":\"lock_day\",\"crew\":\"%s\",\"date\":\"%s\",\"reason\":\"school fair\"}"
                .formatted(day.crewId(), day.date()),
            "If-Match",
            "\"" + state + "\"");
    assertEquals(200, locked.status());
    browser.open("/days");
    browser.awaitText("#by-hand", "school fair");
    // when the change is taken back in the list of changes
    browser.press("Changes");
    browser.press("Undo");
    // then the page behind shows it
    browser.awaitText("#by-hand", "Nothing is settled by hand.");
    browser.awaitText("#say", "Taken back");
  }

  @Test
  void anAddressThatIsNoneLeadsBackAndAProgramIsToldInJson() {
    browser.driver().get(desk.address() + "nowhere");
    browser.awaitText("h1", "There is no page at this address");
    browser.assertClean("no such page", 1);
    browser.press("Crew days: the plan");
    browser.awaitText("h1", "Crew days");
    SmallDesk.Answer told = desk.get("/nowhere");
    assertEquals(404, told.status());
    assertEquals("there is nothing at /nowhere", told.json().path("detail").asText());
  }

  @Test
  void theSheetToPrintLeadsBackOnTheScreenAndNotOnPaper() {
    Assignment.Day day = County.read(desk.store()).assignment().days().get(0);
    browser
        .driver()
        .get(desk.address() + "api/sheets/" + day.date() + "/" + day.crewId() + "/page");
    assertTrue(browser.one(".way-back").isDisplayed());
    browser.driver().executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", "print"));
    try {
      assertFalse(browser.one(".way-back").isDisplayed());
    } finally {
      browser.driver().executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", ""));
    }
    browser.press("Back to this day");
    browser.await("the first stop", () -> browser.one("form.stop").isDisplayed());
    assertTrue(browser.text("#work h1").contains(day.date().toString()));
  }

  @Test
  void onAPhoneWhatIsPressedInAListComesIntoView() {
    browser.size(390, 844);
    for (String page : List.of("/defects", "/findings")) {
      browser.open(page);
      browser.one("#list tbody button.figure").click();
      browser.await(
          "what is chosen, in view on " + page,
          () ->
              Boolean.TRUE.equals(
                  browser.script(
                      "const r = document.querySelector('#chosen h2').getBoundingClientRect();"
                          + " return !document.querySelector('#nothing') && r.top >= 0"
                          + " && r.bottom <= innerHeight")));
    }
  }

  @Test
  void aPageThatIsLongInComingSaysSo() {
    Map<String, Object> slow =
        Map.of("offline", false, "latency", 600, "downloadThroughput", -1, "uploadThroughput", -1);
    browser.driver().executeCdpCommand("Network.enable", Map.of());
    browser.driver().executeCdpCommand("Network.emulateNetworkConditions", slow);
    try {
      browser.driver().get(desk.address() + "days");
      browser.awaitText("#loading", "Reading what is to be shown");
      browser.assertClean("while it is read", 0);
    } finally {
      browser
          .driver()
          .executeCdpCommand(
              "Network.emulateNetworkConditions",
              Map.of(
                  "offline",
                  false,
                  "latency",
                  0,
                  "downloadThroughput",
                  -1,
                  "uploadThroughput",
                  -1));
    }
    browser.await("the plan", () -> browser.one("#calendar table").isDisplayed());
    browser.await("nothing more to wait for", () -> browser.text("#loading").isEmpty());
  }
}
