package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lanemend.inventory.Defect;
import lanemend.inventory.Finding;
import lanemend.inventory.FindingKind;
import lanemend.network.Side;
import lanemend.store.Photo;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;

/** The patrol page on a phone's screen, with and without a network. */
class PatrolPageTest {
  @TempDir Path folder;
  private SmallDesk desk;
  private DeskBrowser browser;

  @BeforeEach
  void open() {
    desk = SmallDesk.open(folder);
    browser = DeskBrowser.on(desk);
    browser.size(390, 844);
    browser
        .driver()
        .executeCdpCommand(
            "Browser.grantPermissions",
            Map.of("permissions", List.of("geolocation"), "origin", origin()));
  }

  @AfterEach
  void close() {
    network(true);
    browser.driver().executeCdpCommand("Emulation.clearGeolocationOverride", Map.of());
    browser.driver().get("about:blank");
    desk.close();
  }

  private String origin() {
    return desk.address().substring(0, desk.address().length() - 1);
  }

  private void standAt(Roadside.Spot spot, double accuracyM) {
    browser
        .driver()
        .executeCdpCommand(
            "Emulation.setGeolocationOverride",
            Map.of("latitude", spot.lat(), "longitude", spot.lon(), "accuracy", accuracyM));
  }

  private void network(boolean there) {
    Map<String, Object> conditions = new HashMap<>();
    conditions.put("offline", !there);
    conditions.put("latency", 0);
    conditions.put("downloadThroughput", -1);
    conditions.put("uploadThroughput", -1);
    browser.driver().executeCdpCommand("Network.enable", Map.of());
    browser.driver().executeCdpCommand("Network.emulateNetworkConditions", conditions);
  }

  private void openPatrol() {
    browser.open("/patrol");
    browser.await(
        "files kept",
        () -> "true".equals(browser.script("return document.documentElement.dataset.kept")));
  }

  private void park() {
    browser.press("I am parked clear of traffic");
  }

  private void choose(String id) {
    // As a thumb does: out from under the bar at the foot, then pressed.
    browser.script("document.getElementById(arguments[0]).scrollIntoView({block: 'center'})", id);
    browser.one("#" + id).click();
  }

  private void type(String name, String text) {
    WebElement input = browser.one("#" + name);
    input.clear();
    input.sendKeys(text);
  }

  private void describe(String note) {
    choose("kind-pothole");
    choose("severity-high");
    choose("lane-R1");
    type("length", "3");
    type("width", "2");
    type("depth", "2.5");
    type("note", note);
  }

  private Path photo() {
    try {
      return Files.write(
          folder.resolve("camera.jpg"), Roadside.jpeg(3000, 2000, new Color(90, 92, 88)));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private Defect noted(String note) {
    List<Defect> found =
        desk.store().read(s -> s.defects().all()).stream()
            .filter(d -> d.note().equals(note))
            .toList();
    assertEquals(1, found.size(), "defects noted '" + note + "'");
    return found.get(0);
  }

  @Test
  void aDefectIsAddedWhereThePhoneStandsWithAPhoto() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    standAt(spot, 5);
    openPatrol();
    Pictures.keep(browser, "patrol-start");
    assertFalse(browser.one("#form").isDisplayed(), "first it says to park");
    park();
    browser.press("Find where I am");
    browser.awaitText(".told", "Found, good to 16 ft");
    assertTrue(browser.one("#foot-0").isSelected(), "one road is near");
    describe("one in gloves");
    browser.one("#camera").sendKeys(photo().toString());
    browser.await("photo", () -> browser.one(".tray img").isDisplayed());
    browser.assertClean("patrol form", 0);
    Pictures.keep(browser, "patrol-form");
    browser.press("Keep this defect");
    browser.awaitText("#entries", "Arrived (1)");
    Defect d = noted("one in gloves");
    assertEquals(spot.on().routeId(), d.place().routeId());
    assertEquals(spot.on().alongM(), d.place().middleAlongM(), 1);
    List<Photo> photos =
        desk.store().read(s -> s.photosOf(Photo.Of.DEFECT, d.id())).stream()
            .map(p -> p.value())
            .toList();
    assertEquals(1, photos.size());
    var file = desk.store().read(s -> s.photoContent(photos.get(0).hash())).orElseThrow();
    assertEquals(1600, file.widthPx(), "made small on the phone");
    browser.assertClean("patrol list", 0);
    Pictures.keep(browser, "patrol-arrived");
    // and the desk shows it with its photo
    browser.size(1440, 900);
    browser.open("/defects?id=" + SmallDesk.coded(d.id()));
    browser.awaitText("#chosen", "Photos (1)");
    browser.one("#chosen ul.photos button").sendKeys(Keys.ENTER);
    browser.await(
        "large photo",
        () ->
            Boolean.TRUE.equals(
                browser.script(
                    "const i = document.querySelector('dialog img.photo');"
                        + " return i.complete && i.naturalWidth === 1600")));
    browser.assertClean("photo on the desk", 0);
    Pictures.keep(browser, "desk-photo");
  }

  @Test
  void withoutANetworkEntriesAreKeptAndSentOnceWhenItIsBack() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    standAt(spot, 5);
    openPatrol();
    network(false);
    // reloaded without a network: from what the phone keeps
    browser.open("/patrol");
    browser.awaitText("#network", "No network");
    park();
    browser.press("Find where I am");
    browser.awaitText(".told", "Found");
    describe("far from any mast");
    browser.one("#camera").sendKeys(photo().toString());
    browser.await("photo", () -> browser.one(".tray img").isDisplayed());
    browser.press("Keep this defect");
    browser.awaitText("#entries", "Waiting to be sent (1)");
    Pictures.keep(browser, "patrol-offline");
    // it outlives another reload
    browser.open("/patrol");
    browser.awaitText("#entries", "Waiting to be sent (1)");
    assertEquals(
        0,
        desk.store().read(s -> s.defects().all()).stream()
            .filter(d -> d.note().equals("far from any mast"))
            .count());
    network(true);
    browser.awaitText("#entries", "Arrived (1)");
    Defect d = noted("far from any mast");
    assertEquals(1, desk.store().read(s -> s.photosOf(Photo.Of.DEFECT, d.id())).size());
    // a second page of the same phone sends nothing again
    browser.open("/patrol");
    browser.awaitText("#entries", "Arrived (1)");
    noted("far from any mast");
    // what failed while there was no network was meant to
    browser.assertClean("back in the network", 20);
  }

  @Test
  void aFindingIsNotedWithoutANetworkAndArrivesOnceWhenItIsBack() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    standAt(spot, 5);
    openPatrol();
    network(false);
    park();
    choose("what-finding");
    browser.awaitText("#form-title", "A finding");
    assertFalse(browser.one("#length").isDisplayed(), "a finding has no size");
    browser.press("Find where I am");
    browser.awaitText(".told", "Found");
    choose("findingKind-culvert");
    browser.press("Keep this finding");
    browser.awaitText("#form-error", "Choose the side.");
    choose("side-left");
    type("note", "end section crushed");
    browser.press("Keep this finding");
    browser.awaitText("#entries", "Waiting to be sent (1)");
    browser.awaitText("#entries", "Culvert");
    Pictures.keep(browser, "patrol-finding");
    network(true);
    browser.awaitText("#entries", "Arrived (1)");
    List<Finding> noted =
        desk.store().read(s -> s.findings().all()).stream()
            .filter(f -> f.note().equals("end section crushed") && f.id().startsWith("F2"))
            .toList();
    assertEquals(1, noted.size());
    assertEquals(FindingKind.CULVERT, noted.get(0).kind());
    assertEquals(Side.LEFT, noted.get(0).side());
    assertEquals(spot.on().routeId(), noted.get(0).place().routeId());
    assertEquals(spot.on().alongM(), noted.get(0).place().middleAlongM(), 1);
    browser.assertClean("a finding", 20);
  }

  @Test
  void anAnswerThatIsLostDoesNotMakeTheDefectTwice() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    standAt(spot, 5);
    openPatrol();
    // Given that the desk takes an entry and its answer never comes
    browser.script(
        "const f = window.fetch; window.lost = 0; window.fetch = async (p, o) => {"
            + " const a = await f(p, o);"
            + " if (String(p).includes('/entries/') && window.lost++ === 0) {"
            + " throw new TypeError('lost'); } return a; };");
    park();
    browser.press("Find where I am");
    browser.awaitText(".told", "Found");
    describe("sent twice");
    browser.press("Keep this defect");
    browser.awaitText("#network", "What waits is sent later");
    browser.awaitText("#entries", "Waiting to be sent (1)");
    noted("sent twice");
    browser.press("Send now");
    browser.awaitText("#entries", "It arrived before as");
    noted("sent twice");
  }

  @Test
  void whatTheDeskRefusesIsShownWithItsReasonMendedAndSentAgain() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    standAt(spot, 5);
    openPatrol();
    park();
    browser.press("Find where I am");
    browser.awaitText(".told", "Found");
    describe("found tomorrow");
    browser.one("#form summary").click();
    browser.script("document.querySelector('#foundOn').value = '2099-01-01'");
    browser.press("Keep this defect");
    browser.awaitText("#entries", "Refused, to be mended (1)");
    browser.awaitText("#entries", "today or a day before");
    browser.assertClean("refused entry", 1);
    Pictures.keep(browser, "patrol-refused");
    browser.press("Mend");
    browser.awaitText("#form-title", "Mend an entry");
    assertEquals("found tomorrow", browser.one("#note").getAttribute("value"));
    assertTrue(browser.one("#foot-0").isSelected());
    browser.script("document.querySelector('#foundOn').value = '2026-05-04'");
    browser.press("Keep it mended");
    browser.awaitText("#entries", "Arrived (1)");
    assertEquals("2026-05-04", noted("found tomorrow").foundOn().toString());
  }

  @Test
  void atACrossingItAsksWhichRoadAndTheOfficePlacesWhatWasLeftOpen() {
    Roadside.Spot spot = Roadside.beside(desk, 2);
    standAt(spot, 8);
    openPatrol();
    park();
    browser.press("Find where I am");
    browser.awaitText(".told", "2 places are near: choose");
    describe("at the crossing");
    browser.press("Keep this defect");
    browser.awaitText("#form-error", "Choose which road it is on");
    browser.assertClean("crossing", 0);
    Pictures.keep(browser, "patrol-crossing");
    choose("foot-open");
    browser.press("Keep this defect");
    browser.awaitText("#entries", "waits for the office");
    browser.size(1440, 900);
    browser.open("/defects");
    browser.press("From the roadside, to be placed: 1");
    browser.await("places near", () -> browser.one("dialog .near input").isDisplayed());
    browser.assertClean("to be placed", 0);
    Pictures.keep(browser, "desk-waiting");
    browser.one("dialog .near input").click();
    browser.press("Place it");
    browser.awaitText("dialog", "None waits");
    noted("at the crossing");
  }

  @Test
  void aPhoneThatIsNotSureIsNotBelieved() {
    standAt(Roadside.beside(desk, 1), 120);
    openPatrol();
    park();
    browser.press("Find where I am");
    browser.awaitText(".told", "Good to 394 ft only");
    // by road and milepost it goes on
    choose("mode-written");
    Roadside.Spot spot = Roadside.beside(desk, 1);
    browser.one("#road option[value='" + spot.on().routeId() + "']").click();
    type("milepost", "9999");
    browser.awaitText("#milepost-told", "has no milepost 9999");
    type("milepost", spot.on().milepost().text());
    browser.await("no trouble", () -> browser.text("#milepost-told").isEmpty());
    describe("by milepost");
    browser.press("Keep this defect");
    browser.awaitText("#entries", "Arrived (1)");
    assertEquals(spot.on().alongM(), noted("by milepost").place().middleAlongM(), 2);
  }

  @Test
  void theWholeJobIsDoneByKeyboard() {
    standAt(Roadside.beside(desk, 1), 5);
    openPatrol();
    browser.script("document.querySelector('#main').focus()");
    Keyboard keys = new Keyboard(browser);
    keys.tabTo("#parked").press(Keys.ENTER);
    keys.tabTo("#find").press(Keys.SPACE);
    browser.awaitText(".told", "Found");
    keys.tabTo("input[name=kind]").press(Keys.SPACE);
    keys.tabTo("input[name=severity]").press(Keys.ARROW_DOWN);
    keys.tabTo("input[name=lane]").press(Keys.SPACE);
    keys.tabTo("#length").type("4");
    keys.tabTo("#width").type("3");
    keys.tabTo("#depth").type("1");
    keys.tabTo("#camera");
    keys.tabTo("#note").type("by keyboard");
    keys.tabTo("#keep").press(Keys.ENTER);
    browser.awaitText("#entries", "Arrived (1)");
    noted("by keyboard");
  }

  @Test
  void everythingPressedIsLargeAndReadableInBothThemes() {
    standAt(Roadside.beside(desk, 1), 5);
    openPatrol();
    park();
    browser.press("Find where I am");
    browser.awaitText(".told", "Found");
    Object small =
        browser.script(
            """
            const seen = (e) => e.getClientRects().length > 0;
            return [...document.querySelectorAll(`main button, main input:not([type=radio]):not([type=file]),
              main select, main textarea, main summary, .card label, .photo-button label, .top a, .top button`)]
              .filter(seen).filter((e) => e.getBoundingClientRect().height < 55.5)
              .map((e) => e.outerHTML.slice(0, 80) + ' ' + e.getBoundingClientRect().height);
            """);
    assertEquals(List.of(), small, "smaller than 56 px");
    assertEquals(
        false,
        browser.script("return document.documentElement.scrollWidth > innerWidth"),
        "nothing sticks out to the side");
    browser.one("#theme").click();
    browser.assertClean("patrol, other theme", 0);
    Pictures.keep(browser, "patrol-other-theme");
  }
}
