package lanemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.accounts.Accounts;
import lanemend.accounts.AccountsCopy;
import lanemend.store.Backups;
import lanemend.store.StoreBackup;
import lanemend.store.StoreException;
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
          + " on another disk: --to names it. Photos are in the store and so in its copy.",
      "",
      "Where accounts were added, they are copied at the same moment to NAME.accounts.db beside it,"
          + " which only its owner can read: it holds the hashes of passwords. Keep it to yourself"
          + " when the store's copy is given away."
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

  @Option(
      names = "--folder",
      paramLabel = "FOLDER",
      description =
          "folder of the copies when --to names none (default: backups in the work folder)")
  private Path folder;

  @Option(
      names = "--keep",
      paramLabel = "N",
      description =
          "after the copy, delete the oldest dated copies of this store in the folder until N are"
              + " left (default: none is deleted)")
  private Integer keep;

  @Override
  public Integer call() {
    if (keep != null && to != null) {
      throw new Refusal("--keep is for dated copies: give it with --folder, not with --to");
    }
    Refusal.unless(keep == null || keep >= 1, "--keep", keep, "1 or more");
    work.requireStore();
    PrintWriter out = spec.commandLine().getOut();
    copy(to == null ? dated() : to, out);
    if (keep != null) {
      // Only now: should the copy fail, there are as many as before.
      for (Path old : new Backups(copies(), work.storeFile()).keepNewest(keep)) {
        out.println("  deleted the old copy " + old);
        delete(AccountsCopy.beside(old));
      }
    }
    return ExitCode.DONE;
  }

  /**
   * The accounts first and the store at once after them: a store's copy never lacks its accounts.
   */
  private void copy(Path file, PrintWriter out) {
    if (!Accounts.areIn(work.folder())) {
      print(StoreBackup.copy(work.storeFile(), file), out);
      return;
    }
    Path accounts = AccountsCopy.beside(file);
    AccountsCopy.Content content = AccountsCopy.copy(work.folder(), accounts);
    try {
      print(StoreBackup.copy(work.storeFile(), file), out);
    } catch (StoreException e) {
      delete(accounts);
      throw e;
    }
    out.printf(
        Locale.ROOT,
        "accounts   %s: %,d accounts, %,d audit lines; for its owner only%n",
        accounts,
        content.accounts(),
        content.auditLines());
  }

  private static void delete(Path accounts) {
    try {
      Files.deleteIfExists(accounts);
    } catch (IOException e) {
      throw new Refusal(accounts + " cannot be deleted: " + e.getMessage());
    }
  }

  private Path copies() {
    return folder == null ? work.folderOf("backups") : folder;
  }

  private Path dated() {
    return copies().resolve(StoreBackup.nameAt(work.storeFile(), "", Instant.now()));
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
