package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Pages put together from {@code shared/shell.html} and their own {@code main.html}, so that each
 * has its whole header before any script runs: with who is signed in, and which routes the page is
 * to leave out for that user.
 */
final class Pages {
  /** Where the pages' files are on the class path. */
  static final String ROOT = "/lanemend/desk";

  /** Also of what is exported from elsewhere; the address is the first group. */
  private static final Pattern IMPORT =
      Pattern.compile(
          "^(?:import|export) (?:[^;'\"]* from )?['\"]([^'\"]+)['\"]", Pattern.MULTILINE);

  private final String shell = text("shared/shell.html");
  private final Map<String, String> mains = new HashMap<>();
  private final Map<String, String> modules = new HashMap<>();
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
    modules.put(folder, preloads("/desk/shared/shell.js", "/desk/" + folder + "/page.js"));
    api.page(
        "/" + folder,
        c ->
            c.html(html(c, folder, title))
                .header("Cache-Control", access.signInOn() ? "no-store" : "no-cache"));
  }

  /**
   * Lines that have a browser fetch at once what it would else learn of script by script: all that
   * these scripts import.
   */
  private static String preloads(String... scripts) {
    Deque<String> open = new ArrayDeque<>(List.of(scripts));
    Set<String> all = new LinkedHashSet<>();
    while (!open.isEmpty()) {
      String script = open.remove();
      if (all.add(script)) {
        Matcher imported = IMPORT.matcher(script(script));
        while (imported.find()) {
          open.add(URI.create(script).resolve(imported.group(1)).getPath());
        }
      }
    }
    // What is largest first: a library.
    return all.stream()
        .sorted(Comparator.comparing(s -> s.startsWith("/desk/")))
        .map(s -> "<link rel=\"modulepreload\" href=\"" + s + "\">\n")
        .collect(Collectors.joining());
  }

  private static String script(String address) {
    return address.startsWith("/desk/")
        ? text(address.substring("/desk/".length()))
        : resource("/META-INF/resources" + address);
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
        .replace("{{main}}", mains.get(folder))
        .replace("{{modules}}", county(caller) + modules.get(folder));
  }

  /** The header of each page says whose county it is; most pages ask for more of it first. */
  private static String county(Caller caller) {
    return AccessTable.notFor(caller).contains("get /api/county")
        ? ""
        : "<link rel=\"preload\" as=\"fetch\" href=\"/api/county\" crossorigin>\n";
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
    return resource(ROOT + "/" + file);
  }

  private static String resource(String file) {
    try (InputStream in = Pages.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException("the program was built without " + file);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
