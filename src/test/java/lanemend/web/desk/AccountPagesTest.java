package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import lanemend.accounts.Role;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

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
