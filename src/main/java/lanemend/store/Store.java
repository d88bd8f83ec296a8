package lanemend.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import java.util.function.Function;
import lanemend.network.ProjectedCrs;
import lanemend.sqlite.FileCopies;
import org.sqlite.SQLiteConfig;

/**
 * An agency's roads, inventory and plan in one GeoPackage file. Safe for several threads: writes
 * wait for each other, reads for each other, and neither for the other.
 *
 * <p>Every failure is a {@link StoreException} whose message is one sentence for the user.
 */
public final class Store implements AutoCloseable {
  /** Layout this program writes and reads; see {@code lanemend_store} in the file. */
  static final int SCHEMA_VERSION = 4;

  private static final int BUSY_MILLIS = 5000;
  private static final DateTimeFormatter MILLIS =
      DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss.SSS'Z'").withZone(ZoneOffset.UTC);

  private final Path file;
  private final Connection writer;
  private final Readers readers;
  private final int srsId;
  private final int epsg;
  private final String crsWkt;
  private final Path openAs;
  private final ReentrantLock writing = new ReentrantLock();

  private Store(Path file, int busyMillis) throws SQLException {
    this.file = file;
    this.writer = connect(file, busyMillis);
    Readers opened = null;
    try {
      opened = new Readers(() -> connect(file, busyMillis));
      try (Statement s = writer.createStatement();
          ResultSet r =
              s.executeQuery(
                  "SELECT s.srs_id, s.organization, s.definition FROM gpkg_spatial_ref_sys s JOIN"
                      + " gpkg_geometry_columns g USING (srs_id) WHERE g.table_name = 'route'")) {
        if (!r.next()) {
          throw new StoreException(file + " lacks its route layer's reference system");
        }
        this.srsId = r.getInt(1);
        this.epsg = r.getString(2).equalsIgnoreCase("EPSG") ? srsId : 0;
        this.crsWkt = r.getString(3);
      }
      SchemaUpgrade.run(writer, srsId);
    } catch (SQLException | StoreException e) {
      if (opened != null) {
        opened.close();
      }
      writer.close();
      throw e;
    }
    this.readers = opened;
    this.openAs = OpenStores.add(file);
  }

  /**
   * Makes a new store. The file appears whole or not at all.
   *
   * @param crs the system its coordinates will be in
   * @throws StoreException when the file exists or cannot be made
   */
  public static Store create(Path file, ProjectedCrs crs) {
    if (!file.getFileName().toString().endsWith(".gpkg")) {
      throw new StoreException(file + " must end in .gpkg, as the GeoPackage standard asks");
    }
    if (Files.exists(file)) {
      throw new StoreException(file + " already exists");
    }
    Path made = FileCopies.making(file);
    StoreBackup.clear(made);
    try {
      layOut(made, crs.wkt(), crs.epsg());
      Files.move(made, file, StandardCopyOption.ATOMIC_MOVE);
      FileCopies.onDisk(file.toAbsolutePath().getParent());
    } catch (SQLException e) {
      throw SqlErrors.of(file, e);
    } catch (IOException e) {
      throw new StoreException(file + " cannot be made: " + e.getMessage(), e);
    }
    return open(file);
  }

  private static void layOut(Path made, String crsWkt, int epsg) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    try (Connection c = config.createConnection("jdbc:sqlite:" + made)) {
      c.setAutoCommit(false);
      GeoPackageSchema.create(c, crsWkt, epsg);
      try (Statement s = c.createStatement()) {
        s.execute(ChangeLogTriggers.CREATE_EDITING);
        s.execute("INSERT INTO editing (fid, edit) VALUES (1, 0)");
        for (Table table : Tables.ALL) {
          GeoPackageSchema.add(c, table, GeoPackageSchema.srsId(epsg));
        }
        for (String index : Tables.INDEXES) {
          s.execute(index);
        }
        for (Table table : Tables.ALL) {
          if (table.logged()) {
            for (String trigger : ChangeLogTriggers.of(table)) {
              s.execute(trigger);
            }
          }
        }
      }
      GeoPackageSchema.addExtension(
          c, Tables.CHANGE_LOG.name(), null, ChangeLogTriggers.EXTENSION, ChangeLogTriggers.ABOUT);
      try (PreparedStatement p = c.prepareStatement(Tables.LANEMEND_STORE.insertSql())) {
        p.setInt(1, SCHEMA_VERSION);
        p.setString(2, MILLIS.format(Instant.now()));
        p.executeUpdate();
      }
      c.commit();
    }
  }

  /**
   * Opens a store to read and write.
   *
   * @throws StoreException when there is none, it is no store of ours, newer than this program,
   *     damaged or read-only
   */
  public static Store open(Path file) {
    return open(file, BUSY_MILLIS);
  }

  /** As {@link #open(Path)}, waiting only so long for another program's write. */
  static Store open(Path file, int busyMillis) {
    StoreHeader.check(file);
    try {
      return new Store(file, busyMillis);
    } catch (SQLException e) {
      throw SqlErrors.of(file, e);
    }
  }

  private static Connection connect(Path file, int busyMillis) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(busyMillis);
    config.enforceForeignKeys(true);
    // FULL: a commit is on the disk before it is told, since this may be an agency's only copy.
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    Connection c = config.createConnection("jdbc:sqlite:" + file);
    SpatialFunctions.addTo(c);
    return c;
  }

  public Path file() {
    return file;
  }

  /** The projected system as well-known text, as given when the store was made. */
  public String crsWkt() {
    return crsWkt;
  }

  /** Its EPSG code, or 0 when it has none. */
  public int epsg() {
    return epsg;
  }

  /** Reads the store as it is at this moment, however long the reading takes. */
  public <T> T read(Function<Snapshot, T> work) {
    return inSession(session -> work.apply(new Snapshot(session, crsWkt)));
  }

  <T> T inSession(Function<Session, T> work) {
    try {
      Connection reader = readers.take();
      Session session = new Session(file, reader, srsId, false);
      try {
        execute(reader, "BEGIN");
        try {
          return work.apply(session);
        } finally {
          session.closeStatements();
          execute(reader, "ROLLBACK");
        }
      } finally {
        readers.giveBack(reader);
      }
    } catch (SQLException e) {
      throw SqlErrors.of(file, e);
    }
  }

  /**
   * Changes the store: everything {@code work} does lands together, with its line in the change
   * log, or nothing does.
   *
   * @param who whose change it is
   * @param why for instance {@code import defects.csv}
   * @param work throws to undo everything; its exception comes out of this call as it is
   */
  public void write(String who, String why, Consumer<Change> work) {
    if (writing.isHeldByCurrentThread()) {
      throw new IllegalStateException("a write inside a write: use the change at hand");
    }
    Session session = new Session(file, writer, srsId, true);
    writing.lock();
    try {
      long begun = System.nanoTime();
      // IMMEDIATE: waits for another program's write here, not halfway through ours.
      execute(writer, "BEGIN IMMEDIATE");
      boolean done = false;
      try {
        long edit = run(session, who, why, work);
        session.closeStatements();
        execute(writer, "COMMIT");
        done = true;
        WriteLog.done(edit, who, why, System.nanoTime() - begun);
      } finally {
        if (!done) {
          undo(session);
        }
      }
    } catch (SQLException e) {
      throw SqlErrors.of(file, e);
    } finally {
      writing.unlock();
    }
  }

  /**
   * Takes a write of the change log back: every row it touched is again what it was, but for its
   * version.
   *
   * @return rows put back
   * @throws StoreException when there is no such write, it was taken back already, or later changes
   *     touch or need the same rows
   */
  public int undo(long edit, String who) {
    int[] rows = new int[1];
    write(who, "undo " + edit, change -> rows[0] = Undo.of(change, edit));
    return rows[0];
  }

  /** Returns the number of the write. */
  private long run(Session session, String who, String why, Consumer<Change> work)
      throws SQLException {
    String at = MILLIS.format(Instant.now());
    session
        .statement("UPDATE editing SET edit = edit + 1, at = ?, who = ?, why = ?", at, who, why)
        .executeUpdate();
    Change change = new Change(session, crsWkt, who, at);
    work.accept(change);
    session.refuseIfFailed();
    change.finish();
    session.statement("UPDATE editing SET at = NULL, who = NULL, why = NULL").executeUpdate();
    try (ResultSet r = session.statement("SELECT edit FROM editing").executeQuery()) {
      r.next();
      return r.getLong(1);
    }
  }

  private void undo(Session session) {
    try {
      session.closeStatements();
      execute(writer, "ROLLBACK");
    } catch (SQLException e) {
      // After a full disk SQLite has rolled back by itself; anything else must be heard of.
      if (!String.valueOf(e.getMessage()).contains("no transaction is active")) {
        throw SqlErrors.of(file, e);
      }
    }
  }

  /** Keeps the file from growing beyond so many pages; for the test of a full disk. */
  void limitPages(int pages) {
    try {
      execute(writer, "PRAGMA max_page_count = " + pages);
    } catch (SQLException e) {
      throw SqlErrors.of(file, e);
    }
  }

  @Override
  public void close() {
    try {
      readers.close();
      OpenStores.remove(openAs);
      // The last to close folds the write-ahead log into the file, which is then a single one.
      writer.close();
    } catch (SQLException e) {
      throw SqlErrors.of(file, e);
    }
  }

  private static void execute(Connection connection, String sql) throws SQLException {
    try (Statement s = connection.createStatement()) {
      s.execute(sql);
    }
  }
}
