package lanemend.accounts;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteErrorCode;

/** The file behind {@link Accounts}: an SQLite database that only its owner can read. */
final class AccountFile implements AutoCloseable {
  private static final int BUSY_MILLIS = 5_000;
  private static final String OWNER_ONLY = "rw-------";
  private static final int LONGEST_ABOUT = 300;

  private final Path path;
  private final Connection connection;

  /**
   * An account with the hash of its password.
   *
   * @param secondKey key of its second factor; null for none
   */
  record Row(Account account, String hash, String secondKey) {}

  private AccountFile(Path path, Connection connection) {
    this.path = path;
    this.connection = connection;
  }

  static AccountFile open(Path path) {
    try {
      forOwnerOnly(path);
      SQLiteConfig config = new SQLiteConfig();
      config.setJournalMode(SQLiteConfig.JournalMode.WAL);
      config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
      config.setBusyTimeout(BUSY_MILLIS);
      AccountFile file =
          new AccountFile(path, config.createConnection("jdbc:sqlite:" + path.toAbsolutePath()));
      try {
        AccountLayout.prepare(path, file.connection);
        return file;
      } catch (SQLException | AccountException e) {
        file.close();
        throw e;
      }
    } catch (IOException | SQLException e) {
      throw new AccountException(path + " cannot be opened: " + e.getMessage(), e);
    }
  }

  /** Before SQLite opens it, which gives the files beside it the same permissions. */
  static void forOwnerOnly(Path path) throws IOException {
    if (!FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
      return;
    }
    var permissions = PosixFilePermissions.fromString(OWNER_ONLY);
    try {
      Files.createFile(path, PosixFilePermissions.asFileAttribute(permissions));
    } catch (FileAlreadyExistsException e) {
      Files.setPosixFilePermissions(path, permissions);
    }
  }

  /** One change: all of it or none. */
  synchronized <T> T write(Function<Writing, T> work) {
    try {
      run("BEGIN IMMEDIATE");
      boolean committed = false;
      try {
        T made = work.apply(new Writing());
        run("COMMIT");
        committed = true;
        return made;
      } catch (SqlFailed e) {
        throw e.cause;
      } finally {
        if (!committed) {
          rollBack();
        }
      }
    } catch (SQLException e) {
      if ((e.getErrorCode() & 0xff) == SQLiteErrorCode.SQLITE_FULL.code) {
        throw new NoRoomForAccountsException("there is no room left to write " + path, e);
      }
      throw new AccountException(path + " cannot be written: " + e.getMessage(), e);
    }
  }

  private void run(String sql) throws SQLException {
    try (Statement s = connection.createStatement()) {
      s.execute(sql);
    }
  }

  private void rollBack() {
    try {
      run("ROLLBACK");
    } catch (SQLException e) {
      // On a full disk SQLite has rolled back by itself; the first failure is what is told.
      return;
    }
  }

  void change(Consumer<Writing> work) {
    write(
        change -> {
          work.accept(change);
          return null;
        });
  }

  /** Lets an SQL failure through a function. */
  private static final class SqlFailed extends RuntimeException {
    private static final long serialVersionUID = 1L;
    final SQLException cause;

    SqlFailed(SQLException cause) {
      super(cause);
      this.cause = cause;
    }
  }

  /** What a change may do. */
  final class Writing {
    Row wanted(String name) {
      return AccountFile.this.wanted(name);
    }

    void insert(Account a, String hash) {
      try (PreparedStatement taken =
          connection.prepareStatement("SELECT removed_at FROM account WHERE name = ?")) {
        taken.setString(1, a.name());
        try (ResultSet r = taken.executeQuery()) {
          if (r.next()) {
            throw new AccountException(
                r.getString(1) == null
                    ? "there is an account '" + a.name() + "' already"
                    : "the name '"
                        + a.name()
                        + "' belonged to an account that was removed and stands in the logs: choose"
                        + " another");
          }
        }
        put(
            "INSERT INTO account (roles, hash, made_at, password_at, first_password, epoch, name)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?)",
            roles(a.roles()),
            hash,
            a.madeAt().toString(),
            a.passwordAt().toString(),
            a.firstPassword() ? 1 : 0,
            a.epoch(),
            a.name());
      } catch (SQLException e) {
        throw new SqlFailed(e);
      }
    }

    /**
     * @param hash null to leave the password as it is
     */
    void update(Account a, String hash) {
      put(
          "UPDATE account SET roles = ?, hash = coalesce(?, hash), password_at = ?, first_password ="
              + " ?, epoch = ? WHERE name = ?",
          roles(a.roles()),
          hash,
          a.passwordAt().toString(),
          a.firstPassword() ? 1 : 0,
          a.epoch(),
          a.name());
    }

    void remove(String name, Instant at) {
      put(
          "UPDATE account SET removed_at = ?, hash = NULL, epoch = epoch + 1 WHERE name = ?",
          at.toString(),
          name);
      setSecond(name, null, 0);
    }

    /**
     * Sets the key, and takes recovery codes of before away.
     *
     * @param key null for no second factor
     * @param step codes of this time step and before are not taken
     */
    void setSecond(String name, String key, long step) {
      put("UPDATE account SET second_key = ?, second_step = ? WHERE name = ?", key, step, name);
      put("DELETE FROM recovery WHERE account = ?", name);
    }

    /** True once for each time step, and never for one before. */
    boolean useStep(String name, long step) {
      return put(
              "UPDATE account SET second_step = ? WHERE name = ? AND second_step < ?",
              step,
              name,
              step)
          == 1;
    }

    void addRecovery(String name, String hash) {
      put("INSERT INTO recovery (account, hash) VALUES (?, ?)", name, hash);
    }

    /** True once for each code. */
    boolean useRecovery(String name, String hash) {
      return put("DELETE FROM recovery WHERE account = ? AND hash = ?", name, hash) == 1;
    }

    void demandSecond(Set<Role> roles) {
      put("DELETE FROM second_demanded");
      roles.forEach(r -> put("INSERT INTO second_demanded (role) VALUES (?)", r.word()));
    }

    void audit(Instant at, Accounts.Actor by, AuditEntry.Act act, String about) {
      put(
          "INSERT INTO audit (at, who, origin, act, about) VALUES (?, ?, ?, ?, ?)",
          at.toString(),
          shortened(by.name()),
          shortened(by.from()),
          act.name(),
          shortened(about));
    }

    private int put(String sql, Object... values) {
      try (PreparedStatement p = connection.prepareStatement(sql)) {
        for (int i = 0; i < values.length; i++) {
          p.setObject(i + 1, values[i]);
        }
        return p.executeUpdate();
      } catch (SQLException e) {
        throw new SqlFailed(e);
      }
    }
  }

  /** What others send is kept on one line and short. */
  private static String shortened(String text) {
    String line = text.replaceAll("\\p{Cntrl}", " ");
    return line.length() > LONGEST_ABOUT ? line.substring(0, LONGEST_ABOUT) : line;
  }

  synchronized Row wanted(String name) {
    return find(name).orElseThrow(() -> new AccountException("there is no account '" + name + "'"));
  }

  synchronized Optional<Row> find(String name) {
    return rows("WHERE removed_at IS NULL AND name = ?", name).stream().findFirst();
  }

  synchronized List<Account> all() {
    return rows("WHERE removed_at IS NULL AND name <> ? ORDER BY name", "").stream()
        .map(Row::account)
        .toList();
  }

  private List<Row> rows(String where, String value) {
    String sql =
        "SELECT name, roles, made_at, password_at, first_password, epoch, hash, second_key,"
            + " (SELECT group_concat(role, ' ') FROM second_demanded) FROM account "
            + where;
    try (PreparedStatement p = connection.prepareStatement(sql)) {
      p.setString(1, value);
      List<Row> rows = new ArrayList<>();
      try (ResultSet r = p.executeQuery()) {
        while (r.next()) {
          rows.add(row(r));
        }
      }
      return rows;
    } catch (SQLException e) {
      throw new AccountException(path + " cannot be read: " + e.getMessage(), e);
    }
  }

  private static Row row(ResultSet r) throws SQLException {
    Set<Role> roles = roles(r.getString(2));
    String key = r.getString(8);
    boolean demanded = roles(r.getString(9)).stream().anyMatch(roles::contains);
    Account account =
        new Account(
            r.getString(1),
            roles,
            Instant.parse(r.getString(3)),
            Instant.parse(r.getString(4)),
            r.getInt(5) != 0,
            r.getLong(6),
            key != null
                ? Account.Second.ON
                : demanded ? Account.Second.WANTED : Account.Second.NONE);
    return new Row(account, r.getString(7), key);
  }

  synchronized int recoveryLeft(String name) {
    return Integer.parseInt(one("SELECT count(*) FROM recovery WHERE account = ?", name));
  }

  synchronized Set<Role> secondDemanded() {
    return roles(one("SELECT group_concat(role, ' ') FROM second_demanded WHERE role <> ?", ""));
  }

  private String one(String sql, String value) {
    try (PreparedStatement p = connection.prepareStatement(sql)) {
      p.setString(1, value);
      try (ResultSet r = p.executeQuery()) {
        return r.next() ? r.getString(1) : null;
      }
    } catch (SQLException e) {
      throw new AccountException(path + " cannot be read: " + e.getMessage(), e);
    }
  }

  synchronized List<AuditEntry> audit(long before, int count) {
    String sql =
        "SELECT number, at, who, origin, act, about FROM audit WHERE number < ?"
            + " ORDER BY number DESC LIMIT ?";
    try (PreparedStatement p = connection.prepareStatement(sql)) {
      p.setLong(1, before);
      p.setInt(2, count);
      List<AuditEntry> entries = new ArrayList<>();
      try (ResultSet r = p.executeQuery()) {
        while (r.next()) {
          entries.add(
              new AuditEntry(
                  r.getLong(1),
                  Instant.parse(r.getString(2)),
                  r.getString(3),
                  r.getString(4),
                  AuditEntry.Act.valueOf(r.getString(5)),
                  r.getString(6)));
        }
      }
      return entries;
    } catch (SQLException e) {
      throw new AccountException(path + " cannot be read: " + e.getMessage(), e);
    }
  }

  private static String roles(Set<Role> roles) {
    return roles.stream().sorted().map(Role::word).collect(Collectors.joining(" "));
  }

  private static Set<Role> roles(String words) {
    Set<Role> roles = EnumSet.noneOf(Role.class);
    for (String word : words == null ? new String[0] : words.split(" ", -1)) {
      Role.of(word).ifPresent(roles::add);
    }
    return roles;
  }

  @Override
  public synchronized void close() {
    try {
      connection.close();
    } catch (SQLException e) {
      throw new AccountException(path + " cannot be closed: " + e.getMessage(), e);
    }
  }
}
