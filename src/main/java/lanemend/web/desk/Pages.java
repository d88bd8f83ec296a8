package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;

/**
 * Pages put together from {@code shared/shell.html} and their own {@code main.html}, so that each
 * has its whole header before any script runs: with who is signed in, and which routes the page is
 * to leave out for that user.
 */
final class Pages {
  /** Where the pages' files are on the class path. */
  static final String ROOT = "/lanemend/desk";

  private final String shell = text("shared/shell.html");
  private final Map<String, String> mains = new HashMap<>();
  private final Access access;

  Pages(Access access) {
    this.access = access;
  }

  void addTo(Api api) {
    api.page("/", c -> c.redirect("/" + Page.MAP.folder));
    for (Page page : Page.values()) {
      add(api, page.folder, page.title);
    }
    String entry = text("shared/entry.html");
    api.page("/sign-in", c -> c.html(entry).header("Cache-Control", "no-store"));
    add(api, "account", "Account");
    add(api, "accounts", "Accounts");
  }

  private void add(Api api, String folder, String title) {
    mains.put(folder, text(folder + "/main.html"));
    api.page(
        "/" + folder,
        c ->
            c.html(html(c, folder, title))
                .header("Cache-Control", access.signInOn() ? "no-store" : "no-cache"));
  }

  private String html(Context c, String folder, String title) {
    Caller caller = Caller.of(c);
    StringBuilder links = new StringBuilder();
    for (Page p : Page.values()) {
      AccessTable.Rule rule = AccessTable.rule("get /" + p.folder);
      if (rule != null && rule.roles().stream().anyMatch(caller::is)) {
        links
            .append("<li><a href=\"/")
            .append(p.folder)
            .append(p.folder.equals(folder) ? "\" aria-current=\"page\">" : "\">")
            .append(p.title)
            .append("</a></li>\n");
      }
    }
    return shell
        .replace("{{title}}", title)
        .replace("{{folder}}", folder)
        .replace("{{pages}}", links)
        .replace("{{not}}", String.join("|", AccessTable.notFor(caller)))
        .replace("{{account}}", account(caller, folder))
        .replace("{{main}}", mains.get(folder));
  }

  /** The name leads to the account's page; nothing where nobody signs in. */
  private static String account(Caller caller, String folder) {
    if (!caller.signedIn()) {
      return "";
    }
    boolean here = folder.startsWith("account");
    return "<a class=\"who\" id=\"who\" href=\"/account\""
        + (here ? " aria-current=\"page\">" : ">")
        + caller.name().replace("&", "&amp;").replace("<", "&lt;")
        + "</a>\n<button type=\"button\" class=\"quiet\" id=\"sign-out\">Sign out</button>";
  }

  /** A file of the pages, by its path under {@link #ROOT}. */
  static String text(String file) {
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
