package lanemend.web.desk;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Collectors;

/**
 * The page for a phone at the roadside, which works without a network. Its worker keeps the files
 * below in the browser; the worker's text holds a digest of them, so that a browser fetches all of
 * them anew, and only then, when one has changed.
 */
final class PatrolPage {
  private static final String ADDRESS = "/patrol";

  private static final List<String> FILES =
      List.of(
          "shared/shell.css",
          "shared/theme.js",
          "shared/api.js",
          "shared/page.js",
          "shared/dialog.js",
          "shared/marks.js",
          "shared/photo.js",
          "patrol/page.css",
          "patrol/page.js",
          "patrol/place.js",
          "patrol/roads.js",
          "shared/kept.js",
          "shared/send.js",
          "shared/entries.js");

  private final String html = text("patrol/patrol.html");
  private final String worker;

  PatrolPage() {
    String addresses =
        FILES.stream().map(f -> "'/desk/" + f + "'").collect(Collectors.joining(",\n  "));
    worker =
        text("patrol/worker.js")
            .replace("{{version}}", version())
            .replace("{{files}}", "'" + ADDRESS + "',\n  " + addresses);
  }

  void addTo(Api api) {
    api.page(ADDRESS, c -> c.html(html).header("Cache-Control", "no-cache"));
    api.page(
        ADDRESS + "/worker.js",
        c ->
            c.contentType("text/javascript")
                .header("Cache-Control", "no-cache")
                .header("Service-Worker-Allowed", ADDRESS)
                .result(worker));
  }

  private String version() {
    try {
      MessageDigest sha = MessageDigest.getInstance("SHA-256");
      sha.update(html.getBytes(StandardCharsets.UTF_8));
      FILES.forEach(f -> sha.update(text(f).getBytes(StandardCharsets.UTF_8)));
      return HexFormat.of().formatHex(sha.digest()).substring(0, 16);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  private static String text(String file) {
    try (InputStream in = PatrolPage.class.getResourceAsStream(Pages.ROOT + "/" + file)) {
      if (in == null) {
        throw new IllegalStateException("the program was built without " + file);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
