package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import lanemend.county.County;
import lanemend.county.DoneWork;
import lanemend.crewdays.Assignment;
import lanemend.inventory.PastPatch;
import lanemend.patching.RepairPart;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.WebElement;

/** A crew's sheet on a phone: what was really done, with photos, becomes history. */
class FieldSheetTest {
  @TempDir Path folder;
  private SmallDesk desk;
  private DeskBrowser browser;
  private Assignment.Day day;

  @BeforeEach
  void open() {
    desk = SmallDesk.open(folder);
    browser = DeskBrowser.on(desk);
    browser.size(390, 844);
    day = County.read(desk.store()).assignment().days().get(0);
    browser.open("/sheets?date=" + day.date() + "&crew=" + SmallDesk.coded(day.crewId()));
  }

  @AfterEach
  void close() {
    browser.driver().get("about:blank");
    desk.close();
  }

  private static void write(WebElement input, String text) {
    input.clear();
    input.sendKeys(text);
  }

  private Path camera() throws IOException {
    return Files.write(
        folder.resolve("done.jpg"), Roadside.jpeg(2400, 3200, new Color(60, 60, 64)));
  }

  private List<PastPatch> records() {
    return desk.store().read(s -> s.patches().all()).stream().filter(DoneWork::isRecord).toList();
  }

  @Test
  void doneWorkWithAPhotoBecomesHistory() throws IOException {
    String repair = day.zones().get(0).defectIds().get(0);
    for (WebElement tick :
        browser.driver().findElements(org.openqa.selenium.By.cssSelector("input[id^=tick-]"))) {
      boolean mine = tick.getAttribute("id").equals("tick-" + repair.replaceAll("[^\\w-]", "_"));
      if (!mine && tick.isDisplayed() && tick.isSelected()) {
        browser.script("arguments[0].click()", tick);
      }
    }
    String id = repair.replaceAll("[^\\w-]", "_");
    write(browser.one("#mix-" + id), "2.4");
    write(browser.one("#hours-" + id), "5.5");
    browser.one("#photo-" + id).sendKeys(camera().toString());
    browser.await("photo", () -> browser.one(".tray img").isDisplayed());
    browser.assertClean("sheet in the field", 0);
    Pictures.keep(browser, "sheet-photo");
    browser.script("document.querySelector('form.stop button.main').click()");
    browser.awaitText("#done", "5.5");
    PastPatch patch = records().get(0);
    assertEquals(DoneWork.patchId(repair), patch.id());
    assertEquals(5.5, patch.crewHours(), 1e-9);
    browser.await("its photo", () -> browser.one("#done ul.photos img").isDisplayed());
    browser.assertClean("recorded", 0);
    Pictures.keep(browser, "sheet-done");
    // with the defect too
    browser.size(1440, 900);
    String defect = RepairPart.defectOf(repair);
    browser.open("/defects?id=" + SmallDesk.coded(defect));
    browser.awaitText("#chosen", "Photos (1)");
    assertTrue(
        browser.one("#chosen ul.photos button").getAttribute("aria-label").contains("work done"));
    // and in the list of what was recorded
    browser.open("/sheets");
    browser.await("photo", () -> browser.one("#recorded ul.photos img").isDisplayed());
    browser.assertClean("list of records", 0);
  }

  private void network(boolean there) {
    browser.driver().executeCdpCommand("Network.enable", Map.of());
    browser
        .driver()
        .executeCdpCommand(
            "Network.emulateNetworkConditions",
            Map.of(
                "offline", !there, "latency", 0, "downloadThroughput", -1, "uploadThroughput", -1));
  }

  @Test
  void withoutANetworkDoneWorkIsKeptOnThePhoneAndArrivesOnceWhenItIsBack() throws IOException {
    // Given the sheet at hand, and then no network
    String repair = day.zones().get(0).defectIds().get(0);
    String id = repair.replaceAll("[^\\w-]", "_");
    for (WebElement tick : browser.driver().findElements(By.cssSelector("input[id^=tick-]"))) {
      if (!tick.getAttribute("id").equals("tick-" + id) && tick.isSelected()) {
        browser.script("arguments[0].click()", tick);
      }
    }
    try {
      network(false);
      write(browser.one("#mix-" + id), "2.4");
      write(browser.one("#hours-" + id), "5.5");
      browser.one("#photo-" + id).sendKeys(camera().toString());
      browser.await("photo", () -> browser.one(".tray img").isDisplayed());
      browser.script("document.querySelector('form.stop button.main').click()");
      // then it is said and listed, and the repair is not offered again
      browser.awaitText("#phone", "Waiting to be sent (1)");
      browser.awaitText("#phone", RepairPart.label(repair));
      assertEquals(List.of(), browser.driver().findElements(By.id("mix-" + id)));
      assertEquals(List.of(), records());
      browser.awaitText("#say", "Kept on this phone");
      Pictures.keep(browser, "sheet-waits");
      browser.press("Send now");
      browser.awaitText("#say", "No network to the desk.");
    } finally {
      network(true);
    }
    // and the network back, it is sent by itself, with its photo, once
    browser.awaitText("#done", "5.5");
    browser.awaitText("#phone", "Arrived (1)");
    assertEquals(1, records().size());
    assertEquals(5.5, records().get(0).crewHours(), 1e-9);
    browser.await("its photo", () -> browser.one("#done ul.photos img").isDisplayed());
    // Requests without a network were meant to fail; what comes after is not.
    browser.open("/sheets?date=" + day.date() + "&crew=" + SmallDesk.coded(day.crewId()));
    assertEquals(1, records().size());
  }

  @Test
  void aReportWhoseAnswerWasLostIsTakenOnce() {
    // Given a report that arrived, whose answer did not come back: it still waits on the phone
    String repair = day.zones().get(0).defectIds().get(0);
    String path = "/api/sheets/" + day.date() + "/" + SmallDesk.coded(day.crewId()) + "/done";
    Object waits =
        browser
            .driver()
            .executeAsyncScript(
                """
                const [path, repair, on, done] = arguments;
                (async () => {
                  const kept = await import('/desk/shared/kept.js');
                  const { report } = await import('/desk/shared/send.js');
                  const { post } = await import('/desk/shared/api.js');
                  const entry = { id: crypto.randomUUID(), made: new Date().toISOString(), mended: 0, state: 'waiting',
                    photoCount: 0, done: path, page: location.pathname + location.search, where: 'Done: ' + repair,
                    form: { on, repairs: [{ repair, mix: 1, hours: 2, cost: null, note: '' }] } };
                  await kept.keep(entry, []);
                  await post(path, await report(entry));
                  done((await kept.entries()).length);
                })().catch((e) => done(String(e)));
                """,
                path,
                repair,
                day.date().toString());
    assertEquals(1L, waits);
    assertEquals(1, records().size());
    // when the page is opened again and sends what waits
    browser.open("/sheets?date=" + day.date() + "&crew=" + SmallDesk.coded(day.crewId()));
    browser.awaitText("#phone", "Arrived (1)");
    // then there is one record, and nobody is told of a fault
    assertEquals(1, records().size());
    browser.await("nothing refused", () -> !browser.text("#phone").contains("Refused"));
    browser.assertClean("arrived before", 0);
  }

  @Test
  void whatIsPressedInTheFieldIsLargeInBothThemes() {
    for (String picture : List.of("sheet-light", "sheet-dark")) {
      Object small =
          browser.script(
              """
              return [...document.querySelectorAll(`#work button:not(.figure), #work .button,
                #work input:not([type=checkbox]):not([type=file])`)]
                .filter((e) => e.getClientRects().length && e.getBoundingClientRect().height < 55.5)
                .map((e) => e.outerHTML.slice(0, 90) + ' ' + e.getBoundingClientRect().height);
              """);
      assertEquals(List.of(), small, "smaller than 56 px");
      assertEquals(
          false, browser.script("return document.documentElement.scrollWidth > innerWidth"));
      browser.assertClean(picture, 0);
      Pictures.keep(browser, picture);
      browser.script("document.querySelector('form.stop').scrollIntoView()");
      Pictures.keep(browser, picture + "-stop");
      browser.one("#theme").click();
    }
  }
}
