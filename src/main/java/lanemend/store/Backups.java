package lanemend.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import lanemend.sqlite.FileCopies;

/**
 * The dated copies of one store in a folder, by their names ({@link StoreBackup#nameAt}). Copies
 * made for another reason, such as before a repair, bear another name and are not among them.
 */
public final class Backups {
  private final Path folder;
  private final Path store;

  /**
   * @param folder need not be there
   */
  public Backups(Path folder, Path store) {
    this.folder = folder;
    this.store = store;
  }

  /** One copy and when it was made. */
  public record Dated(Path file, Instant at) {}

  /**
   * Every copy, the newest first.
   *
   * @throws StoreException when the folder cannot be read
   */
  public List<Dated> all() {
    List<Dated> found = new ArrayList<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path f : (Iterable<Path>) files::iterator) {
        at(f).ifPresent(when -> found.add(new Dated(f, when)));
      }
    } catch (NoSuchFileException e) {
      return List.of();
    } catch (IOException e) {
      throw new StoreException(folder + " cannot be read: " + e.getMessage(), e);
    }
    found.sort(Comparator.comparing(Dated::at).reversed());
    return found;
  }

  /** The newest copy. */
  public Optional<Dated> newest() {
    return all().stream().findFirst();
  }

  private Optional<Instant> at(Path file) {
    String name = file.getFileName().toString();
    String stem = store.getFileName().toString().replaceFirst("[.]gpkg$", "") + "-";
    if (!name.startsWith(stem) || !name.matches(".*-\\d{8}T\\d{6}Z[.]gpkg")) {
      return Optional.empty();
    }
    String stamp = name.substring(stem.length(), name.length() - ".gpkg".length());
    try {
      return Optional.of(FileCopies.STAMP.parse(stamp, Instant::from));
    } catch (DateTimeParseException e) {
      // A copy of another store, or made before a repair.
      return Optional.empty();
    }
  }

  /**
   * Deletes the oldest copies until so many are left.
   *
   * @param keep at least 1
   * @return what was deleted
   * @throws StoreException when one cannot be deleted
   */
  public List<Path> keepNewest(int keep) {
    if (keep < 1) {
      throw new IllegalArgumentException("keep " + keep + ", expected 1 or more");
    }
    List<Path> gone = new ArrayList<>();
    for (Dated old : all().stream().skip(keep).toList()) {
      try {
        Files.deleteIfExists(old.file());
        gone.add(old.file());
      } catch (IOException e) {
        throw new StoreException(old.file() + " cannot be deleted: " + e.getMessage(), e);
      }
    }
    return gone;
  }
}
