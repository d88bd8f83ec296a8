package lanemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code sample}: writes an invented county. */
@Command(
    name = "sample",
    description =
        "Write an invented county to try things on: the same seed and size give the same files.")
final class SampleCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FOLDER",
      description = "where to write; 'run' takes this folder")
  private Path out;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "" + SampleCounty.STANDARD_SEED,
      description = "seed (default: ${DEFAULT-VALUE})")
  private long seed;

  @Option(
      names = "--defects",
      paramLabel = "N",
      description =
          "open defects; roads, yards, plants and crews grow with them (default: the standard"
              + " county)")
  private Integer defects;

  @Override
  public Integer call() {
    Refusal.unless(defects == null || defects >= 0, "--defects", defects, "0 or more");
    SampleSize size = defects == null ? SampleSize.STANDARD : SampleSize.withDefects(defects);
    try {
      SampleCounty.write(out, size, seed);
    } catch (IOException e) {
      throw new Refusal("the county cannot be written in " + out + ": " + e.getMessage());
    }
    spec.commandLine().getOut().println("an invented county is in " + out);
    return ExitCode.DONE;
  }
}
