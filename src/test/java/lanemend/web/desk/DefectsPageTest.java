package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;

/** The list of defects in a browser. */
class DefectsPageTest {
  private static final Map<String, Integer> RANK = Map.of("Low", 0, "Medium", 1, "High", 2);

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
    browser.open("/defects");
  }

  private List<Integer> severities() {
    return browser.driver().findElements(By.cssSelector("#list tbody tr td:nth-child(5)")).stream()
        .map(WebElement::getText)
        .map(RANK::get)
        .toList();
  }

  @Test
  void theListIsSortedByWhatIsPressed() {
    browser.press("Severity");
    browser.await("sorted", () -> !browser.one("th[aria-sort]").getText().isEmpty());
    browser.await("up", () -> severities().equals(severities().stream().sorted().toList()));
    browser.one("th[aria-sort] button").sendKeys(Keys.ENTER);
    browser.await("down", () -> severities().get(0) == 2);
    browser.assertClean("list of defects", 0);
  }

  @Test
  void aDefectIsChangedAndItsHistoryTellsOfIt() {
    browser.driver().findElement(By.cssSelector("#list tbody th button")).click();
    browser.press("Change");
    browser.await("the form", () -> browser.one("#f-note").isDisplayed());
    browser.one("#f-note").clear();
    browser.one("#f-note").sendKeys("water stands here");
    browser.assertClean("form", 0);
    browser.press("Save");
    browser.awaitText("#chosen", "water stands here");
    browser.press("History");
    browser.awaitText("dialog", "water stands here");
    assertTrue(browser.text("dialog").contains("tester"), browser.text("dialog"));
  }

  @Test
  void whatSomebodyElseChangedMeanwhileIsShownBesideMine() {
    WebElement first = browser.driver().findElement(By.cssSelector("#list tbody th button"));
    String id = first.getText();
    first.click();
    browser.press("Change");
    browser.await("the form", () -> browser.one("#f-note").isDisplayed());
    // Given that another saves while this form is open
    desk.store()
        .write(
            "another",
            "elsewhere",
            c -> {
              var row = c.defects().find(id).orElseThrow();
              c.defects().update(row, row.value().withStatus(otherThan(row.value().status())));
            });
    browser.press("Save");
    browser.await("both", () -> browser.button("Save what is chosen").isDisplayed());
    browser.assertClean("two versions", 1);
    browser.press("Leave theirs");
    browser.await("closed", () -> browser.driver().findElements(By.tagName("dialog")).isEmpty());
  }

  private static lanemend.inventory.DefectStatus otherThan(lanemend.inventory.DefectStatus now) {
    return now == lanemend.inventory.DefectStatus.DONE
        ? lanemend.inventory.DefectStatus.OPEN
        : lanemend.inventory.DefectStatus.DONE;
  }

  @Test
  void theFilterGoesWithTheExport() {
    browser.one("#words").sendKeys("high" + Keys.ENTER);
    browser.awaitText("#filter-told", "severity = 'high'");
    String link = browser.one("#list a[href*='csv']").getAttribute("href");
    assertTrue(link.contains("where="), link);
    int rows = browser.driver().findElements(By.cssSelector("#list tbody tr")).size();
    String csv = desk.get(link.substring(desk.address().length() - 1)).whole().body();
    assertEquals(rows + 1, csv.lines().count());
  }

  @Test
  void onAPhoneItKeepsTheRules() {
    browser.size(390, 844);
    browser.open("/defects");
    browser.assertClean("list on a phone", 0);
  }
}
