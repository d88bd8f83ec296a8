package lanemend.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Runs commands as a user does, in a work folder of the test's own. */
final class Shell {
  /** What a command left behind. */
  record Outcome(int code, String out, String err) {}

  private final Path work;

  Shell(Path work) {
    this.work = work;
  }

  Path work() {
    return work;
  }

  /** Runs a command that takes {@code --work}. */
  Outcome run(String... words) {
    List<String> all = new ArrayList<>(List.of(words));
    all.add("--work");
    all.add(work.toString());
    return plain(all.toArray(String[]::new));
  }

  /** Runs a command as it is. */
  static Outcome plain(String... words) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(new PrintWriter(out, true), new PrintWriter(err, true), words);
    return new Outcome(code, out.toString(), err.toString());
  }
}
