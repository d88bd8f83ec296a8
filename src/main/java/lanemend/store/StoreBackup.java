package lanemend.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Optional;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteErrorCode;

/**
 * Backup copies of a store, and the way back. A copy has its name only once every row of it has
 * been compared with the store's: what bears the name can be trusted.
 */
public final class StoreBackup {
  private static final int BUSY_MILLIS = 5000;
  private static final String MAKING = ".making";
  static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

  private StoreBackup() {}

  /**
   * A copy that was made.
   *
   * @param rows rows compared, of all tables together
   */
  public record Copied(Path file, long bytes, long rows) {}

  /**
   * A store that was put back.
   *
   * @param setAside where the store that was there before now is; empty when there was none
   */
  public record Restored(Path store, long rows, Optional<Path> setAside) {}

  /** {@code NAME-20261125T140500Z.gpkg} for a store {@code NAME.gpkg}. */
  public static String nameAt(Path store, String what, Instant when) {
    String name = store.getFileName().toString();
    String stem = name.endsWith(".gpkg") ? name.substring(0, name.length() - 5) : name;
    return stem + what + "-" + STAMP.format(when) + ".gpkg";
  }

  /**
   * Copies a store as it is at this moment, whoever reads or writes it meanwhile. The copy is one
   * file that needs nothing beside it.
   *
   * @throws StoreException when the copy's file is already there, the store or the copy is damaged,
   *     or there is no room; nothing is left behind then
   */
  public static Copied copy(Path store, Path to) {
    return copy(store, to, true);
  }

  /** As {@link #copy(Path, Path)}, also of a store whose indexes are damaged. */
  public static Copied copyAsItIs(Path store, Path to) {
    return copy(store, to, false);
  }

  private static Copied copy(Path store, Path to, boolean sound) {
    StoreHeader.checkReadable(store);
    if (Files.exists(to)) {
      throw new StoreException(to + " already exists; a backup never replaces a file");
    }
    Path made = to.resolveSibling(to.getFileName() + MAKING);
    try {
      if (to.toAbsolutePath().getParent() != null) {
        Files.createDirectories(to.toAbsolutePath().getParent());
      }
      long rows = makeAndCompare(store, made, sound);
      Files.move(made, to, StandardCopyOption.ATOMIC_MOVE);
      onDisk(to.toAbsolutePath().getParent());
      return new Copied(to, Files.size(to), rows);
    } catch (IOException e) {
      throw new StoreException(to + " cannot be made: " + e.getMessage(), e);
    } finally {
      clear(made);
    }
  }

  /** Returns how many rows were compared. */
  private static long makeAndCompare(Path store, Path made, boolean sound) throws IOException {
    clear(made);
    Fingerprint wanted;
    try (Connection c = connect(store);
        Statement s = c.createStatement()) {
      // From here on this connection sees the store as it is now, and so does the copying.
      s.execute("BEGIN");
      wanted = Fingerprint.of(c);
      int code =
          c.unwrap(SQLiteConnection.class).getDatabase().backup("main", made.toString(), null);
      s.execute("ROLLBACK");
      if (code != SQLiteErrorCode.SQLITE_OK.code) {
        throw new SQLException(SQLiteErrorCode.getErrorCode(code).message, "", code);
      }
    } catch (SQLException e) {
      throw copying(store, made, e);
    }
    Fingerprint got;
    try (Connection c = connect(made)) {
      // A copy of a store in use bears its write-ahead mode, which needs files beside it.
      try (Statement s = c.createStatement()) {
        s.execute("PRAGMA journal_mode = DELETE");
      }
      if (sound) {
        refuseDamaged(store, c);
      }
      got = Fingerprint.of(c);
    } catch (SQLException e) {
      throw copying(store, made, e);
    }
    if (!got.equals(wanted)) {
      throw new StoreException(
          "the copy of " + store + " does not hold the same rows; nothing was kept of it");
    }
    onDisk(made);
    return got.rows();
  }

  private static StoreException copying(Path store, Path made, SQLException e) {
    // The driver's own error has no kind of SQLite's for what befalls the copy.
    if (e.getErrorCode() == SQLiteErrorCode.SQLITE_FULL.code) {
      return new NoRoomException(
          "there is no room left to write " + made + "; nothing was kept", e);
    }
    return SqlErrors.of(store, e);
  }

  private static void refuseDamaged(Path store, Connection c) throws SQLException {
    try (Statement s = c.createStatement();
        ResultSet r = s.executeQuery("PRAGMA integrity_check")) {
      if (r.next() && !r.getString(1).equals("ok")) {
        throw new StoreException(
            store + " is damaged (" + r.getString(1) + "): no backup was made; run check --repair");
      }
    }
  }

  /**
   * Puts a backup copy in the place of a store. The store that is there is set aside beside it, and
   * not deleted. The store's place never holds anything but the one or the other.
   *
   * @throws StoreException when the copy is not a sound store, or another program has the store
   *     open; nothing was changed then
   */
  public static Restored restore(Path backup, Path store) {
    StoreHeader.checkReadable(backup);
    Path made = store.resolveSibling(store.getFileName() + MAKING);
    try {
      if (Files.exists(store) && Files.isSameFile(backup, store)) {
        throw new StoreException(backup + " is the store itself");
      }
      Files.createDirectories(store.toAbsolutePath().getParent());
      long rows = makeAndCompare(backup, made, true);
      Optional<Path> aside = Optional.empty();
      if (Files.exists(store)) {
        aside = Optional.of(setAside(store));
      }
      Files.move(made, store, StandardCopyOption.ATOMIC_MOVE);
      onDisk(store.toAbsolutePath().getParent());
      return new Restored(store, rows, aside);
    } catch (IOException e) {
      throw new StoreException(store + " cannot be put back: " + e.getMessage(), e);
    } finally {
      clear(made);
    }
  }

  /**
   * Number of the last write in a copy, 0 when there is none; the copy is not changed.
   *
   * @throws StoreException when it is no store or damaged
   */
  public static long lastEdit(Path backup) {
    StoreHeader.checkReadable(backup);
    try (Connection c = connect(backup);
        Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT coalesce(max(edit), 0) FROM change_log")) {
      r.next();
      return r.getLong(1);
    } catch (SQLException e) {
      throw SqlErrors.of(backup, e);
    }
  }

  /** Gives the store a second name; its log files, if any are left, go there too. */
  private static Path setAside(Path store) throws IOException {
    foldLogIn(store);
    Path aside = store.resolveSibling(nameAt(store, "-replaced", Instant.now()));
    for (int i = 2; Files.exists(aside); i++) {
      aside = store.resolveSibling(nameAt(store, "-replaced" + i, Instant.now()));
    }
    for (String log : new String[] {"-wal", "-shm"}) {
      Path left = store.resolveSibling(store.getFileName() + log);
      if (Files.exists(left)) {
        Files.move(left, aside.resolveSibling(aside.getFileName() + log));
      }
    }
    try {
      // Two names for a moment, so that there is no moment without a store.
      Files.createLink(aside, store);
    } catch (UnsupportedOperationException | IOException e) {
      Files.move(store, aside);
    }
    return aside;
  }

  private static void foldLogIn(Path store) {
    try (Connection c = connect(store);
        Statement s = c.createStatement();
        // Granted only to the one connection there is.
        ResultSet r = s.executeQuery("PRAGMA journal_mode = DELETE")) {
      if (r.next() && !r.getString(1).equalsIgnoreCase("delete")) {
        throw inUse(store, null);
      }
    } catch (SQLException e) {
      int kind = e.getErrorCode() & 0xff;
      boolean damaged =
          kind == SQLiteErrorCode.SQLITE_CORRUPT.code || kind == SQLiteErrorCode.SQLITE_NOTADB.code;
      if (!damaged) {
        throw inUse(store, e);
      }
      // A damaged store is what people restore over: it is set aside as it is.
    }
  }

  private static StoreException inUse(Path store, SQLException e) {
    return new StoreException(
        store + " is open in another program: close that first; nothing was changed", e);
  }

  static Connection connect(Path file) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(BUSY_MILLIS);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    return config.createConnection("jdbc:sqlite:" + file);
  }

  /** Waits until the file, or a folder's list of names, is on the disk. */
  static void onDisk(Path path) throws IOException {
    boolean folder = Files.isDirectory(path);
    try (FileChannel channel =
        FileChannel.open(path, folder ? StandardOpenOption.READ : StandardOpenOption.WRITE)) {
      channel.force(true);
    } catch (IOException e) {
      // Some systems cannot open a folder; there the move itself has to do.
      if (!folder) {
        throw e;
      }
    }
  }

  static void clear(Path made) {
    try {
      for (String part : new String[] {"", "-journal", "-wal", "-shm"}) {
        Files.deleteIfExists(made.resolveSibling(made.getFileName() + part));
      }
    } catch (IOException e) {
      throw new StoreException(made + " is in the way: " + e.getMessage(), e);
    }
  }
}
