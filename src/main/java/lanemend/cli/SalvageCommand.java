package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.store.Store;
import lanemend.store.StoreBackup;
import lanemend.store.StoreRepair;
import lanemend.store.StoreSalvage;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code salvage}: what can be read of a damaged store, in a new file. */
@Command(
    name = "salvage",
    description = {
      "Take what can be read of a damaged store into a new file; the damaged one stays as it is.",
      "",
      "For when there is no backup copy, or too old a one. Rows of pages that cannot be read are"
          + " taken from the change log where it has them. Look at the new file with 'restore --try',"
          + " then put it back with 'restore --replace'."
    })
final class SalvageCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(
      names = "--to",
      paramLabel = "FILE",
      description = "the new file (default: NAME-salvaged-TIME.gpkg in the work folder)")
  private Path to;

  @Override
  public Integer call() {
    work.requireStore();
    PrintWriter out = spec.commandLine().getOut();
    Path file =
        to == null
            ? work.folder()
                .resolve(StoreBackup.nameAt(work.storeFile(), "-salvaged", Instant.now()))
            : to;
    StoreSalvage.Saved saved = StoreSalvage.run(work.storeFile(), file);
    out.printf(
        Locale.ROOT,
        "salvage    %s: %,d rows read, %,d more from the change log%n",
        saved.file(),
        saved.rows(),
        saved.fromLog());
    new Report(out, out).list(saved.lost(), "  lost: ");
    try (Store store = Store.open(saved.file())) {
      // What follows from the rest, for instance points drawn along a road.
      StoreRepair.repair(store, work.who()).done().forEach(d -> out.println("  repaired: " + d));
    }
    int checked = CheckCommand.checkFile(saved.file(), out);
    out.println("next       restore --replace " + saved.file());
    return checked;
  }
}
