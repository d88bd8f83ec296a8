package lanemend.web.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/** Starts a page for letter paper: one file that refers to nothing outside itself. */
public final class Letter {
  private Letter() {}

  /**
   * A page open at its body, with the style all pages share.
   *
   * @param css added to the shared style
   * @param footer printed at the foot of every sheet of paper; empty for none
   */
  public static Xhtml open(String title, String css, String footer) {
    Xhtml page = new Xhtml();
    page.open("html", "xmlns", "http://www.w3.org/1999/xhtml", "lang", "en");
    page.open("head").empty("meta", "charset", "UTF-8");
    page.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
    page.leaf("title", title);
    page.leaf("style", style(Letter.class, "letter.css") + css + footer(footer)).close();
    page.open("body");
    return page;
  }

  /** A style sheet that lies beside a class. */
  public static String style(Class<?> beside, String name) {
    try (InputStream in = beside.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Its text comes from data, so every character but plain ones is escaped. */
  private static String footer(String text) {
    if (text.isEmpty()) {
      return "";
    }
    StringBuilder css =
        new StringBuilder(
            "@page { @bottom-left { font: 8pt Helvetica, sans-serif; color: #333333; content: \"");
    text.codePoints()
        .forEach(
            c -> {
              if (c < 128 && (Character.isLetterOrDigit(c) || c == ' ')) {
                css.appendCodePoint(c);
              } else if (c >= ' ') {
                css.append(String.format(Locale.ROOT, "\\%06x ", c));
              }
            });
    return css.append("\"; } }\n").toString();
  }
}
