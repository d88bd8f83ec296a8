package lanemend.accounts;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/** Tables of the accounts' file, and how a file of before comes to have them. */
final class AccountLayout {
  private static final int LAYOUT = 2;

  private static final String[] TABLES = {
    "CREATE TABLE account (name TEXT PRIMARY KEY COLLATE NOCASE, roles TEXT NOT NULL, hash TEXT,"
        + " made_at TEXT NOT NULL, password_at TEXT NOT NULL, first_password INTEGER NOT NULL,"
        + " epoch INTEGER NOT NULL, removed_at TEXT) STRICT",
    "CREATE TABLE audit (number INTEGER PRIMARY KEY AUTOINCREMENT, at TEXT NOT NULL, who TEXT NOT"
        + " NULL, origin TEXT NOT NULL, act TEXT NOT NULL, about TEXT NOT NULL) STRICT",
    "CREATE TRIGGER audit_stays BEFORE UPDATE ON audit BEGIN"
        + " SELECT raise(ABORT, 'the audit list is only added to'); END",
    "CREATE TRIGGER audit_is_kept BEFORE DELETE ON audit BEGIN"
        + " SELECT raise(ABORT, 'the audit list is only added to'); END"
  };

  /** What layout 2 has more: the second factor. */
  private static final String[] SECOND = {
    "ALTER TABLE account ADD COLUMN second_key TEXT",
    "ALTER TABLE account ADD COLUMN second_step INTEGER NOT NULL DEFAULT 0",
    "CREATE TABLE recovery (account TEXT NOT NULL COLLATE NOCASE, hash TEXT NOT NULL,"
        + " PRIMARY KEY (account, hash)) STRICT",
    "CREATE TABLE second_demanded (role TEXT PRIMARY KEY) STRICT",
    "PRAGMA user_version = " + LAYOUT
  };

  private AccountLayout() {}

  /** Makes the tables of a new file, or what an older one lacks: all of it or none. */
  static void prepare(Path path, Connection connection) throws SQLException {
    try (Statement s = connection.createStatement()) {
      if (layout(s) > LAYOUT) {
        throw new AccountException(
            path + " was written by a later lanemend (layout " + layout(s) + "): use that one");
      }
      if (layout(s) == LAYOUT) {
        return;
      }
      s.execute("BEGIN IMMEDIATE");
      // Looked at again under the lock: another program may have been first. A failure ends the
      // connection, and with it what was begun.
      int found = layout(s);
      if (found < 1) {
        for (String sql : TABLES) {
          s.execute(sql);
        }
      }
      if (found < LAYOUT) {
        for (String sql : SECOND) {
          s.execute(sql);
        }
      }
      s.execute("COMMIT");
    }
  }

  private static int layout(Statement s) throws SQLException {
    try (ResultSet r = s.executeQuery("PRAGMA user_version")) {
      return r.getInt(1);
    }
  }
}
