package lanemend.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.ResultSet;
import java.time.Instant;
import java.util.Optional;

/**
 * What an operator asks of a store: cheap to tell, whatever its size.
 *
 * @param schemaVersion layout of the file
 * @param lastEdit number of the last write in the change log, 0 when there is none
 * @param lastChangeAt when that was, by the clock of the computer that wrote
 * @param bytes size of the file
 * @param logBytes size of the write-ahead log beside it, 0 when there is none
 * @param freeBytes room left on its disk
 */
public record StoreState(
    int schemaVersion,
    long lastEdit,
    Optional<Instant> lastChangeAt,
    long bytes,
    long logBytes,
    long freeBytes) {

  /**
   * Looks at a store.
   *
   * @throws StoreException when it cannot be read
   */
  public static StoreState of(Store store) {
    Path file = store.file();
    Path log = file.resolveSibling(file.getFileName() + "-wal");
    return store.inSession(
        session ->
            session.run(
                () -> {
                  int version;
                  try (ResultSet r =
                      session
                          .statement("SELECT max(schema_version) FROM lanemend_store")
                          .executeQuery()) {
                    r.next();
                    version = r.getInt(1);
                  }
                  long edit = 0;
                  Optional<Instant> at = Optional.empty();
                  try (ResultSet r =
                      session
                          .statement(
                              "SELECT edit, at FROM change_log WHERE edit > 0"
                                  + " ORDER BY fid DESC LIMIT 1")
                          .executeQuery()) {
                    if (r.next()) {
                      edit = r.getLong(1);
                      at = Optional.ofNullable(r.getString(2)).map(Instant::parse);
                    }
                  }
                  return new StoreState(version, edit, at, size(file), size(log), roomBeside(file));
                }));
  }

  private static long size(Path file) {
    try {
      return Files.exists(file) ? Files.size(file) : 0;
    } catch (IOException e) {
      // The log may go between the two questions.
      return 0;
    }
  }

  /**
   * Room left on the disk of a file or folder, in bytes.
   *
   * @throws StoreException when the disk cannot be asked
   */
  public static long roomBeside(Path file) {
    try {
      return Files.getFileStore(file).getUsableSpace();
    } catch (IOException e) {
      throw new StoreException("the disk of " + file + " cannot be asked: " + e.getMessage(), e);
    }
  }
}
