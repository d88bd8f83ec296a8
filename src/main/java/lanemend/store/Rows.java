package lanemend.store;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The rows of one kind, to read. Every call reads the file and throws {@link StoreException} when
 * it cannot, or when another program left a value no reader understands.
 */
public class Rows<T> {
  final Session session;
  final RowShape<T> shape;

  Rows(Session session, RowShape<T> shape) {
    this.session = session;
    this.shape = shape;
  }

  /** Every record, in the order they were first written. */
  public List<T> all() {
    return values("");
  }

  /** The records of which a condition holds. */
  final List<T> values(String where, Object... parameters) {
    return select(where, parameters).stream().map(Stored::value).toList();
  }

  /** Every record with its row and version. */
  public List<Stored<T>> stored() {
    return select("", new Object[0]);
  }

  /** The record that has this key, for instance a defect's id. */
  public Optional<Stored<T>> find(String key) {
    String where = " WHERE " + shape.table().keyOf("t") + " = ?";
    return select(where, key).stream().findFirst();
  }

  public long count() {
    return session.run(
        () -> {
          PreparedStatement p = session.statement("SELECT count(*) FROM " + shape.table().name());
          try (ResultSet r = p.executeQuery()) {
            r.next();
            return r.getLong(1);
          }
        });
  }

  final List<Stored<T>> select(String where, Object... parameters) {
    Table table = shape.table();
    String sql =
        "SELECT t.*, "
            + table.keyOf("t")
            + " AS row_key FROM "
            + table.name()
            + " t"
            + where
            + " ORDER BY t.fid";
    return session.run(
        () -> {
          List<Stored<T>> rows = new ArrayList<>();
          try (ResultSet r = session.statement(sql, parameters).executeQuery()) {
            Row row = new Row(table, r);
            while (r.next()) {
              rows.add(new Stored<>(r.getLong("fid"), r.getLong("version"), shape.read(row)));
            }
          }
          return rows;
        });
  }
}
