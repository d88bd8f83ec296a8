package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.store.StoreBackup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code restore}: a backup copy in place of the store. */
@Command(
    name = "restore",
    description = {
      "Put a backup copy in the place of the store.",
      "",
      "The store that is there now is kept beside it under another name. Close other programs that"
          + " have the store open first."
    })
final class RestoreCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Parameters(paramLabel = "FILE", description = "a copy that 'backup' made")
  private Path backup;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    StoreBackup.Restored done = StoreBackup.restore(backup, work.storeFile());
    out.printf(Locale.ROOT, "restored   %s from %s: %,d rows%n", done.store(), backup, done.rows());
    done.setAside().ifPresent(f -> out.println("  note: the store that was there is now " + f));
    return ExitCode.DONE;
  }
}
