package lanemend.accounts;

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

/**
 * Copies of the accounts' file, and the way back. A copy lies beside the copy of the store it was
 * made with, can be read by its owner only, and has its name only once it was found sound.
 *
 * <p>Every failure is an {@link AccountException}; nothing was changed then.
 */
public final class AccountsCopy {
  private static final FileCopies<Content> COPIES = new FileCopies<>(new Kind());

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
    return COPIES.copy(folder.resolve(Accounts.FILE), to, true);
  }

  /** Reads a copy through; it is not changed. */
  public static Content check(Path copy) {
    if (!Files.isReadable(copy)) {
      throw new AccountException(copy + " cannot be read");
    }
    try (Connection c = FileCopies.connect(copy)) {
      Optional<String> damage = FileCopies.damage(c);
      if (damage.isPresent()) {
        throw damaged(copy, damage.get(), null);
      }
      return content(c);
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
   * @throws NoRoomForAccountsException when there was no room left for the line in the audit list;
   *     the copy is in its place then
   */
  public static Optional<Path> restore(Path copy, Path folder, Accounts.Actor by) {
    Optional<Path> aside = COPIES.putBack(copy, folder.resolve(Accounts.FILE)).setAside();
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
    if (Accounts.areIn(folder)) {
      COPIES.requireClosed(folder.resolve(Accounts.FILE));
    }
  }

  /** The accounts' file among SQLite's files. */
  private static final class Kind implements FileCopies.Kind<Content> {
    @Override
    public void prepare(Path made) throws IOException {
      // Before SQLite writes a hash into it.
      AccountFile.forOwnerOnly(made);
    }

    @Override
    public Content content(Connection file) throws SQLException {
      return AccountsCopy.content(file);
    }

    @Override
    public String aside(Path file, String what, Instant when) {
      return "accounts" + what + "-" + FileCopies.STAMP.format(when) + ".db";
    }

    @Override
    public AccountException refused(String sentence, Throwable cause) {
      return new AccountException(sentence, cause);
    }

    @Override
    public AccountException notCopied(Path from, Path made, SQLException e) {
      return new AccountException(from + " cannot be copied: " + e.getMessage(), e);
    }

    @Override
    public AccountException notReadBack(Path from, Path made, SQLException e) {
      return AccountsCopy.damaged(from, e.getMessage(), e);
    }

    @Override
    public AccountException damaged(Path from, String how) {
      return AccountsCopy.damaged(from, how, null);
    }
  }
}
