package lanemend.web.desk;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Pictures of pages to be looked at, kept where {@code -Dlanemend.pictures=FOLDER} says. */
final class Pictures {
  private static final String FOLDER = System.getProperty("lanemend.pictures");

  private Pictures() {}

  static void keep(DeskBrowser browser, String name) {
    if (FOLDER != null) {
      try {
        Files.createDirectories(Path.of(FOLDER));
        Files.write(Path.of(FOLDER, name + ".png"), browser.picture());
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
