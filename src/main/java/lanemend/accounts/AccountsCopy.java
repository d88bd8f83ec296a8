package lanemend.accounts;

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
 * Copies of the accounts' file, and the way back. A copy lies beside the copy of the store it was
 * made with, can be read by its owner only, and has its name only once it was found sound.
 *
 * <p>Every failure is an {@link AccountException}; nothing was changed then.
 */
public final class AccountsCopy {
  private static final int BUSY_MILLIS = 5_000;
  private static final String MAKING = ".making";
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", java.util.Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  private AccountsCopy() {}

  /** How much a file holds: accounts in use, and lines of the audit list. */
  public record Content(long accounts, long auditLines) {}

  /** {@code NAME.accounts.db} beside a store's copy {@code NAME.gpkg}. */
  public static Path beside(Path storeCopy) {
    String name = storeCopy.getFileName().toString().replaceFirst("[.]gpkg$", "");
    return storeCopy.resolveSibling(name + "." + Accounts.FILE);
  }

  /** Copies a folder's accounts as they are at this moment, whoever signs in meanwhile. */
  public static Content copy(Path folder, Path to) {
    if (Files.exists(to)) {
      throw new AccountException(to + " already exists; a backup never replaces a file");
    }
    Path made = to.resolveSibling(to.getFileName() + MAKING);
    try {
      Files.createDirectories(to.toAbsolutePath().getParent());
      Content content = makeAndCompare(folder.resolve(Accounts.FILE), made);
      Files.move(made, to, StandardCopyOption.ATOMIC_MOVE);
      return content;
    } catch (IOException e) {
      throw new AccountException(to + " cannot be made: " + e.getMessage(), e);
    } finally {
      clear(made);
    }
  }

  private static Content makeAndCompare(Path from, Path made) throws IOException {
    clear(made);
    // Before SQLite writes a hash into it.
    AccountFile.forOwnerOnly(made);
    Content wanted;
    try (Connection c = connect(from);
        Statement s = c.createStatement()) {
      // From here on this connection sees the file as it is now, and so does the copying.
      s.execute("BEGIN");
      wanted = content(c);
      int code =
          c.unwrap(SQLiteConnection.class).getDatabase().backup("main", made.toString(), null);
      s.execute("ROLLBACK");
      if (code != SQLiteErrorCode.SQLITE_OK.code) {
        throw new SQLException(SQLiteErrorCode.getErrorCode(code).message, "", code);
      }
    } catch (SQLException e) {
      throw new AccountException(from + " cannot be copied: " + e.getMessage(), e);
    }
    Content got;
    try (Connection c = connect(made);
        Statement s = c.createStatement()) {
      // A copy of a file in use bears its write-ahead mode, which needs files beside it.
      s.execute("PRAGMA journal_mode = DELETE");
      got = sound(made, c);
    } catch (SQLException e) {
      throw damaged(from, e.getMessage(), e);
    }
    if (!got.equals(wanted)) {
      throw new AccountException("the copy of " + from + " does not hold the same rows");
    }
    try (FileChannel channel = FileChannel.open(made, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
    return got;
  }

  /** Reads a copy through; it is not changed. */
  public static Content check(Path copy) {
    if (!Files.isReadable(copy)) {
      throw new AccountException(copy + " cannot be read");
    }
    try (Connection c = connect(copy)) {
      return sound(copy, c);
    } catch (SQLException e) {
      throw damaged(copy, e.getMessage(), e);
    }
  }

  private static AccountException damaged(Path file, String how, SQLException cause) {
    return new AccountException(
        file
            + " is damaged or holds no accounts ("
            + how
            + "); move it elsewhere to go on without it",
        cause);
  }

  private static Content sound(Path file, Connection c) throws SQLException {
    try (Statement s = c.createStatement();
        ResultSet r = s.executeQuery("PRAGMA integrity_check")) {
      if (r.next() && !r.getString(1).equals("ok")) {
        throw damaged(file, r.getString(1), null);
      }
    }
    return content(c);
  }

  private static Content content(Connection c) throws SQLException {
    try (Statement s = c.createStatement();
        ResultSet r =
            s.executeQuery(
                "SELECT (SELECT count(*) FROM account WHERE removed_at IS NULL),"
                    + " (SELECT count(*) FROM audit)")) {
      r.next();
      return new Content(r.getLong(1), r.getLong(2));
    }
  }

  /**
   * Puts a copy in the place of a folder's accounts, and writes that down in the audit list of what
   * was put back. The file that is there is set aside beside it, and not deleted.
   *
   * @return where the file that was there now is; empty when there was none
   */
  public static Optional<Path> restore(Path copy, Path folder, Accounts.Actor by) {
    Path file = folder.resolve(Accounts.FILE);
    Path made = folder.resolve(Accounts.FILE + MAKING);
    Optional<Path> aside = Optional.empty();
    try {
      Files.createDirectories(folder);
      makeAndCompare(copy, made);
      if (Files.exists(file)) {
        aside = Optional.of(setAside(file));
      }
      Files.move(made, file, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      throw new AccountException(file + " cannot be put back: " + e.getMessage(), e);
    } finally {
      clear(made);
    }
    try (Accounts back = Accounts.open(folder)) {
      back.note(by.name(), by.from(), AuditEntry.Act.ACCOUNTS_RESTORED, "from " + copy);
    }
    return aside;
  }

  /**
   * Sees to it that no other program has a folder's accounts open.
   *
   * @throws AccountException when one has
   */
  public static void requireClosed(Path folder) {
    Path file = folder.resolve(Accounts.FILE);
    if (!Files.exists(file)) {
      return;
    }
    try (Connection c = connect(file);
        Statement s = c.createStatement();
        // Granted only to the one connection there is.
        ResultSet r = s.executeQuery("PRAGMA journal_mode = DELETE")) {
      if (r.next() && !r.getString(1).equalsIgnoreCase("delete")) {
        throw inUse(file, null);
      }
    } catch (SQLException e) {
      int kind = e.getErrorCode() & 0xff;
      if (kind != SQLiteErrorCode.SQLITE_CORRUPT.code
          && kind != SQLiteErrorCode.SQLITE_NOTADB.code) {
        throw inUse(file, e);
      }
      // A damaged file is what people restore over: it is set aside as it is.
    }
  }

  private static AccountException inUse(Path file, SQLException e) {
    return new AccountException(
        file + " is open in another program: close that first; nothing was changed", e);
  }

  private static Path setAside(Path file) throws IOException {
    requireClosed(file.toAbsolutePath().getParent());
    String stem = "accounts-replaced-" + STAMP.format(Instant.now());
    Path aside = file.resolveSibling(stem + ".db");
    for (int i = 2; Files.exists(aside); i++) {
      aside = file.resolveSibling(stem + "-" + i + ".db");
    }
    for (String log : new String[] {"-wal", "-shm", ""}) {
      Path left = file.resolveSibling(file.getFileName() + log);
      if (Files.exists(left)) {
        Files.move(left, aside.resolveSibling(aside.getFileName() + log));
      }
    }
    return aside;
  }

  private static Connection connect(Path file) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(BUSY_MILLIS);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    return config.createConnection("jdbc:sqlite:" + file.toAbsolutePath());
  }

  private static void clear(Path made) {
    try {
      for (String part : new String[] {"", "-journal", "-wal", "-shm"}) {
        Files.deleteIfExists(made.resolveSibling(made.getFileName() + part));
      }
    } catch (IOException e) {
      throw new AccountException(made + " is in the way: " + e.getMessage(), e);
    }
  }
}
