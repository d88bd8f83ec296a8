package lanemend.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Properties;
import picocli.CommandLine.IVersionProvider;

/** {@code --version}: what this program was built from. The same source gives the same line. */
final class Version implements IVersionProvider {

  @Override
  public String[] getVersion() {
    return new String[] {"lanemend " + text()};
  }

  /** For instance {@code 0.1.0 (commit 1a2b3c4 of 2026-11-25)}. */
  static String text() {
    Properties built = new Properties();
    try (InputStream in = Version.class.getResourceAsStream("/lanemend/build.properties")) {
      if (in == null) {
        throw new IllegalStateException("the program was built without lanemend/build.properties");
      }
      built.load(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    String commit = built.getProperty("commit", "");
    String of =
        commit.isEmpty() || commit.startsWith("$")
            ? "built without its repository"
            : "commit "
                + commit
                + " of "
                + built.getProperty("date")
                + ("true".equals(built.getProperty("changed")) ? ", with changes" : "");
    String version = built.getProperty("version");
    // Not filled in by a compiler that Maven did not start.
    return (version.startsWith("$") ? "unreleased" : version) + " (" + of + ")";
  }
}
