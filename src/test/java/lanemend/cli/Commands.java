package lanemend.cli;

import java.io.PrintWriter;
import java.io.StringWriter;

/** Commands for tests of other folders that begin where a command ends. */
public final class Commands {
  private Commands() {}

  /** Runs one command; fails with what it said when it does not end well. */
  public static String run(String... words) {
    StringWriter said = new StringWriter();
    PrintWriter out = new PrintWriter(said, true);
    int code = Main.run(out, out, words);
    if (code != ExitCode.DONE) {
      throw new AssertionError(String.join(" ", words) + " ended with " + code + ": " + said);
    }
    return said.toString();
  }
}
