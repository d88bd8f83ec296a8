package lanemend.web.desk;

import io.javalin.config.RoutesConfig;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/**
 * Pages put together from {@code shared/shell.html} and their own {@code main.html}, so that each
 * has its whole header before any script runs.
 */
final class Pages {
  /** Where the pages' files are on the class path. */
  static final String ROOT = "/lanemend/desk";

  private final String shell = text("shared/shell.html");

  void addTo(RoutesConfig routes) {
    routes.get("/", c -> c.redirect("/" + Page.MAP.folder));
    for (Page page : Page.values()) {
      String html = html(page);
      routes.get("/" + page.folder, c -> c.html(html).header("Cache-Control", "no-cache"));
    }
  }

  private String html(Page page) {
    StringBuilder links = new StringBuilder();
    for (Page p : Page.values()) {
      links
          .append("<li><a href=\"/")
          .append(p.folder)
          .append(p == page ? "\" aria-current=\"page\">" : "\">")
          .append(p.title)
          .append("</a></li>\n");
    }
    return shell
        .replace("{{title}}", page.title)
        .replace("{{folder}}", page.folder)
        .replace("{{pages}}", links)
        .replace("{{main}}", text(page.folder + "/main.html"));
  }

  private static String text(String file) {
    try (InputStream in = Pages.class.getResourceAsStream(ROOT + "/" + file)) {
      if (in == null) {
        throw new IllegalStateException("the program was built without " + ROOT + "/" + file);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
