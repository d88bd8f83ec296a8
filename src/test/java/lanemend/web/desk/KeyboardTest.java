package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import lanemend.county.County;
import lanemend.county.DoneWork;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRule;
import lanemend.network.Route;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/** The main job of each page, done from the top of the page with Tab, Enter, Space and arrows. */
class KeyboardTest {
  @TempDir Path folder;
  private SmallDesk desk;
  private DeskBrowser browser;
  private Keyboard keys;

  @BeforeEach
  void open() {
    desk = SmallDesk.open(folder);
    browser = DeskBrowser.on(desk);
    keys = new Keyboard(browser);
  }

  @AfterEach
  void close() {
    browser.driver().get("about:blank");
    desk.close();
  }

  private void atTheTop(String path) {
    browser.open(path);
    browser.script("document.activeElement.blur(); window.getSelection().removeAllRanges()");
  }

  @Test
  void onTheMapAPlaceIsFoundAndADefectAddedAndAMarkChosen() {
    atTheTop("/map");
    Route road = County.read(desk.store()).network().routes().values().iterator().next();
    String place = road.id() + " " + road.mileposts().at(road.lengthM() / 3).text();
    int before = desk.store().read(s -> s.defects().all()).size();
    keys.tabTo("#q").type(place).press(Keys.ENTER);
    browser.await("the place", () -> browser.button("Add a defect here").isDisplayed());
    keys.tabToText("Add a defect here").press(Keys.ENTER);
    browser.await("the form", () -> browser.one("#f-length").isDisplayed());
    keys.tabTo("#f-length").type("4");
    keys.tabTo("#f-width").type("3");
    keys.tabTo("#f-depth").type("2");
    keys.tabToText("Add defect").press(Keys.ENTER);
    browser.awaitText("#chosen", "Photos");
    assertEquals(before + 1, desk.store().read(s -> s.defects().all()).size());
    // the map itself, and the defects of the road one after the other
    keys.tabTo("#map").press(Keys.ARROW_RIGHT);
    keys.tabTo("#defect-after").press(Keys.ENTER);
    browser.awaitText("#chosen", "Treatment");
  }

  @Test
  void inTheListADefectIsFoundChangedAndItsPhotosAreReached() {
    atTheTop("/defects");
    keys.tabTo("#words").type("high").press(Keys.ENTER);
    browser.awaitText("#filter-told", "severity");
    browser.await("chosen", () -> !browser.text("#list tbody").contains("Medium"));
    keys.tabTo("#list thead button");
    keys.tabTo("#list tbody th button");
    String first = keys.focus();
    keys.press(Keys.ENTER);
    browser.awaitText("#chosen", first);
    keys.tabToText("Change").press(Keys.ENTER);
    browser.await("the form", () -> browser.one("#f-note").isDisplayed());
    keys.tabTo("#f-note").type("seen again");
    keys.tabToText("Save").press(Keys.ENTER);
    browser.awaitText("#chosen", "seen again");
    browser.awaitText("#chosen", "Add a photo");
    keys.tabTo(".photo-button input");
    keys.tabTo("button.figure").press(Keys.ENTER);
    browser.await("a number's trace", () -> browser.one("dialog").isDisplayed());
    keys.press(Keys.ESCAPE);
    browser.await(
        "back where it was",
        () -> browser.driver().findElements(org.openqa.selenium.By.tagName("dialog")).isEmpty());
  }

  @Test
  void aCrewDayIsChosenAZoneHeldAndAnotherMoved() {
    atTheTop("/days");
    keys.tabTo("button.day");
    String here = keys.label();
    for (Keys arrow : List.of(Keys.ARROW_DOWN, Keys.ARROW_RIGHT, Keys.ARROW_UP, Keys.ARROW_LEFT)) {
      if (keys.label().equals(here)) {
        keys.press(arrow);
      }
    }
    assertFalse(keys.label().equals(here), "an arrow goes to another day");
    keys.press(Keys.ENTER);
    browser.await("the day", () -> browser.one(".zone-card").isDisplayed());
    keys.tabToLabel("Hold the zone").press(Keys.ENTER);
    browser.awaitText("#by-hand", "(");
    List<HandRule> rules = desk.store().read(s -> s.handRules().all());
    assertEquals(HandRule.Kind.PIN, rules.get(0).kind());
    keys.tabToLabel("Move the zone").press(Keys.ENTER);
    browser.awaitText("#moving-told", "choose a day");
    keys.press(Keys.ESCAPE);
    browser.await("stopped", () -> !browser.one("#moving").isDisplayed());
    keys.tabTo("#urgent");
    keys.tabTo("#plan").press(Keys.ENTER);
    browser.await("what to plan", () -> browser.one("#p-seconds").isDisplayed());
    keys.press(Keys.ESCAPE);
  }

  @Test
  void onTheSheetsADayIsOpenedAndItsWorkRecorded() {
    atTheTop("/sheets");
    Assignment.Day day = County.read(desk.store()).assignment().days().get(0);
    keys.tabTo("a[href*='date=" + day.date() + "'][href*='crew=']").press(Keys.ENTER);
    browser.await("the day", () -> browser.one("#work form.stop").isDisplayed());
    browser.script("document.activeElement.blur()");
    int before = records();
    keys.tabTo("#work form.stop input[type=checkbox]").press(Keys.SPACE, Keys.SPACE);
    keys.tabTo("#work form.stop input[type=number]").type("2.5");
    keys.tabTo("#work form.stop .two .field:nth-child(2) input").type("5");
    keys.tabTo("#work form.stop .photo-button input");
    keys.tabTo("#work form.stop button.main").press(Keys.ENTER);
    browser.await("asked or kept", () -> records() > before || browser.one("dialog").isDisplayed());
    if (records() == before) {
      // more repairs of this stop have no numbers: it asks first
      keys.tabToText("Record").press(Keys.ENTER);
    }
    browser.await("kept", () -> records() > before);
    browser.awaitText("#say", "recorded as done");
    assertTrue(browser.text("#main").contains("Recorded"));
  }

  private int records() {
    return (int)
        desk.store().read(s -> s.patches().all()).stream().filter(DoneWork::isRecord).count();
  }
}
