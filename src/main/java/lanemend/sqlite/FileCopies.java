package lanemend.sqlite;

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
import java.util.Locale;
import java.util.Optional;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteErrorCode;

/**
 * Copies of one kind of SQLite file, and the way back. A copy has its name only once it was found
 * to hold what the file held at one moment, and what it takes the place of is set aside, never
 * deleted. Names and contents are on the disk when a method returns.
 *
 * <p>Every failure is an exception of the {@link Kind}; nothing was changed then.
 *
 * @param <C> what a file holds, as far as a copy is compared with it
 */
public final class FileCopies<C> {
  /** A moment in a file's name, to the second: {@code 20261125T140500Z}. */
  public static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

  private static final int BUSY_MILLIS = 5_000;

  private final Kind<C> kind;

  public FileCopies(Kind<C> kind) {
    this.kind = kind;
  }

  /** What is told apart from file to file: what is in it, and the words for what goes wrong. */
  public interface Kind<C> {
    /** Makes the copy's file ready, before SQLite writes into it. */
    void prepare(Path made) throws IOException;

    /** What a file holds; equal for a file and its copy. */
    C content(Connection file) throws SQLException;

    /**
     * Name for what a copy takes the place of.
     *
     * @param what {@code -replaced}, with a number from 2 on where that name is taken
     */
    String aside(Path file, String what, Instant when);

    /** For what the sentence says; the cause may be null. */
    RuntimeException refused(String sentence, Throwable cause);

    /** The file could not be read, or its copy not be written. */
    RuntimeException notCopied(Path from, Path made, SQLException e);

    /** The copy could not be read back. */
    RuntimeException notReadBack(Path from, Path made, SQLException e);

    /** SQLite's own check finds fault with the copy of a file. */
    RuntimeException damaged(Path from, String how);
  }

  /**
   * A copy that is in its place.
   *
   * @param setAside where the file that was there now is; empty when there was none
   */
  public record PutBack<C>(C content, Optional<Path> setAside) {}

  /**
   * Copies a file as it is at this moment, whoever reads or writes it meanwhile. The copy is one
   * file that needs nothing beside it.
   *
   * @param sound false to take also a copy that SQLite's own check finds fault with
   */
  public C copy(Path from, Path to, boolean sound) {
    if (Files.exists(to)) {
      throw kind.refused(to + " already exists; a backup never replaces a file", null);
    }
    Path folder = to.toAbsolutePath().getParent();
    Path made = making(to);
    try {
      Files.createDirectories(folder);
      C content = makeAndCompare(from, made, sound);
      Files.move(made, to, StandardCopyOption.ATOMIC_MOVE);
      onDisk(folder);
      return content;
    } catch (IOException e) {
      throw kind.refused(to + " cannot be made: " + e.getMessage(), e);
    } finally {
      clear(made);
    }
  }

  /**
   * Puts a copy in the place of a file. The file that is there is set aside beside it. Its place
   * never holds anything but the one or the other.
   */
  public PutBack<C> putBack(Path copy, Path file) {
    Path folder = file.toAbsolutePath().getParent();
    Path made = making(file);
    try {
      Files.createDirectories(folder);
      C content = makeAndCompare(copy, made, true);
      Optional<Path> aside = Optional.empty();
      if (Files.exists(file)) {
        aside = Optional.of(setAside(file));
      }
      Files.move(made, file, StandardCopyOption.ATOMIC_MOVE);
      onDisk(folder);
      return new PutBack<>(content, aside);
    } catch (IOException e) {
      throw kind.refused(file + " cannot be put back: " + e.getMessage(), e);
    } finally {
      clear(made);
    }
  }

  private C makeAndCompare(Path from, Path made, boolean sound) throws IOException {
    clear(made);
    kind.prepare(made);
    C wanted;
    try (Connection c = connect(from);
        Statement s = c.createStatement()) {
      // From here on this connection sees the file as it is now, and so does the copying.
      s.execute("BEGIN");
      wanted = kind.content(c);
      int code =
          c.unwrap(SQLiteConnection.class).getDatabase().backup("main", made.toString(), null);
      s.execute("ROLLBACK");
      if (code != SQLiteErrorCode.SQLITE_OK.code) {
        throw new SQLException(SQLiteErrorCode.getErrorCode(code).message, "", code);
      }
    } catch (SQLException e) {
      throw kind.notCopied(from, made, e);
    }
    C got;
    try (Connection c = connect(made)) {
      // A copy of a file in use bears its write-ahead mode, which needs files beside it.
      try (Statement s = c.createStatement()) {
        s.execute("PRAGMA journal_mode = DELETE");
      }
      Optional<String> damage = sound ? damage(c) : Optional.empty();
      if (damage.isPresent()) {
        throw kind.damaged(from, damage.get());
      }
      got = kind.content(c);
    } catch (SQLException e) {
      throw kind.notReadBack(from, made, e);
    }
    if (!got.equals(wanted)) {
      throw kind.refused(
          "the copy of " + from + " does not hold the same rows; nothing was kept of it", null);
    }
    onDisk(made);
    return got;
  }

  /** The first thing SQLite's own check of a whole file finds; empty when it finds nothing. */
  public static Optional<String> damage(Connection file) throws SQLException {
    try (Statement s = file.createStatement();
        ResultSet r = s.executeQuery("PRAGMA integrity_check")) {
      return r.next() && !r.getString(1).equals("ok")
          ? Optional.of(r.getString(1))
          : Optional.empty();
    }
  }

  /** Gives the file a second name; its log files, if any are left, go there too. */
  private Path setAside(Path file) throws IOException {
    requireClosed(file);
    Path aside = file.resolveSibling(kind.aside(file, "-replaced", Instant.now()));
    for (int i = 2; Files.exists(aside); i++) {
      aside = file.resolveSibling(kind.aside(file, "-replaced" + i, Instant.now()));
    }
    for (String log : new String[] {"-wal", "-shm"}) {
      Path left = file.resolveSibling(file.getFileName() + log);
      if (Files.exists(left)) {
        Files.move(left, aside.resolveSibling(aside.getFileName() + log));
      }
    }
    try {
      // Two names for a moment, so that there is no moment without the file.
      Files.createLink(aside, file);
    } catch (UnsupportedOperationException | IOException e) {
      Files.move(file, aside);
    }
    return aside;
  }

  /** Sees to it that no other program has a file open, and folds its log into it. */
  public void requireClosed(Path file) {
    try (Connection c = connect(file);
        Statement s = c.createStatement();
        // Granted only to the one connection there is.
        ResultSet r = s.executeQuery("PRAGMA journal_mode = DELETE")) {
      if (r.next() && !r.getString(1).equalsIgnoreCase("delete")) {
        throw inUse(file, null);
      }
    } catch (SQLException e) {
      int code = e.getErrorCode() & 0xff;
      boolean damaged =
          code == SQLiteErrorCode.SQLITE_CORRUPT.code || code == SQLiteErrorCode.SQLITE_NOTADB.code;
      if (!damaged) {
        throw inUse(file, e);
      }
      // A damaged file is what people put a copy back over: it is set aside as it is.
    }
  }

  private RuntimeException inUse(Path file, SQLException e) {
    return kind.refused(
        file + " is open in another program: close that first; nothing was changed", e);
  }

  /** A connection that waits for other programs, and writes through to the disk. */
  public static Connection connect(Path file) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(BUSY_MILLIS);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    return config.createConnection("jdbc:sqlite:" + file.toAbsolutePath());
  }

  /** Where a file is written until it is whole. */
  public static Path making(Path file) {
    return file.resolveSibling(file.getFileName() + ".making");
  }

  /** Waits until the file, or a folder's list of names, is on the disk. */
  public static void onDisk(Path path) throws IOException {
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

  /** Takes away what was being made, and what SQLite keeps beside it. */
  public void clear(Path made) {
    try {
      for (String part : new String[] {"", "-journal", "-wal", "-shm"}) {
        Files.deleteIfExists(made.resolveSibling(made.getFileName() + part));
      }
    } catch (IOException e) {
      throw kind.refused(made + " is in the way: " + e.getMessage(), e);
    }
  }
}
