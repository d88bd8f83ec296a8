package lanemend.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.stream.Stream;
import lanemend.network.ProjectedCrs;
import lanemend.store.Store;
import lanemend.store.StoreException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Where a command works: the folder that holds the store, the sheets and the exports. */
final class WorkFolder {
  @Spec(Spec.Target.MIXEE)
  private CommandSpec mixee;

  @Option(
      names = "--work",
      paramLabel = "FOLDER",
      defaultValue = "lanemend-work",
      description = "folder that holds the store, sheets and exports (default: ${DEFAULT-VALUE})")
  private Path folder;

  @Option(
      names = "--who",
      paramLabel = "NAME",
      defaultValue = "${sys:user.name}",
      description = "whose change this is, for the change log (default: ${DEFAULT-VALUE})")
  private String who;

  @Option(
      names = "--log-level",
      paramLabel = "LEVEL",
      defaultValue = "info",
      description =
          "how much goes into logs/ in the work folder: off, error, warn, info or debug (default:"
              + " ${DEFAULT-VALUE})")
  private LogFile.Detail logDetail;

  LogFile.Detail logDetail() {
    return logDetail;
  }

  Path folder() {
    return folder;
  }

  String who() {
    return who;
  }

  Path storeFile() {
    return folder.resolve("lanemend.gpkg");
  }

  boolean hasStore() {
    return Files.exists(storeFile());
  }

  /** Opens the store; what its operator should know before work goes on is told once. */
  Store open() {
    requireStore();
    if (!Files.isWritable(folder)) {
      throw new Refusal("the work folder " + folder + " cannot be written: it is read-only");
    }
    Store store = Store.open(storeFile());
    try {
      StartCheck.notes(store, Instant.now())
          .forEach(n -> mixee.commandLine().getErr().println("note: " + n));
    } catch (StoreException e) {
      store.close();
      throw e;
    }
    return store;
  }

  void requireStore() {
    if (!hasStore()) {
      throw new Refusal(
          "there is no store in "
              + folder
              + " yet: begin with 'import roads', or name another"
              + " folder with --work");
    }
  }

  Store create(ProjectedCrs crs) {
    folderOf("");
    return Store.create(storeFile(), crs);
  }

  void deleteStore() {
    try {
      Files.delete(storeFile());
    } catch (IOException e) {
      throw new Refusal(storeFile() + " cannot be replaced: " + e.getMessage());
    }
  }

  /** Takes away the pages (HTML and PDF) of before: they must not lie among those of now. */
  static void clearPages(Path folder) throws IOException {
    try (Stream<Path> old = Files.list(folder)) {
      for (Path file : old.toList()) {
        String name = file.getFileName().toString();
        if (name.endsWith(".html") || name.endsWith(".pdf")) {
          Files.delete(file);
        }
      }
    }
  }

  /** A folder inside the work folder, made if need be. */
  Path folderOf(String name) {
    Path made = folder.resolve(name);
    try {
      return Files.createDirectories(made);
    } catch (IOException e) {
      throw new Refusal("the folder " + made + " cannot be made: " + e.getMessage());
    }
  }
}
