package lanemend.web.desk;

import org.openqa.selenium.Keys;
import org.openqa.selenium.interactions.Actions;

/** A person who has a keyboard and nothing else. */
final class Keyboard {
  private static final int MOST_TABS = 400;

  private final DeskBrowser browser;

  Keyboard(DeskBrowser browser) {
    this.browser = browser;
  }

  /** Presses Tab until the focus is on what the selector names; fails when it never comes there. */
  Keyboard tabTo(String selector) {
    for (int i = 0; i < MOST_TABS; i++) {
      if (on(selector)) {
        return seen(selector);
      }
      press(Keys.TAB);
    }
    throw new AssertionError("Tab never comes to " + selector + "; it is on " + focus());
  }

  /** Presses Tab until the focus is on the button or link that reads so. */
  Keyboard tabToText(String text) {
    for (int i = 0; i < MOST_TABS; i++) {
      if (focus().equals(text)) {
        return this;
      }
      press(Keys.TAB);
    }
    throw new AssertionError("Tab never comes to '" + text + "'; it is on " + focus());
  }

  /** Presses Tab until the focus is on a control whose name begins so. */
  Keyboard tabToLabel(String begins) {
    for (int i = 0; i < MOST_TABS; i++) {
      if (label().startsWith(begins)) {
        return this;
      }
      press(Keys.TAB);
    }
    throw new AssertionError("Tab never comes to '" + begins + "'; it is on " + focus());
  }

  /** The name given to what has the focus. */
  String label() {
    return String.valueOf(
        browser.script("return document.activeElement.getAttribute('aria-label') || ''"));
  }

  private boolean on(String selector) {
    return Boolean.TRUE.equals(
        browser.script("return document.activeElement.matches(arguments[0])", selector));
  }

  /** What has the focus must be where a person sees it, and show that it has. */
  private Keyboard seen(String selector) {
    Object there =
        browser.script(
            """
            const e = document.activeElement;
            const r = (e.labels && e.labels[0] || e).getBoundingClientRect();
            return r.bottom > 0 && r.top < innerHeight && r.right > 0 && r.left < innerWidth
              && e.matches(':focus-visible');
            """);
    if (!Boolean.TRUE.equals(there)) {
      throw new AssertionError(selector + " has the focus and is not to be seen");
    }
    return this;
  }

  String focus() {
    return String.valueOf(
        browser.script(
            "const e = document.activeElement; return e.textContent.trim().replace(/\\s+/g, ' ')"));
  }

  Keyboard press(CharSequence... keys) {
    new Actions(browser.driver()).sendKeys(keys).perform();
    return this;
  }

  Keyboard type(String text) {
    return press(text);
  }
}
