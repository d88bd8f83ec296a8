package lanemend.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.Optional;
import lanemend.sqlite.FileCopies;
import org.sqlite.SQLiteErrorCode;

/**
 * Backup copies of a store, and the way back. A copy has its name only once every row of it has
 * been compared with the store's: what bears the name can be trusted.
 */
public final class StoreBackup {
  private static final FileCopies<Fingerprint> COPIES = new FileCopies<>(new StoreFile());

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
    return stem + what + "-" + FileCopies.STAMP.format(when) + ".gpkg";
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
    Fingerprint copied = COPIES.copy(store, to, sound);
    try {
      return new Copied(to, Files.size(to), copied.rows());
    } catch (IOException e) {
      throw new StoreException(to + " cannot be made: " + e.getMessage(), e);
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
    try {
      if (Files.exists(store) && Files.isSameFile(backup, store)) {
        throw new StoreException(backup + " is the store itself");
      }
    } catch (IOException e) {
      throw new StoreException(store + " cannot be put back: " + e.getMessage(), e);
    }
    FileCopies.PutBack<Fingerprint> done = COPIES.putBack(backup, store);
    return new Restored(store, done.content().rows(), done.setAside());
  }

  /**
   * Number of the last write in a copy, 0 when there is none; the copy is not changed.
   *
   * @throws StoreException when it is no store or damaged
   */
  public static long lastEdit(Path backup) {
    StoreHeader.checkReadable(backup);
    try (Connection c = FileCopies.connect(backup);
        Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT coalesce(max(edit), 0) FROM change_log")) {
      r.next();
      return r.getLong(1);
    } catch (SQLException e) {
      throw SqlErrors.of(backup, e);
    }
  }

  /** Takes away what was being made of a store. */
  static void clear(Path made) {
    COPIES.clear(made);
  }

  /** A store among SQLite's files: copies are compared row by row. */
  private static final class StoreFile implements FileCopies.Kind<Fingerprint> {
    @Override
    public void prepare(Path made) {
      // SQLite makes the file.
    }

    @Override
    public Fingerprint content(Connection file) throws SQLException {
      return Fingerprint.of(file);
    }

    @Override
    public String aside(Path file, String what, Instant when) {
      return nameAt(file, what, when);
    }

    @Override
    public StoreException refused(String sentence, Throwable cause) {
      return new StoreException(sentence, cause);
    }

    @Override
    public StoreException notCopied(Path from, Path made, SQLException e) {
      // The driver's own error has no kind of SQLite's for what befalls the copy.
      if (e.getErrorCode() == SQLiteErrorCode.SQLITE_FULL.code) {
        return new NoRoomException(
            "there is no room left to write " + made + "; nothing was kept", e);
      }
      return SqlErrors.of(from, e);
    }

    @Override
    public StoreException notReadBack(Path from, Path made, SQLException e) {
      return notCopied(from, made, e);
    }

    @Override
    public StoreException damaged(Path from, String how) {
      return new StoreException(
          from + " is damaged (" + how + "): no backup was made; run check --repair");
    }
  }
}
