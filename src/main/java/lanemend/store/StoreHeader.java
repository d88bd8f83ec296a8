package lanemend.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/**
 * Tells whether a file is a store of ours, without changing it: most files people open by mistake
 * are somebody else's data.
 */
final class StoreHeader {
  private static final String MAGIC = "SQLite format 3\0";
  private static final int SIZE = 100;

  private StoreHeader() {}

  static void check(Path file) {
    checkReadable(file);
    if (!Files.isWritable(file)) {
      throw new StoreException(file + " cannot be written: the file is read-only");
    }
  }

  /** As {@link #check}; the file may be read-only. */
  static void checkReadable(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new StoreException(file + (Files.exists(file) ? " is not a file" : " does not exist"));
    }
    if (OpenStores.has(file)) {
      // Reading and closing the file would take away the locks this process holds on it (POSIX),
      // and
      // with them what tells other programs that it is in use. It was looked at when opened.
      return;
    }
    byte[] bytes = read(file);
    if (bytes.length < SIZE || !MAGIC.equals(new String(bytes, 0, 16, StandardCharsets.US_ASCII))) {
      throw new StoreException(file + " is not a GeoPackage (it is no SQLite file)");
    }
    ByteBuffer header = ByteBuffer.wrap(bytes);
    if (header.getInt(68) != GeoPackageSchema.APPLICATION_ID) {
      throw new StoreException(
          file + " is an SQLite file, but not a GeoPackage (its application id is not GPKG)");
    }
    checkSize(file, header);
    checkLayout(file);
  }

  private static byte[] read(Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(SIZE);
    } catch (IOException e) {
      throw new StoreException(file + " cannot be read: " + e.getMessage(), e);
    }
  }

  /** A copy that broke off is found here and not when its last rows are first read. */
  private static void checkSize(Path file, ByteBuffer header) {
    int pageField = Short.toUnsignedInt(header.getShort(16));
    long pageSize = pageField == 1 ? 65536 : pageField;
    // The header's page count holds only when these two counters agree (SQLite file format 1.3.7),
    // and only once the write-ahead log has been folded in.
    boolean counted = header.getInt(24) == header.getInt(92);
    boolean logLeft = Files.exists(file.resolveSibling(file.getFileName() + "-wal"));
    try {
      long expected = Integer.toUnsignedLong(header.getInt(28)) * pageSize;
      if (counted && !logLeft && Files.size(file) < expected) {
        throw new StoreException(
            file
                + " is damaged: it has "
                + Files.size(file)
                + " bytes of "
                + expected
                + "; put back a backup copy");
      }
    } catch (IOException e) {
      throw new StoreException(file + " cannot be read: " + e.getMessage(), e);
    }
  }

  private static void checkLayout(Path file) {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = c.createStatement()) {
      if (!hasLayoutTable(s)) {
        throw new StoreException(
            file + " is a GeoPackage, but not a Lanemend store; import from it instead");
      }
      try (ResultSet r = s.executeQuery("SELECT max(schema_version) FROM lanemend_store")) {
        int version = r.next() ? r.getInt(1) : 0;
        if (version > Store.SCHEMA_VERSION) {
          throw new StoreException(
              file
                  + " was written by a newer Lanemend: its layout is version "
                  + version
                  + ", this program knows version "
                  + Store.SCHEMA_VERSION);
        }
        if (version < 1) {
          throw new StoreException(file + " does not say which layout version it has");
        }
      }
    } catch (SQLException e) {
      throw SqlErrors.of(file, e);
    }
  }

  private static boolean hasLayoutTable(Statement s) throws SQLException {
    try (ResultSet r =
        s.executeQuery("SELECT 1 FROM sqlite_master WHERE name = 'lanemend_store'")) {
      return r.next();
    }
  }
}
