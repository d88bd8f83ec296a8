package lanemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import lanemend.accounts.Accounts;
import lanemend.accounts.AccountsCopy;
import lanemend.store.Store;
import lanemend.store.StoreBackup;
import lanemend.store.StoreException;
import lanemend.store.StoreState;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code restore}: a backup copy in place of the store. */
@Command(
    name = "restore",
    description = {
      "Put a backup copy in the place of the store.",
      "",
      "A store that is there already is replaced only when --replace says so, and is then kept"
          + " beside it under another name. Close other programs that have the store open first. The"
          + " copy is checked before, the store after.",
      "",
      "--try puts the copy into a folder of its own, opens and checks it there, and takes it away"
          + " again: what a copy is worth, without touching anything."
    })
final class RestoreCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Parameters(paramLabel = "FILE", description = "a copy that 'backup' made")
  private Path backup;

  @Option(names = "--replace", description = "put it over the store that is there")
  private boolean replace;

  @Option(
      names = "--accounts",
      description =
          "put back the copy's accounts too where there are accounts; they stay as they are else, so"
              + " that nobody who was removed comes back unasked")
  private boolean accounts;

  @Option(names = "--try", description = "only see whether the copy could be put back")
  private boolean attempt;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    if (attempt) {
      return attempt(out);
    }
    if (work.hasStore() && !replace) {
      throw new Refusal(
          "there is a store in "
              + work.folder()
              + (behind().isEmpty() ? "" : ", " + behind())
              + ": say --replace to put the copy in its place, it is kept beside it then");
    }
    Path copy = AccountsCopy.beside(backup);
    boolean there = Accounts.areIn(work.folder());
    boolean putBack = Files.exists(copy) && (accounts || !there);
    if (accounts && !putBack) {
      throw new Refusal("the copy has no accounts: there is no " + copy);
    }
    if (putBack) {
      // Before the store is touched: both come back or neither.
      AccountsCopy.check(copy);
      AccountsCopy.requireClosed(work.folder());
    }
    StoreBackup.Restored done = StoreBackup.restore(backup, work.storeFile());
    out.printf(Locale.ROOT, "restored   %s from %s: %,d rows%n", done.store(), backup, done.rows());
    done.setAside().ifPresent(f -> out.println("  note: the store that was there is now " + f));
    if (putBack) {
      restoreAccounts(copy, out);
    } else if (there) {
      out.println(
          "  note: the accounts of this folder stay as they are"
              + (Files.exists(copy) ? "; --accounts puts back the copy's" : ""));
    } else {
      out.println("  note: the copy has no accounts; 'account add' makes them");
    }
    return CheckCommand.checkFile(work.storeFile(), out);
  }

  private void restoreAccounts(Path copy, PrintWriter out) {
    Optional<Path> aside =
        AccountsCopy.restore(copy, work.folder(), new Accounts.Actor(work.who(), ""));
    AccountsCopy.Content content = AccountsCopy.check(work.folder().resolve(Accounts.FILE));
    out.printf(
        Locale.ROOT,
        "accounts   %,d put back from %s; who was removed since can sign in again: see 'account"
            + " list'%n",
        content.accounts(),
        copy);
    aside.ifPresent(f -> out.println("  note: the accounts that were there are now " + f));
  }

  /** How much is in the store that is not in the copy, where that can be told. */
  private String behind() {
    try (Store now = Store.open(work.storeFile())) {
      long more = StoreState.of(now).lastEdit() - StoreBackup.lastEdit(backup);
      return more > 0 ? "with " + more + " changes more than the copy" : "";
    } catch (StoreException e) {
      return "which cannot be read";
    }
  }

  private Integer attempt(PrintWriter out) {
    Path folder = null;
    try {
      folder = Files.createTempDirectory("lanemend-restore");
      Path store = folder.resolve("lanemend.gpkg");
      StoreBackup.Restored done = StoreBackup.restore(backup, store);
      out.printf(Locale.ROOT, "tried      %s: %,d rows could be put back%n", backup, done.rows());
      Path copy = AccountsCopy.beside(backup);
      if (Files.exists(copy)) {
        AccountsCopy.restore(copy, folder, new Accounts.Actor(work.who(), ""));
        out.printf(
            Locale.ROOT,
            "accounts   %,d could be put back%n",
            AccountsCopy.check(folder.resolve(Accounts.FILE)).accounts());
      } else {
        out.println("  note: the copy has no accounts");
      }
      return CheckCommand.checkFile(store, out);
    } catch (IOException e) {
      throw new Refusal("no folder can be made to try it in: " + e.getMessage());
    } finally {
      delete(folder);
    }
  }

  private static void delete(Path folder) {
    if (folder == null) {
      return;
    }
    try (Stream<Path> files = Files.list(folder)) {
      for (Path f : files.toList()) {
        Files.delete(f);
      }
      Files.delete(folder);
    } catch (IOException e) {
      throw new Refusal(folder + " cannot be taken away again: " + e.getMessage());
    }
  }
}
