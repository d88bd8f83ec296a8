package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import lanemend.cli.Commands;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import lanemend.store.Store;
import org.openqa.selenium.chrome.ChromeDriver;

/**
 * The desk's first page with many defects, in headless Chromium on this machine: how long until it
 * can be used, and how long frames take while the map is dragged. The peer, in the same browser and
 * run, is the same library's own way: a circle marker for each defect on its canvas.
 *
 * <p>Usable is when the page has its county, its filter and its strip's road and says so (its
 * {@code usable} mark), and drawn when every square of the map in view is. Both count from the
 * first byte of the page's answer (Navigation Timing, {@code responseStart}). A frame is the time
 * between two calls of {@code requestAnimationFrame} while a pointer drags the map by 12 pixels a
 * frame, there and back.
 */
public final class WebBench {
  private static final int FRAMES = 400;

  private static final String DRAG =
      """
      const done = arguments[arguments.length - 1];
      const frames = arguments[0];
      const box = document.getElementById('map');
      const at = box.getBoundingClientRect();
      const fire = (target, type, x, y) => target.dispatchEvent(new MouseEvent(type,
        {bubbles: true, cancelable: true, view: window, clientX: x, clientY: y, button: 0, buttons: 1}));
      let x = at.left + at.width / 2, y = at.top + at.height / 2, way = 1;
      const middle = x;
      fire(box, 'mousedown', x, y);
      const times = [];
      let before = performance.now();
      const step = (now) => {
        times.push(now - before);
        before = now;
        x += 12 * way;
        y += 5 * way;
        if (Math.abs(x - middle) > 360) { way = -way; }
        fire(document, 'mousemove', x, y);
        if (times.length < frames) { requestAnimationFrame(step); } else {
          fire(document, 'mouseup', x, y);
          done(times.slice(5));
        }
      };
      requestAnimationFrame(step);
      """;

  private static final String PEER =
      """
      const done = arguments[arguments.length - 1];
      (async () => {
        const start = performance.now();
        const L = await import('/desk/shared/leaflet.js');
        const answer = await fetch('/api/exports/defects/geojson');
        const defects = await answer.json();
        document.querySelector('main').remove();
        const box = document.createElement('div');
        box.id = 'map';
        box.style.cssText = 'position:fixed;left:268px;top:46px;width:828px;height:610px';
        document.body.append(box);
        const map = L.map(box, {preferCanvas: true});
        const layer = L.geoJSON(defects, {pointToLayer: (f, at) => L.circleMarker(at, {radius: 5})});
        map.fitBounds(layer.getBounds(), {animate: false});
        layer.addTo(map);
        requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - start)));
      })().catch((e) => done(String(e)));
      """;

  private WebBench() {}

  /**
   * Prints CSV.
   *
   * @param folder where the county is made, and found again by the next run
   */
  public static void run(Path folder, int defects, PrintStream out) {
    Path work = folder.resolve("web-" + defects);
    if (!Files.exists(work.resolve("lanemend.gpkg"))) {
      make(work, defects);
    }
    try (Store store = Store.open(work.resolve("lanemend.gpkg"));
        Desk desk = Desk.open(store, new DeskSettings(0, work, "bench", Optional.empty()))) {
      ChromeDriver driver = DeskBrowser.start();
      try {
        driver.manage().timeouts().scriptTimeout(Duration.ofMinutes(5));
        DeskBrowser browser = DeskBrowser.at(driver, desk.address());
        browser.size(1440, 900);
        measure(browser, driver, out);
      } finally {
        driver.quit();
      }
    }
  }

  private static void make(Path work, int defects) {
    try {
      Path files = Files.createTempDirectory("lanemend-bench-county");
      SampleCounty.write(files, new SampleSize(1_500, defects, 100, 4), 21);
      Commands.importCounty(files, work);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void measure(DeskBrowser browser, ChromeDriver driver, PrintStream out) {
    out.println("what,usable_ms,drawn_ms,frame_median_ms,frame_p95_ms,frame_worst_ms");
    for (String round : new String[] {"first", "again"}) {
      browser.open("/map");
      browser.await(
          "every square", () -> Boolean.TRUE.equals(browser.script("return window.mapDrawn === true")));
      JsonNode times =
          json(
              browser.script(
                  """
                  const n = performance.getEntriesByType('navigation')[0];
                  const at = (name) => performance.getEntriesByName(name)[0].startTime - n.responseStart;
                  return JSON.stringify({usable: at('usable'), drawn: at('drawn')});
                  """));
      frames(
          "desk " + round,
          times.path("usable").asDouble(),
          times.path("drawn").asDouble(),
          driver,
          out);
    }
    for (int i = 0; i < 4; i++) {
      browser.script("document.querySelector('.leaflet-control-zoom-in').click()");
      pause();
    }
    frames("desk 4 zooms closer", Double.NaN, Double.NaN, driver, out);
    browser.open("/defects");
    double peer = ((Number) driver.executeAsyncScript(PEER)).doubleValue();
    frames("leaflet circle markers on canvas", peer, peer, driver, out);
  }

  private static void pause() {
    try {
      Thread.sleep(1_500);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void frames(
      String what, double usable, double drawn, ChromeDriver driver, PrintStream out) {
    double[] times =
        ((java.util.List<?>) driver.executeAsyncScript(DRAG, FRAMES))
            .stream().mapToDouble(t -> ((Number) t).doubleValue()).sorted().toArray();
    out.printf(
        Locale.ROOT,
        "%s,%.0f,%.0f,%.1f,%.1f,%.1f%n",
        what,
        usable,
        drawn,
        times[times.length / 2],
        times[(int) (0.95 * times.length)],
        Arrays.stream(times).max().orElse(0));
  }

  private static JsonNode json(Object text) {
    try {
      return Api.JSON.readTree(String.valueOf(text));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }
}
