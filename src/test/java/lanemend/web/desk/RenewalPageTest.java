package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import lanemend.county.County;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;

/** Flagging a section in a browser: evidence, budget, decision, map, undo. */
class RenewalPageTest {
  @TempDir Path folder;
  private SmallDesk desk;
  private DeskBrowser browser;

  @BeforeEach
  void open() {
    desk = SmallDesk.weakRoad(folder);
    browser = DeskBrowser.on(desk);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private void study() {
    browser.open("/renewal");
    browser.awaitText("#list", "SR 3 ");
  }

  private WebElement focused() {
    return browser.driver().switchTo().activeElement();
  }

  /** Goes on with Tab, or back, until the element that reads so has the keyboard. */
  private void tabTo(String text) {
    for (int i = 0; i < 80; i++) {
      focused().sendKeys(Keys.TAB);
      if (focused().getText().equals(text)) {
        return;
      }
    }
    throw new AssertionError("no Tab leads to '" + text + "'");
  }

  @Test
  void theStudyRunsByItselfAndItsEvidenceIsRead() {
    study();
    browser.awaitText("#told", "1 section is flagged");
    browser.assertClean("the list and the program", 0);
    browser.one("#list tbody th button").click();
    browser.awaitText("#evidence", "Flagged because");
    browser.await(
        "the strip",
        () -> browser.one("#section-strip").getAttribute("aria-label").contains("to be decided"));
    for (String part :
        List.of(
            "Forecast if patching goes on",
            "Cumulative difference",
            "PELT",
            "Overlay thickness",
            "Crossover:",
            "No condition survey",
            "Hindcast:")) {
      browser.awaitText("#evidence", part);
    }
    browser.assertClean("evidence", 0);
    browser.press("Dark");
    browser.assertClean("evidence in the dark", 0);
    browser.press("Dark");
    // Every figure opens its trace
    browser.one("#evidence .groups button.figure").click();
    browser.awaitText("dialog", "p by random routes");
    browser.awaitText("dialog", "Kulldorff 1997");
    browser.assertClean("a trace", 0);
    focused().sendKeys(Keys.ESCAPE);
  }

  @Test
  void theProgramFollowsTheBudget() {
    study();
    browser.awaitText("#saved", "sections are overlaid");
    WebElement every = browser.one("#budgets .all input[type=range]");
    every.sendKeys(Keys.HOME);
    browser.awaitText("#saved", "0 of 1 sections are overlaid");
    browser.awaitText("#years", "patch on");
    browser.awaitText("#solved", "Solved in");
    every.sendKeys(Keys.END);
    browser.awaitText("#saved", "1 of 1 sections are overlaid");
    browser.assertClean("after the budget moved", 0);
    // What is tried is kept only when asked
    assertEquals(List.of(3e5, 3e5, 3e5), County.read(desk.store()).renewalRules().yearlyBudgets());
    browser.press("Back to the agency\u2019s budgets");
    browser.await(
        "the budgets",
        () ->
            "300000"
                .equals(
                    browser
                        .one("#budgets .year:nth-child(2) input[type=number]")
                        .getAttribute("value")));
    WebElement year = browser.one("#budgets .year:nth-child(2) input[type=number]");
    year.clear();
    year.sendKeys("50000");
    browser.await("can be kept", () -> browser.button("Keep these budgets").isEnabled());
    browser.press("Keep these budgets");
    browser.awaitText("#say", "agency\u2019s budgets now");
    assertEquals(List.of(5e4, 3e5, 3e5), County.read(desk.store()).renewalRules().yearlyBudgets());
  }

  @Test
  void aSectionIsAcceptedByKeyboardAloneSeenOnTheMapAndUndone() {
    study();
    browser.one("#list tbody th button").sendKeys(Keys.ENTER);
    browser.await(
        "the evidence has the keyboard",
        () -> focused().getAttribute("id").equals("evidence-title"));
    String milepost = focused().getText();
    tabTo("Accept");
    focused().sendKeys(Keys.ENTER);
    browser.await("the form", () -> focused().getAttribute("id").equals("d-reason"));
    browser.assertClean("the form of a decision", 0);
    focused().sendKeys("cores confirm it" + Keys.TAB);
    focused().sendKeys(Keys.ENTER);
    // A name is missing: the form says so and goes there
    browser.awaitText("dialog .error", "the name of the engineer");
    assertEquals("d-by", focused().getAttribute("id"));
    focused().sendKeys("E. Invented, P.E." + Keys.ENTER);
    browser.awaitText("#say", "accepted");
    browser.awaitText("#evidence .decided", "ccepted, milepost");
    browser.awaitText("#evidence .decided", "cores confirm it");
    DecidedSection kept = County.read(desk.store()).decisions().get(0);
    assertEquals(EngineerDecision.Kind.ACCEPTED, kept.decision().kind());
    assertEquals("E. Invented, P.E.", kept.decision().by());
    browser.assertClean("accepted", 1);
    // On the map it is another line than before
    browser.open("/map?at=SR+3+2.4");
    browser.awaitText("#chosen", "accepted");
    browser.assertClean("on the map", 0);
    browser.press("Its evidence");
    browser.awaitText("#evidence", milepost);
    // Undone, it is to be decided again
    browser.press("Changes");
    browser.await(
        "the change",
        () -> browser.one("dialog button[aria-label*='cores confirm it']").isDisplayed());
    browser.one("dialog button[aria-label*='cores confirm it']").click();
    browser.awaitText("#say", "Taken back");
    browser.awaitText("#evidence .decided", "No engineer has decided");
    assertEquals(List.of(), County.read(desk.store()).decisions());
  }

  /** Another engineer decides at a desk of his own; the page does not know of it yet. */
  private void another(String kind, String year, String version) {
    String body =
        """
        {"kind": "%s", "route": "SR 3", "from": "2.0", "to": "2.8", "newFrom": null, "newTo": null,
         "year": %s, "reason": "cores confirm it", "by": "A. Nother, P.E."}"""
            .formatted(kind, year);
    SmallDesk.Answer kept =
        desk.send("POST", "/api/renewal/decisions", body, "If-Match", '"' + version + '"');
    assertEquals(200, kept.status(), kept.whole().body());
  }

  private void decideHere(String button, String reason) {
    browser.press(button);
    browser.one("#d-reason").sendKeys(reason);
    browser.one("#d-by").clear();
    browser.one("#d-by").sendKeys("E. Invented, P.E." + Keys.ENTER);
    browser.awaitText("#both", "A. Nother, P.E.");
  }

  private EngineerDecision kept() {
    List<DecidedSection> all = County.read(desk.store()).decisions();
    assertEquals(1, all.size());
    return all.get(0).decision();
  }

  @Test
  void twoEngineersDecideOneSectionAndTheSecondSeesBothAndChooses() {
    study();
    browser.one("#list tbody th button").click();
    browser.awaitText("#evidence .decided", "No engineer has decided");
    // Given that another has accepted it, when the page's engineer rejects it
    another("accepted", "2027", "0");
    decideHere("Reject", "the base is sound");
    // then both are shown, and his stands because he says so
    browser.awaitText("#both", "rejected");
    browser.awaitText("#both", "accepted, overlay in 2027");
    browser.awaitText("#both", "the base is sound");
    browser.awaitText("#both", "cores confirm it");
    browser.assertClean("two decisions", 1);
    assertEquals(EngineerDecision.Kind.ACCEPTED, kept().kind(), "nothing is replaced unseen");
    browser.press("Decide mine all the same");
    browser.awaitText("#evidence .decided", "the base is sound");
    assertEquals(EngineerDecision.Kind.REJECTED, kept().kind());
    // and the other way round he leaves the other's, which the page then shows
    String version =
        desk.get("/api/renewal/evidence?section=" + SmallDesk.coded(kept().sectionId()))
            .json()
            .path("version")
            .asText();
    another("accepted", "2028", version);
    decideHere("Put off", "after the bridge");
    browser.press("Leave theirs");
    browser.awaitText("#say", "The other decision stands");
    browser.awaitText("#evidence .decided", "A. Nother, P.E.");
    assertEquals(EngineerDecision.Kind.ACCEPTED, kept().kind());
  }

  @Test
  void aStretchIsPutOnTheListByHand() {
    study();
    browser.press("Put a stretch on the list");
    browser.one("#d-route").sendKeys("SR 5");
    browser.one("#d-from").sendKeys("3.1");
    browser.one("#d-to").sendKeys("3.9");
    browser.one("#d-reason").sendKeys("heavy trucks from the quarry");
    browser.one("#d-by").sendKeys("E. Invented, P.E.");
    browser.press("Put it on the list");
    browser.awaitText("#evidence", "Not flagged by this study");
    browser.awaitText("#list", "put on the list by hand");
    browser.assertClean("by hand", 0);
  }

  @Test
  void onAPhoneNothingRunsOffThePage() {
    browser.size(390, 844);
    study();
    browser.one("#list tbody th button").click();
    browser.awaitText("#evidence", "Flagged because");
    browser.assertClean("renewal on a phone", 0);
    assertTrue(
        (Boolean) browser.script("return document.documentElement.scrollWidth <= innerWidth"),
        "the page is wider than the phone");
  }
}
