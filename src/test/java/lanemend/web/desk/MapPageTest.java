package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.interactions.Actions;

/** The patrol's job in a browser: look, find, mark. */
class MapPageTest {
  @TempDir static Path folder;
  private static SmallDesk desk;
  private DeskBrowser browser;

  @BeforeAll
  static void openDesk() {
    desk = SmallDesk.open(folder);
  }

  @AfterAll
  static void closeDesk() {
    desk.close();
  }

  @BeforeEach
  void openBrowser() {
    browser = DeskBrowser.on(desk);
  }

  private static JsonNode someDefect(String severity) {
    return desk.get(
            "/api/defects?count=1&sort=place&where="
                + SmallDesk.coded("severity = '" + severity + "'"))
        .json()
        .at("/rows/0");
  }

  @Test
  void aMilepostIsFoundAndADefectAddedThereByKeyboardAlone() {
    // Given the map, and the milepost of a place somebody told by radio
    JsonNode told = someDefect("low");
    String place = told.path("route").asText() + " " + told.path("milepost").asText();
    browser.open("/map");
    // when it is typed, entered, and a defect filled in without touching the mouse
    browser.one("#q").sendKeys(place + Keys.ENTER);
    browser.awaitText("#chosen h2", told.path("route").asText() + " milepost");
    browser.button("Add a defect here").sendKeys(Keys.ENTER);
    browser.await("the form", () -> browser.one("#f-length").isDisplayed());
    assertEquals("f-length", browser.driver().switchTo().activeElement().getAttribute("id"));
    new Actions(browser.driver()).sendKeys("4", Keys.TAB, "3", Keys.TAB, "2", Keys.ENTER).perform();
    // then it is said, shown and stored
    browser.awaitText("#say", "is added at " + told.path("route").asText());
    browser.awaitText("#chosen h2", "Pothole D");
    JsonNode stored =
        desk.get("/api/defects?count=1&where=" + SmallDesk.coded("found_by = '' AND length_ft = 4"))
            .json();
    assertTrue(stored.path("total").asInt() >= 1, stored.toString());
    browser.assertClean("map with a defect chosen", 0);
  }

  @Test
  void everyNumberOfARepairOpensItsRuleAndSource() {
    JsonNode defect = someDefect("high");
    browser.open("/map?id=" + SmallDesk.coded(defect.path("id").asText()));
    browser.await("figures", () -> browser.one("#chosen button.figure").isDisplayed());
    WebElement figure = browser.one("#chosen button.figure");
    figure.sendKeys(Keys.ENTER);
    browser.awaitText("dialog", "Rule");
    assertTrue(browser.text("dialog").contains("Source"));
    browser.assertClean("trace", 0);
    // and Escape leads back to the number
    new Actions(browser.driver()).sendKeys(Keys.ESCAPE).perform();
    browser.await("closed", () -> browser.driver().switchTo().activeElement().equals(figure));
  }

  @Test
  void theMapAndTheStripGoTogether() {
    JsonNode defect = someDefect("medium");
    browser.open("/map?id=" + SmallDesk.coded(defect.path("id").asText()));
    browser.awaitText("#strip-told", "Milepost");
    String before = browser.text("#strip-told");
    // when the strip is drawn closer, the map follows
    browser.press("Closer");
    browser.await("another range", () -> !browser.text("#strip-told").equals(before));
    // and when the map is moved by keyboard, the strip follows
    String range = browser.text("#strip-told");
    browser.one("#map").sendKeys(Keys.SUBTRACT);
    browser.await("strip follows", () -> !browser.text("#strip-told").equals(range));
  }

  @Test
  void aClickOnAMarkChoosesItsDefect() {
    JsonNode defect = someDefect("high");
    browser.open("/map?at=" + SmallDesk.coded(at(defect)));
    browser.awaitText("#chosen h2", "milepost");
    browser.press("Choose the middle");
    browser.awaitText("#chosen h2", defect.path("id").asText());
  }

  private static String at(JsonNode defect) {
    return defect.path("route").asText() + " " + defect.path("milepost").asText();
  }

  @Test
  void aFilterInWordsOrCqlShowsItsFaultAtItsPlace() {
    browser.open("/map");
    browser.one("#words").sendKeys("high" + Keys.ENTER);
    browser.awaitText("#filter-told", "of");
    browser.one("#words").clear();
    browser.one("#words").sendKeys("high ponies" + Keys.ENTER);
    browser.awaitText("#filter-error", "At character 6.");
    browser.assertClean("map with a filter's fault", 1);
  }

  @Test
  void aRoadIsMeasuredBetweenTwoPlaces() {
    JsonNode route = desk.get("/api/county").json().path("routes").get(0);
    JsonNode from = spot(route, 0.25);
    JsonNode to = spot(route, 0.75);
    browser.open("/map?at=" + SmallDesk.coded(at(from)));
    browser.awaitText("#chosen h2", from.path("milepost").asText());
    browser.press("Measure from here");
    browser.one("#q").clear();
    browser.one("#q").sendKeys(at(to) + Keys.ENTER);
    browser.awaitText("#measured", " along " + route.path("id").asText());
  }

  private static JsonNode spot(JsonNode route, double share) {
    String id = route.path("id").asText();
    JsonNode part =
        desk.get("/api/routes/" + SmallDesk.coded(id).replace("+", "%20")).json().at("/parts/0");
    int i = (int) (share * (part.path("along").size() - 1));
    return desk.get(
            "/api/nearest?lon="
                + part.path("lon").get(i).asDouble()
                + "&lat="
                + part.path("lat").get(i).asDouble()
                + "&route="
                + SmallDesk.coded(id))
        .json()
        .at("/spots/0");
  }

  @Test
  void onAPhoneAndInTheDarkItKeepsTheRules() {
    browser.size(390, 844);
    browser.open("/map");
    browser.one("#theme").click();
    browser.assertClean("map on a phone, dark", 0);
    long wider =
        (Long)
            browser.script(
                "return document.documentElement.scrollWidth - document.documentElement.clientWidth");
    assertEquals(0, wider, "nothing sticks out sideways");
    browser.one("#theme").click();
  }
}
