package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.logging.Level;
import org.openqa.selenium.By;
import org.openqa.selenium.JavascriptException;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LoggingPreferences;

/**
 * A real browser without a screen, one for all tests. Where Chromium or its driver is missing the
 * tests that ask for it are reported as skipped.
 */
final class DeskBrowser {
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final Duration PATIENCE = Duration.ofSeconds(60);
  private static ChromeDriver shared;

  private final ChromeDriver driver;
  private final String home;

  private DeskBrowser(ChromeDriver driver, String home) {
    this.driver = driver;
    this.home = home;
  }

  /** The browser, set to a desk. */
  static synchronized DeskBrowser on(SmallDesk desk) {
    assumeTrue(Files.isExecutable(CHROMIUM), "no " + CHROMIUM);
    assumeTrue(Files.isExecutable(DRIVER), "no " + DRIVER);
    if (shared == null) {
      shared = start();
      Runtime.getRuntime().addShutdownHook(new Thread(shared::quit));
    }
    DeskBrowser browser = new DeskBrowser(shared, desk.address());
    browser.size(1440, 900);
    browser.drain();
    return browser;
  }

  /** A browser of one's own. */
  static ChromeDriver start() {
    ChromeOptions options = new ChromeOptions();
    options.setBinary(CHROMIUM.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--disable-dev-shm-usage",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--user-data-dir=" + temporary());
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable("browser", Level.ALL);
    logs.enable("performance", Level.ALL);
    options.setCapability("goog:loggingPrefs", logs);
    ChromeDriverService service =
        new ChromeDriverService.Builder().usingDriverExecutable(DRIVER.toFile()).build();
    return new ChromeDriver(service, options);
  }

  /** A browser of one's own, set to an address that ends in a slash. */
  static DeskBrowser at(ChromeDriver driver, String home) {
    return new DeskBrowser(driver, home);
  }

  private static Path temporary() {
    try {
      return Files.createTempDirectory("lanemend-browser");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  ChromeDriver driver() {
    return driver;
  }

  /** Sets the window as a page sees it. */
  void size(int width, int height) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", width < 600));
  }

  /** Opens a page and waits until it says that it is ready. */
  DeskBrowser open(String path) {
    driver.get(home + path.substring(1));
    await("page " + path, () -> ask("return document.documentElement.dataset.ready === 'true'"));
    return this;
  }

  private boolean ask(String script) {
    return Boolean.TRUE.equals(driver.executeScript(script));
  }

  Object script(String script, Object... arguments) {
    return driver.executeScript(script, arguments);
  }

  /** Waits until it is so; fails with the page's text when it never is. */
  void await(String what, Supplier<Boolean> isSo) {
    long end = System.nanoTime() + PATIENCE.toNanos();
    while (System.nanoTime() < end) {
      try {
        if (isSo.get()) {
          return;
        }
        Thread.sleep(40);
      } catch (NoSuchElementException | StaleElementReferenceException | JavascriptException e) {
        // Not drawn yet, or just drawn anew: look again.
        Thread.onSpinWait();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException(e);
      }
    }
    throw new AssertionError(
        "never seen: " + what + "; the page says: " + text("body") + "; console: " + console());
  }

  void awaitText(String selector, String part) {
    await("'" + part + "' in " + selector, () -> text(selector).contains(part));
  }

  String text(String selector) {
    return one(selector).getText();
  }

  WebElement one(String selector) {
    return driver.findElement(By.cssSelector(selector));
  }

  /** The button or link that reads so. */
  WebElement button(String text) {
    return driver.findElement(
        By.xpath(
            "//*[self::button or self::a][normalize-space()='"
                + text
                + "'][not(ancestor-or-self::*[@hidden])]"));
  }

  void press(String buttonText) {
    await("button " + buttonText, () -> button(buttonText).isDisplayed());
    button(buttonText).click();
  }

  byte[] picture() {
    return driver.getScreenshotAs(OutputType.BYTES);
  }

  private void drain() {
    console();
    requests();
  }

  private List<String> console() {
    List<String> lines = new ArrayList<>();
    for (LogEntry entry : driver.manage().logs().get("browser")) {
      lines.add(entry.getLevel() + " " + entry.getMessage());
    }
    return lines;
  }

  private List<String> requests() {
    List<String> urls = new ArrayList<>();
    for (LogEntry entry : driver.manage().logs().get("performance")) {
      try {
        JsonNode message = Api.JSON.readTree(entry.getMessage()).path("message");
        if (message.path("method").asText().equals("Network.requestWillBeSent")) {
          urls.add(message.at("/params/request/url").asText());
        }
      } catch (JsonProcessingException e) {
        throw new IllegalStateException(e);
      }
    }
    return urls;
  }

  /**
   * Fails when the page broke a rule of WCAG 2.1 A or AA that axe-core knows, wrote to the console,
   * or asked any other host.
   *
   * @param refusals how many answers of the desk were meant to be refusals, which the browser logs
   */
  void assertClean(String what, int refusals) {
    // Read before the rules are checked, which itself writes to the console.
    List<String> console =
        new ArrayList<>(console().stream().filter(l -> !l.startsWith("INFO")).toList());
    assertEquals(List.of(), broken(), what + ": WCAG 2.1 AA by axe-core");
    console();
    for (int i = 0; i < refusals; i++) {
      console.stream()
          .filter(l -> l.contains("Failed to load resource"))
          .findFirst()
          .ifPresent(console::remove);
    }
    assertEquals(List.of(), console, what + ": console");
    List<String> outside =
        requests().stream()
            .filter(u -> !u.startsWith(home) && !u.startsWith("data:") && !u.startsWith("blob:"))
            .filter(u -> !u.startsWith("chrome"))
            .toList();
    assertEquals(List.of(), outside, what + ": asked other hosts");
  }

  private List<String> broken() {
    driver.executeScript(axe());
    Object found =
        driver.executeAsyncScript(
            """
            const done = arguments[arguments.length - 1];
            axe.run(document, {preload: false, runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa']})
              .then((r) => done(JSON.stringify(r.violations.map((v) => v.id + ': ' + v.help + ' at '
                + v.nodes.map((n) => n.target + ' ' + n.failureSummary).slice(0, 4).join(' | ')))))
              .catch((e) => done(JSON.stringify(['axe failed: ' + e])));
            """);
    try {
      List<String> lines = new ArrayList<>();
      Api.JSON.readTree(String.valueOf(found)).forEach(n -> lines.add(n.asText()));
      return lines;
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String axe() {
    try (InputStream in = DeskBrowser.class.getResourceAsStream("/axe.min.js")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
