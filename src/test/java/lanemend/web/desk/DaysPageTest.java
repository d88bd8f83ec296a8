package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import lanemend.county.County;
import lanemend.crewdays.Assignment;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;

/** Planning, changing a plan and recording work in a browser. */
class DaysPageTest {
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
    desk.close();
  }

  private Assignment kept() {
    return County.read(desk.store()).assignment();
  }

  @Test
  void aPlanIsMadeWhileItsProgressShowsAndIsStopped() {
    Assignment before = kept();
    browser.open("/days");
    browser.press("Plan");
    browser.await("the form", () -> browser.one("#p-seconds").isDisplayed());
    browser.assertClean("what to plan", 0);
    browser.one("#p-seconds").clear();
    browser.one("#p-seconds").sendKeys("600");
    browser.press("Start planning");
    browser.awaitText("#run-told", "the best so far comes to");
    browser.press("Stop and keep the best so far");
    browser.awaitText("dialog", "What changed and why");
    browser.awaitText("dialog", "Checked: no limit is broken");
    assertNotEquals(before, kept());
    browser.assertClean("what changed", 0);
  }

  @Test
  void aZoneIsMovedByKeyboardAloneAfterItsCostWasSeen() {
    browser.open("/days");
    browser.assertClean("crew days", 0);
    // Given a zone that some other day can take
    String repair = movable();
    Assignment.Day before = kept().dayOf(repair).orElseThrow();
    browser.open("/days?date=" + before.date() + "&crew=" + before.crewId());
    int stop = stopOf(before, repair);
    WebElement move =
        browser
            .driver()
            .findElements(By.cssSelector(".zone-card button[aria-label^='Move']"))
            .get(stop);
    move.sendKeys(Keys.ENTER);
    browser.awaitText("#moving-told", "choose a day");
    browser.await(
        "a day that can take it has the keyboard",
        () -> browser.driver().switchTo().activeElement().getAttribute("class").contains("fits"));
    WebElement day = browser.driver().switchTo().activeElement();
    assertTrue(day.getText().contains("USD"), day.getText());
    browser.assertClean("choosing a day", 0);
    day.sendKeys(Keys.ENTER);
    browser.awaitText("dialog .verdict", "Possible");
    browser.one("dialog #reason").sendKeys("school holidays" + Keys.ENTER);
    browser.awaitText("dialog", "set by hand: school holidays");
    assertNotEquals(before, kept().dayOf(repair).orElseThrow());
    browser.driver().switchTo().activeElement().sendKeys(Keys.ESCAPE);
    browser.awaitText("#by-hand", repair);
    browser.assertClean("moved", 0);
  }

  @Test
  void aZoneIsDraggedToAnotherDayAndNothingIsKeptUntilAsked() {
    browser.open("/days");
    String repair = movable();
    Assignment before = kept();
    Assignment.Day home = before.dayOf(repair).orElseThrow();
    browser.open("/days?date=" + home.date() + "&crew=" + home.crewId());
    // Events as a browser sends them: a driver's own drag is not one of HTML in every version.
    browser.script(
        """
        window.carried = new DataTransfer();
        window.card = document.querySelectorAll('.zone-card')[arguments[0]];
        card.dispatchEvent(new DragEvent('dragstart', {bubbles: true, dataTransfer: carried}));
        """,
        stopOf(home, repair));
    browser.await("the offer", () -> browser.one("button.day.fits").isDisplayed());
    browser.script(
        """
        const td = document.querySelector('button.day.fits').closest('td');
        const over = new DragEvent('dragover', {bubbles: true, cancelable: true, dataTransfer: carried});
        td.dispatchEvent(over);
        if (over.defaultPrevented) {
          td.dispatchEvent(new DragEvent('drop', {bubbles: true, cancelable: true, dataTransfer: carried}));
        }
        card.dispatchEvent(new DragEvent('dragend', {bubbles: true, dataTransfer: carried}));
        """);
    browser.awaitText("dialog .verdict", "Possible");
    assertEquals(before, kept());
    browser.press("Keep it there");
    browser.awaitText("dialog", "set by hand: moved by hand");
    assertNotEquals(home, kept().dayOf(repair).orElseThrow());
  }

  private static int stopOf(Assignment.Day day, String repair) {
    for (int i = 0; i < day.zones().size(); i++) {
      if (day.zones().get(i).defectIds().contains(repair)) {
        return i;
      }
    }
    throw new AssertionError(repair);
  }

  private String movable() {
    for (Assignment.Day day : kept().days()) {
      for (Assignment.Zone zone : day.zones()) {
        String repair = zone.defectIds().get(0);
        for (var p : desk.get("/api/plan/places?repair=" + SmallDesk.coded(repair)).json()) {
          if (p.path("possible").asBoolean() && !p.path("home").asBoolean()) {
            return repair;
          }
        }
      }
    }
    throw new AssertionError("no zone can be moved");
  }

  @Test
  void aRepairLeftOutByHandIsFoundInTheListWithItsReason() {
    browser.open("/days");
    String repair = kept().days().get(0).zones().get(0).defectIds().get(0);
    String state = desk.get("/api/plan").json().path("state").asText();
    String rule =
        "{\"kind\": \"leave_out\", \"repair\": \"" + repair + "\", \"reason\": \"by the utility\"}";
    assertEquals(200, desk.send("POST", "/api/plan/rules", rule, "If-Match", state).status());
    browser.open("/days");
    browser.one("#left-words").sendKeys(repair + Keys.ENTER);
    browser.awaitText("#left-list", "Rows 1 to 1 of 1");
    browser.awaitText("#left-list", "by the utility");
    browser.assertClean("what is left out", 0);
    // What somebody settled by hand is not moved over their head: the page says so
    browser.one("#left-list button[aria-label^='Find a day']").sendKeys(Keys.ENTER);
    browser.awaitText("#error", repair);
  }

  @Test
  void workIsRecordedOnAPhone() {
    browser.size(390, 844);
    browser.open("/sheets");
    browser.assertClean("sheets on a phone", 0);
    browser.one("#next a").click();
    browser.await("the first stop", () -> browser.one("form.stop").isDisplayed());
    WebElement stop = browser.one("form.stop");
    String repair = stop.findElement(By.cssSelector("h3")).getText().replaceFirst(":.*", "");
    for (WebElement target :
        stop.findElements(By.cssSelector("button:not(.figure), input[type=number]"))) {
      assertTrue(target.getSize().height >= 56, target.getText() + " is " + target.getSize());
    }
    stop.findElement(By.xpath(".//button[text()='Fill in as planned']")).click();
    browser.assertClean("a sheet on a phone", 0);
    stop.findElement(By.cssSelector("button.main")).click();
    browser.awaitText("#done", repair);
    assertEquals(
        1,
        County.read(desk.store()).patches().stream()
            .filter(p -> p.id().equals("done-" + repair))
            .count());
    browser.assertClean("recorded", 0);
  }

  @Test
  void theCalendarKeepsTheRulesOnAPhoneAndInTheDark() {
    browser.size(390, 844);
    browser.open("/days");
    browser.press("Dark");
    browser.assertClean("crew days on a phone, dark", 0);
    browser.press("Dark");
  }
}
