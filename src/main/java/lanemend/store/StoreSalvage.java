package lanemend.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import lanemend.sqlite.FileCopies;

/**
 * What can be saved of a damaged store, in a new file: every row that can be read, rows of
 * unreadable pages from the change log, indexes and R-trees built anew. The damaged file is left as
 * it is.
 */
public final class StoreSalvage {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** Looked for where nothing tells how far a table's numbers go. */
  private static final long MOST_NUMBERED = 1_000_000;

  /** The same of a table whose rows are numbered one by one, behind those that can be read. */
  private static final long LOOKED_BEYOND = 10_000;

  private final Path damaged;
  private final Connection from;
  private final Connection to;
  private final List<String> lost = new ArrayList<>();
  private long rows;
  private long fromLog;

  private StoreSalvage(Path damaged, Connection from, Connection to) {
    this.damaged = damaged;
    this.from = from;
    this.to = to;
  }

  /**
   * What was saved.
   *
   * @param rows read from the damaged file
   * @param fromLog rows of unreadable pages that the change log had
   * @param lost a sentence for each table that may lack rows
   */
  public record Saved(Path file, long rows, long fromLog, List<String> lost) {
    public Saved {
      lost = List.copyOf(lost);
    }
  }

  /** What the file is made of, in the order it was made. */
  private record Part(String type, String name, String sql) {
    boolean isTable() {
      return type.equals("table") && !isVirtual() && !name.startsWith("sqlite_");
    }

    boolean isVirtual() {
      return sql != null && sql.toUpperCase(java.util.Locale.ROOT).startsWith("CREATE VIRTUAL");
    }
  }

  /**
   * Saves what can be saved.
   *
   * @param to appears whole or not at all
   * @throws StoreException when {@code to} is there, or not even the list of tables can be read
   */
  public static Saved run(Path damaged, Path to) {
    if (!Files.isRegularFile(damaged)) {
      throw new StoreException(damaged + " does not exist");
    }
    if (Files.exists(to)) {
      throw new StoreException(to + " already exists; nothing is replaced");
    }
    Path made = FileCopies.making(to);
    StoreBackup.clear(made);
    try {
      StoreSalvage salvage;
      try (Connection in = FileCopies.connect(damaged);
          Connection out = FileCopies.connect(made)) {
        SpatialFunctions.addTo(out);
        salvage = new StoreSalvage(damaged, in, out);
        salvage.copy();
      } catch (SQLException e) {
        throw SqlErrors.of(made, e);
      }
      Files.move(made, to, StandardCopyOption.ATOMIC_MOVE);
      FileCopies.onDisk(to.toAbsolutePath().getParent());
      return new Saved(to, salvage.rows, salvage.fromLog, salvage.lost);
    } catch (IOException e) {
      throw new StoreException(to + " cannot be made: " + e.getMessage(), e);
    } finally {
      StoreBackup.clear(made);
    }
  }

  private void copy() throws SQLException {
    List<Part> parts = parts();
    execute("PRAGMA foreign_keys = OFF");
    execute("PRAGMA application_id = " + GeoPackageSchema.APPLICATION_ID);
    execute("PRAGMA user_version = " + GeoPackageSchema.USER_VERSION);
    to.setAutoCommit(false);
    List<Part> virtual = parts.stream().filter(Part::isVirtual).toList();
    for (Part part : parts) {
      boolean shadow = virtual.stream().anyMatch(v -> part.name().startsWith(v.name() + "_"));
      if ((part.isTable() || part.isVirtual()) && !shadow) {
        execute(part.sql());
      }
    }
    for (Part part : parts) {
      boolean shadow = virtual.stream().anyMatch(v -> part.name().startsWith(v.name() + "_"));
      if (part.isTable() && !shadow) {
        rows(part.name());
      }
    }
    for (Table table : Tables.ALL) {
      if (table.logged()) {
        backFromLog(table);
      }
    }
    for (Part part : parts) {
      boolean later = part.type().equals("index") || part.type().equals("trigger");
      if (later && part.sql() != null) {
        execute(part.sql());
      }
    }
    for (Part tree : virtual) {
      fillTree(tree.name());
    }
    numbersGivenOut();
    to.commit();
  }

  private void fillTree(String tree) {
    String table = tree.substring("rtree_".length(), tree.lastIndexOf('_'));
    try {
      execute(GeoPackageSchema.fillRtree(tree, table));
    } catch (SQLException e) {
      lost.add(table + ": its R-tree waits for 'check --repair', as a geometry is damaged");
    }
  }

  /** A number that was given to a row once is given to no other, even where that row is gone. */
  private void numbersGivenOut() throws SQLException {
    try (Statement s = from.createStatement();
        ResultSet r = s.executeQuery("SELECT name, seq FROM sqlite_sequence");
        PreparedStatement p =
            to.prepareStatement("UPDATE sqlite_sequence SET seq = max(seq, ?) WHERE name = ?")) {
      while (r.next()) {
        p.setLong(1, r.getLong(2));
        p.setString(2, r.getString(1));
        p.executeUpdate();
      }
    } catch (SQLException e) {
      lost.add("the numbers of rows that were deleted before may be given out again");
    }
  }

  private List<Part> parts() {
    List<Part> parts = new ArrayList<>();
    try (Statement s = from.createStatement();
        ResultSet r = s.executeQuery("SELECT type, name, sql FROM sqlite_master ORDER BY rowid")) {
      while (r.next()) {
        parts.add(new Part(r.getString(1), r.getString(2), r.getString(3)));
      }
    } catch (SQLException e) {
      throw new StoreException(
          damaged + " is damaged where it says which tables it has: put back a backup copy", e);
    }
    return parts;
  }

  /** Copies a table's rows; pages that cannot be read are felt around row by row. */
  private void rows(String table) throws SQLException {
    List<String> columns = columns(table);
    String names = String.join(", ", columns);
    String marks = columns.stream().map(c -> "?").collect(Collectors.joining(", "));
    long unreadable = 0;
    try (PreparedStatement add =
        to.prepareStatement(
            "INSERT OR REPLACE INTO " + table + " (" + names + ") VALUES (" + marks + ")")) {
      long last = lastRow(table);
      List<long[]> open = new ArrayList<>();
      open.add(new long[] {Long.MIN_VALUE, last});
      while (!open.isEmpty()) {
        long[] range = open.remove(open.size() - 1);
        if (copyRange(table, names, columns.size(), range, add)) {
          continue;
        }
        long low = Math.max(range[0], 0);
        if (low >= range[1]) {
          unreadable++;
          continue;
        }
        long middle = low + (range[1] - low) / 2;
        open.add(new long[] {middle + 1, range[1]});
        open.add(new long[] {low, middle});
      }
    }
    if (unreadable > 0) {
      lost.add(table + ": up to " + unreadable + " rows could not be read");
    }
  }

  private boolean copyRange(
      String table, String names, int columns, long[] range, PreparedStatement add)
      throws SQLException {
    List<Object[]> read = new ArrayList<>();
    try (PreparedStatement p =
        from.prepareStatement(
            "SELECT " + names + " FROM " + table + " WHERE rowid BETWEEN ? AND ? ORDER BY rowid")) {
      p.setLong(1, range[0]);
      p.setLong(2, range[1]);
      try (ResultSet r = p.executeQuery()) {
        while (r.next()) {
          Object[] row = new Object[columns];
          for (int i = 0; i < columns; i++) {
            row[i] = r.getObject(i + 1);
          }
          read.add(row);
        }
      }
    } catch (SQLException e) {
      if (read.isEmpty() || range[0] < range[1]) {
        // A damaged page within; half of it may do.
        return false;
      }
      // The row itself was read: it is the page behind it that is damaged.
    }
    for (Object[] row : read) {
      for (int i = 0; i < columns; i++) {
        add.setObject(i + 1, row[i]);
      }
      try {
        add.executeUpdate();
        rows++;
      } catch (SQLException e) {
        lost.add(table + ": a row is damaged within: " + SqlErrors.sentence(damaged, e));
      }
    }
    return true;
  }

  /** No row has a greater number; where that cannot be told, the loss of what may have is said. */
  private long lastRow(String table) {
    String[] ways = {
      "SELECT max(rowid) FROM " + table,
      "SELECT seq FROM sqlite_sequence WHERE name = '" + table + "'",
      "SELECT max(row_fid) FROM change_log WHERE table_name = '" + table + "'"
    };
    boolean failed = false;
    for (String way : ways) {
      try (Statement s = from.createStatement();
          ResultSet r = s.executeQuery(way)) {
        // An empty table has no greatest; another program's may be neither counted nor logged.
        if (r.next() && (r.getObject(1) != null || way.equals(ways[0]))) {
          return r.getLong(1);
        }
      } catch (SQLException e) {
        // The next way may lead around the damaged page.
        failed |= !way.equals(ways[0]);
      }
    }
    long last = failed ? MOST_NUMBERED : lastReadable(table) + LOOKED_BEYOND;
    lost.add(table + ": rows numbered above " + last + " were not looked for");
    return last;
  }

  /** Number of the last row before the first damaged page; 0 for none. */
  private long lastReadable(String table) {
    long last = 0;
    try (Statement s = from.createStatement();
        ResultSet r = s.executeQuery("SELECT rowid FROM " + table + " ORDER BY rowid")) {
      while (r.next()) {
        last = r.getLong(1);
      }
    } catch (SQLException e) {
      // So far, and no further.
      return last;
    }
    return last;
  }

  private List<String> columns(String table) throws SQLException {
    List<String> columns = new ArrayList<>();
    try (Statement s = to.createStatement();
        ResultSet r = s.executeQuery("SELECT name FROM pragma_table_info('" + table + "')")) {
      while (r.next()) {
        columns.add(r.getString(1));
      }
    }
    return columns;
  }

  /** Rows that the log says are there and the file could not give. */
  private void backFromLog(Table table) throws SQLException {
    List<String> columns = columns(table.name());
    String sql =
        "SELECT l.row_fid, l.after_json FROM change_log l JOIN (SELECT max(fid) AS fid FROM"
            + " change_log WHERE table_name = ? GROUP BY row_fid) last ON l.fid = last.fid"
            + " WHERE l.action <> 'delete' AND l.row_fid NOT IN (SELECT fid FROM "
            + table.name()
            + ")";
    String marks = columns.stream().map(c -> "?").collect(Collectors.joining(", "));
    try (PreparedStatement missing = to.prepareStatement(sql);
        PreparedStatement add =
            to.prepareStatement(
                "INSERT INTO "
                    + table.name()
                    + " ("
                    + String.join(", ", columns)
                    + ") VALUES ("
                    + marks
                    + ")")) {
      missing.setString(1, table.name());
      try (ResultSet r = missing.executeQuery()) {
        while (r.next()) {
          add(add, columns, r.getLong(1), JSON.readTree(r.getString(2)));
        }
      }
    } catch (JsonProcessingException e) {
      lost.add(table.name() + ": the change log holds what is no JSON");
    }
  }

  private void add(PreparedStatement add, List<String> columns, long fid, JsonNode row) {
    try {
      for (int i = 0; i < columns.size(); i++) {
        String column = columns.get(i);
        add.setObject(i + 1, column.equals("fid") ? (Object) fid : LoggedValue.of(row, column));
      }
      add.executeUpdate();
      fromLog++;
    } catch (SQLException e) {
      lost.add("row " + fid + " is in the log, but not as it can be kept: " + e.getMessage());
    }
  }

  private void execute(String sql) throws SQLException {
    try (Statement s = to.createStatement()) {
      s.execute(sql);
    }
  }
}
