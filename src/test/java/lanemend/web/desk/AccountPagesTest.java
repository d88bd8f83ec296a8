package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import lanemend.accounts.Role;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;

/** Sign-in, account and admin pages in a browser. */
class AccountPagesTest {
  @TempDir static Path folder;
  private static People people;
  private DeskBrowser browser;

  @BeforeAll
  static void open() {
    people = People.at(folder);
  }

  @AfterAll
  static void close() {
    people.close();
  }

  @BeforeEach
  void signedOut() {
    browser = DeskBrowser.on(people.desk());
    browser.driver().manage().deleteAllCookies();
  }

  private void signIn(String path, Role role) {
    browser.driver().get(people.origin() + path);
    browser.await("sign in", () -> browser.one("#s-name").isDisplayed());
    browser.one("#s-name").sendKeys(People.name(role) + Keys.TAB);
    browser.driver().switchTo().activeElement().sendKeys(People.PASSWORD + Keys.ENTER);
    browser.await("the page", () -> browser.driver().getCurrentUrl().endsWith(path));
    browser.await("ready", () -> "true".equals(browser.one("html").getAttribute("data-ready")));
  }

  private void picture(String name) throws IOException {
    String at = System.getProperty("lanemend.pictures");
    if (at != null) {
      Files.write(Path.of(at, name + ".png"), browser.picture());
    }
  }

  @Test
  void byKeyboardAloneSomebodySignsInGoesWhereHeWantedAndOutAgain() throws IOException {
    browser.open("/sign-in");
    browser.assertClean("sign-in", 0);
    picture("sign-in");
    browser.one("#s-name").sendKeys("Invented crew" + Keys.TAB + "wrong" + Keys.ENTER);
    browser.awaitText(".error", "no such name with that password");
    browser.assertClean("refused", 1);
    signIn("/sheets", Role.CREW);
    assertEquals("Invented crew", browser.text("#who"));
    browser.assertClean("sheets", 0);
    browser.press("Sign out");
    browser.await("sign in", () -> browser.driver().getCurrentUrl().endsWith("/sign-in"));
    // and going back in the browser shows nothing of the county
    browser.driver().navigate().back();
    browser.await("sign in", () -> browser.driver().getCurrentUrl().contains("/sign-in"));
  }

  @Test
  void aPageLeavesOutWhatTheRoleMayNotDo() {
    signIn("/days", Role.CREW);
    assertFalse(browser.one("#plan").isDisplayed());
    assertFalse(browser.one("#urgent").isDisplayed());
    assertTrue(browser.one("#changed").isDisplayed());
    browser.await("a zone", () -> browser.one(".zone-card").isDisplayed());
    assertFalse(browser.one(".zone-card button[aria-label^='Move']").isDisplayed());
    assertEquals("false", browser.one(".zone-card").getAttribute("draggable"));
    browser.assertClean("crew days as a crew sees them", 0);
    browser.driver().manage().deleteAllCookies();
    signIn("/days", Role.PLANNER);
    assertTrue(browser.one("#plan").isDisplayed());
    browser.await(
        "a zone", () -> browser.one(".zone-card button[aria-label^='Move']").isDisplayed());
  }

  @Test
  void aSessionThatEndsWhileSomethingIsWrittenDoesNotLoseIt() {
    signIn("/defects", Role.PATROL);
    browser.press("Add a defect");
    browser.one("#f-note").sendKeys("half written");
    people
        .accounts()
        .endSessions(People.name(Role.PATROL), new lanemend.accounts.Accounts.Actor("test", ""));
    browser.press("Add defect");
    browser.await("sign in again", () -> browser.one("#s-password").isDisplayed());
    assertEquals("Invented patrol", browser.one("#s-name").getAttribute("value"));
    browser.assertClean("sign in again", 1);
    browser.one("#s-password").sendKeys(People.PASSWORD + Keys.ENTER);
    browser.awaitText("#say", "still here");
    assertEquals("half written", browser.one("#f-note").getAttribute("value"));
  }

  @Test
  void theAdminAddsSomebodyWhoChoosesAPasswordOfHisOwn() throws IOException {
    signIn("/accounts", Role.ADMIN);
    browser.assertClean("accounts", 0);
    browser.press("Add an account");
    browser.assertClean("add an account", 0);
    browser.one("#a-name").sendKeys("Pat Newman");
    browser.one("#a-password").sendKeys("short");
    browser.press("Add");
    browser.awaitText("dialog .error", "12 to 200");
    browser.one("#a-password").clear();
    browser.one("#a-password").sendKeys("first one for pat");
    picture("account-add");
    browser.press("Add");
    browser.awaitText("#list", "Pat Newman");
    browser.awaitText("#audit", "Account added");
    browser.assertClean("added", 1);
    picture("accounts");
    browser.driver().manage().deleteAllCookies();
    browser.open("/sign-in");
    browser.one("#s-name").sendKeys("Pat Newman" + Keys.TAB + "first one for pat" + Keys.ENTER);
    browser.awaitText("#password-title", "Choose a password of your own");
    browser.one("#present").sendKeys("first one for pat");
    browser.one("#one").sendKeys("eleven brass kettles");
    browser.one("#two").sendKeys("eleven brass kettles");
    browser.assertClean("first password", 0);
    picture("account");
    browser.press("Change password");
    browser.awaitText("#password-title", "Change your password");
    browser.open("/map");
    assertEquals("Pat Newman", browser.text("#who"));
  }

  private List<WebElement> all(String selector) {
    return browser.driver().findElements(By.cssSelector(selector));
  }

  /** Reads the squares off the screen as a phone's camera does, with a library of its own. */
  private String readSquares() throws Exception {
    var image = javax.imageio.ImageIO.read(new java.io.ByteArrayInputStream(browser.picture()));
    int[] pixels =
        image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth());
    var source =
        new com.google.zxing.RGBLuminanceSource(image.getWidth(), image.getHeight(), pixels);
    return new com.google.zxing.MultiFormatReader()
        .decode(
            new com.google.zxing.BinaryBitmap(new com.google.zxing.common.HybridBinarizer(source)))
        .getText();
  }

  @Test
  void aSecondFactorIsSetUpAndUsedByKeyboardAlone() throws Exception {
    people
        .accounts()
        .add(
            "Sam Second",
            java.util.Set.of(Role.CREW),
            People.PASSWORD,
            true,
            new lanemend.accounts.Accounts.Actor("test", ""));
    browser.open("/sign-in");
    browser.one("#s-name").sendKeys("Sam Second" + Keys.TAB + People.PASSWORD + Keys.ENTER);
    browser.await("signed in", () -> !browser.driver().getCurrentUrl().contains("sign-in"));
    browser.open("/account");
    browser.awaitText("#sessions", "This one");
    browser.assertClean("account", 0);
    picture("account-second-none");
    browser.press("Set up");
    browser.one("#a-present").sendKeys(People.PASSWORD + Keys.ENTER);
    browser.await("the key", () -> !all("#key").isEmpty());
    String key = browser.text("#key").replace(" ", "");
    assertEquals(
        "otpauth://totp/Lanemend:Sam%20Second?secret=" + key + "&issuer=Lanemend", readSquares());
    browser.assertClean("the key", 0);
    picture("account-second-key");
    browser.one("#a-code").sendKeys(SecondFactorApiTest.code(key, 0) + Keys.ENTER);
    browser.await("recovery codes", () -> all(".recovery li").size() == 10);
    browser.assertClean("recovery codes", 0);
    picture("account-second-recovery");
    String recovery = all(".recovery li").get(0).getText();
    browser.press("I have them");
    browser.awaitText("#second", "10 recovery codes are left");
    browser.press("Sign out");
    browser.await("sign in", () -> browser.driver().getCurrentUrl().endsWith("/sign-in"));
    browser.one("#s-name").sendKeys("Sam Second" + Keys.TAB + People.PASSWORD + Keys.ENTER);
    browser.awaitText(".error", "the code of your second factor is wanted");
    browser.assertClean("code wanted", 1);
    picture("sign-in-code");
    browser.driver().switchTo().activeElement().sendKeys(recovery + Keys.ENTER);
    browser.await("signed in", () -> !browser.driver().getCurrentUrl().contains("sign-in"));
  }

  @Test
  void aSessionLeftOpenElsewhereIsEndedFromTheAccountPage() throws IOException {
    String elsewhere = People.cookie(people.signIn(People.name(Role.PLANNER), People.PASSWORD));
    signIn("/account", Role.PLANNER);
    browser.await("two", () -> all("#sessions tbody tr").size() == 2);
    browser.one("#sessions tbody button").sendKeys(Keys.ENTER);
    browser.one("#a-present").sendKeys("wrong" + Keys.ENTER);
    browser.awaitText("dialog .error", "the present password is not right");
    browser.one("#a-present").clear();
    browser.one("#a-present").sendKeys(People.PASSWORD + Keys.ENTER);
    browser.await("one", () -> all("#sessions tbody tr").size() == 1);
    browser.assertClean("one session", 1);
    picture("account-sessions");
    assertEquals(
        401,
        people
            .desk()
            .send(
                java.net.http.HttpRequest.newBuilder(people.desk().at("/api/county"))
                    .header("Cookie", elsewhere)
                    .GET())
            .status());
  }

  @Test
  void onAPhoneAndInTheDarkThePagesKeepTheRules() throws IOException {
    browser.size(390, 844);
    browser.open("/sign-in");
    browser.assertClean("sign-in on a phone", 0);
    signIn("/account", Role.ADMIN);
    browser.press("Dark");
    browser.assertClean("account on a phone, dark", 0);
    picture("account-phone-dark");
    browser.open("/accounts");
    browser.assertClean("accounts on a phone, dark", 0);
    picture("accounts-phone-dark");
    browser.press("Dark");
  }
}
