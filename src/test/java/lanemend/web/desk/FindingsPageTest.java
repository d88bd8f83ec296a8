package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lanemend.county.County;
import lanemend.inventory.Finding;
import lanemend.inventory.FindingKind;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;

/** Findings listed, chosen, placed and handed on. */
class FindingsPageTest {
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

  private List<Finding> known() {
    return County.read(desk.store()).findings();
  }

  @Test
  void theListIsWhatTheCountyHasChosenAndSorted() {
    JsonNode all = desk.get("/api/findings?sort=-foundOn").json();
    assertEquals(known().size(), all.path("total").asInt());
    List<String> days = new ArrayList<>();
    all.path("rows").forEach(r -> days.add(r.path("foundOn").asText()));
    assertEquals(days.stream().sorted(Comparator.reverseOrder()).toList(), days);
    long signs = known().stream().filter(f -> f.kind() == FindingKind.SIGN).count();
    assertEquals(signs, desk.get("/api/findings?kind=sign").json().path("total").asInt());
    String cql = "?where=" + SmallDesk.coded("kind = 'sign'");
    assertEquals(signs, desk.get("/api/findings" + cql).json().path("total").asInt());
    assertEquals(400, desk.get("/api/findings?where=kind+is").status());
    // and the file has the same rows
    String csv = desk.get("/api/exports/findings/csv" + cql).whole().body();
    assertEquals(signs + 1, csv.lines().count(), csv);
  }

  @Test
  void aFindingIsChosenAndSeenOnTheMap() {
    DeskBrowser browser = DeskBrowser.on(desk);
    browser.open("/findings");
    browser.awaitText("#list", "Rows 1 to");
    browser.assertClean("findings", 0);
    browser.press("Dark");
    browser.assertClean("findings in the dark", 0);
    browser.press("Dark");
    Finding first = known().get(0);
    browser.one("#f-words").sendKeys(first.id() + Keys.ENTER);
    browser.awaitText("#list", "Rows 1 to 1 of 1");
    browser.one("#list tbody th button").sendKeys(Keys.ENTER);
    browser.awaitText("#chosen", first.place().routeId());
    assertEquals(1, browser.driver().findElements(By.cssSelector("#findings-map .sign")).size());
    browser.press("On the county map");
    browser.awaitText("#chosen", first.place().routeId());
  }

  @Test
  void onAPhoneNothingRunsOffThePage() {
    DeskBrowser browser = DeskBrowser.on(desk);
    browser.size(390, 844);
    browser.open("/findings");
    browser.assertClean("findings on a phone", 0);
    assertTrue(
        (Boolean) browser.script("return document.documentElement.scrollWidth <= innerWidth"));
  }
}
