package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.store.Stored;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What a page needs is named in its head, so that the browser need not find it script by script.
 */
class FirstPageTest {
  private static final String FETCHED =
      "return performance.getEntriesByType('resource')"
          + ".map(e => e.name.replace(location.origin, ''))"
          + ".filter(n => n.endsWith('.js') || n === '/api/county').join(' ')";
  private static final String NAMED =
      "return [...document.querySelectorAll('link[rel=modulepreload], link[rel=preload]')]"
          + ".map(l => new URL(l.href).pathname).concat('/desk/shared/theme.js').join(' ')";

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

  @Test
  void everyScriptOfAPageAndTheCountyAreNamedInItsHeadAndFetchedOnce() {
    DeskBrowser browser = DeskBrowser.on(desk);
    for (Page page : Page.values()) {
      browser.open("/" + page.folder);
      List<String> fetched = words(browser.script(FETCHED));
      assertTrue(fetched.contains("/desk/" + page.folder + "/page.js"), fetched.toString());
      assertTrue(fetched.contains("/api/county"), fetched.toString());
      // A name without its script, or a script without its name, would be fetched late or in vain.
      List<String> once = new ArrayList<>(new TreeSet<>(fetched));
      assertEquals(once, fetched.stream().sorted().toList(), page.folder);
      assertEquals(once, new ArrayList<>(new TreeSet<>(words(browser.script(NAMED)))), page.folder);
    }
    browser.assertClean("the last page", 0);
  }

  private static List<String> words(Object text) {
    return List.of(String.valueOf(text).split(" "));
  }

  @Test
  void theCountyIsWrittenAnewWhenSomethingOfItIs() {
    String before = desk.get("/api/county").whole().body();
    assertEquals(before, desk.get("/api/county").whole().body());
    desk.store()
        .write(
            "tester",
            "one fewer waits",
            c -> {
              Stored<Defect> row = c.defects().stored().get(0);
              c.defects().update(row, row.value().withStatus(DefectStatus.WITHDRAWN));
            });
    String after = desk.get("/api/county").whole().body();
    assertNotEquals(before, after);
    assertTrue(after.contains("\"withdrawn\":1"), after);
  }

  @Test
  void scriptsComeFromTheDeskOnlyAsBefore() {
    String policy =
        desk.get("/map").whole().headers().firstValue("Content-Security-Policy").orElseThrow();
    assertTrue(policy.contains("default-src 'none'; script-src 'self';"), policy);
    assertFalse(policy.contains("unsafe"), policy);
  }
}
