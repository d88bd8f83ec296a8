package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.store.StoreBackup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code backup}: a copy of the store, also while others work in it. */
@Command(
    name = "backup",
    description = {
      "Copy the store as it is now, also while others work in it.",
      "",
      "The copy gets its name only after every row of it was compared with the store's. Keep copies"
          + " on another disk: --to names it."
    })
final class BackupCommand implements Callable<Integer> {
  private static final double BYTES_PER_MB = 1e6;

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(
      names = "--to",
      paramLabel = "FILE",
      description = "the copy's file (default: backups/NAME-TIME.gpkg in the work folder)")
  private Path to;

  @Override
  public Integer call() {
    work.requireStore();
    print(
        StoreBackup.copy(work.storeFile(), to == null ? place(work, "") : to),
        spec.commandLine().getOut());
    return ExitCode.DONE;
  }

  static Path place(WorkFolder work, String what) {
    return work.folderOf("backups")
        .resolve(StoreBackup.nameAt(work.storeFile(), what, Instant.now()));
  }

  static void print(StoreBackup.Copied made, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "backup     %s: %.1f MB, %,d rows, each compared with the store's%n",
        made.file(),
        made.bytes() / BYTES_PER_MB,
        made.rows());
  }
}
