package lanemend.store;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import org.apache.commons.codec.digest.DigestUtils;

/**
 * All rows of a file boiled down: two files with one fingerprint hold the same tables with the same
 * rows, to the last bit.
 *
 * @param sha256 over names, definitions and values, in hexadecimal
 */
record Fingerprint(long rows, String sha256) {

  /** Of everything in the file: the standard's tables, ours, R-trees and what others added. */
  static Fingerprint of(Connection connection) throws SQLException {
    List<String> tables = new ArrayList<>();
    Digest digest = new Digest(Set.of());
    // Virtual tables have no pages of their own; their rows are in the tables beside them.
    String sql =
        "SELECT type, name, tbl_name, sql, type = 'table' AND rootpage > 0 FROM sqlite_master"
            + " ORDER BY type, name";
    try (Statement s = connection.createStatement();
        ResultSet r = s.executeQuery(sql)) {
      while (r.next()) {
        digest.row(r, 4);
        if (r.getInt(5) == 1) {
          tables.add(r.getString(2));
        }
      }
    }
    return digest.over(connection, tables);
  }

  /** Of some tables, without columns of these names; a table that is not there is an error. */
  static Fingerprint of(Connection connection, List<String> tables, Set<String> without)
      throws SQLException {
    return new Digest(without).over(connection, tables);
  }

  private static final class Digest {
    private final MessageDigest sha = DigestUtils.getSha256Digest();
    private final Set<String> without;
    private long rows;

    Digest(Set<String> without) {
      this.without = without;
    }

    Fingerprint over(Connection connection, List<String> tables) throws SQLException {
      rows = 0;
      for (String table : tables) {
        text(table);
        try (Statement s = connection.createStatement();
            ResultSet r = s.executeQuery("SELECT * FROM \"" + table + "\" ORDER BY rowid")) {
          int columns = r.getMetaData().getColumnCount();
          while (r.next()) {
            row(r, columns);
            rows++;
          }
        }
      }
      return new Fingerprint(rows, HexFormat.of().formatHex(sha.digest()));
    }

    void row(ResultSet r, int columns) throws SQLException {
      for (int i = 1; i <= columns; i++) {
        if (without.isEmpty() || !without.contains(r.getMetaData().getColumnName(i))) {
          value(r.getObject(i));
        }
      }
    }

    private void value(Object value) {
      if (value == null) {
        sha.update((byte) 'n');
      } else if (value instanceof byte[] blob) {
        bytes('b', blob);
      } else if (value instanceof Double number) {
        number('d', Double.doubleToRawLongBits(number));
      } else if (value instanceof Number whole) {
        number('i', whole.longValue());
      } else {
        text(value.toString());
      }
    }

    private void text(String text) {
      bytes('t', text.getBytes(StandardCharsets.UTF_8));
    }

    private void number(char kind, long bits) {
      sha.update((byte) kind);
      sha.update(ByteBuffer.allocate(Long.BYTES).putLong(bits).array());
    }

    /** With their length, so that two texts do not pass for one. */
    private void bytes(char kind, byte[] bytes) {
      number(kind, bytes.length);
      sha.update(bytes);
    }
  }
}
