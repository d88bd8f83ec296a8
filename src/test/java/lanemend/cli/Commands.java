package lanemend.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;

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

  /** Brings an invented county's files in, without planning. */
  public static void importCounty(Path files, Path work) {
    String w = work.toString();
    run(
        "import",
        "roads",
        files.resolve("roads.geojson").toString(),
        "--speed-unit",
        "mph",
        "--field",
        "class=road_class",
        "--field",
        "speed=posted_mph",
        "--field",
        "lane_width_ft=lane_ft",
        "--work",
        w);
    for (String step : List.of("posts", "attributes", "defects", "findings", "patches")) {
      run("import", step, files.resolve(step + ".csv").toString(), "--work", w);
    }
    run("import", "agency", files.resolve("agency.json").toString(), "--work", w);
  }
}
