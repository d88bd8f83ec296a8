package lanemend.store;

import java.sql.ResultSet;
import java.util.Arrays;
import java.util.Collection;

/**
 * The rows of one kind, to read and change inside a {@link Change}. A row that cannot be written
 * throws a {@link StoreException} that names it, which undoes the whole change.
 */
public final class EditableRows<T> extends Rows<T> {
  private final Roads roads;
  private final Extents extents;

  EditableRows(Session session, RowShape<T> shape, Roads roads, Extents extents) {
    super(session, shape);
    this.roads = roads;
    this.extents = extents;
  }

  /** Adds a row; returns it as stored, at version 1. */
  public Stored<T> insert(T value) {
    Object[] values = shape.values(value, roads);
    extents.grow(shape.table(), values);
    long row = session.insert(shape.table(), shape.key(value), values);
    return new Stored<>(row, 1, value);
  }

  public void insertAll(Collection<? extends T> values) {
    values.forEach(this::insert);
  }

  /**
   * Writes {@code now} over a row that was read before.
   *
   * @return the row at its new version
   * @throws StaleRowException when somebody else changed or removed it since
   */
  public Stored<T> update(Stored<T> read, T now) {
    Object[] values = shape.values(now, roads);
    Object[] parameters = Arrays.copyOf(values, values.length + 2);
    parameters[values.length] = read.row();
    parameters[values.length + 1] = read.version();
    int changed =
        session.runForRow(
            name(now),
            () -> {
              extents.leave(session, shape.table(), read.row());
              return session.statement(shape.table().updateSql(), parameters).executeUpdate();
            });
    extents.grow(shape.table(), values);
    if (changed == 0) {
      throw stale(read);
    }
    return new Stored<>(read.row(), read.version() + 1, now);
  }

  /**
   * Removes a row that was read before.
   *
   * @throws StaleRowException when somebody else changed or removed it since
   */
  public void delete(Stored<T> read) {
    int changed =
        session.runForRow(
            name(read.value()),
            () -> {
              extents.leave(session, shape.table(), read.row());
              return session
                  .statement(
                      "DELETE FROM " + shape.table().name() + " WHERE fid = ? AND version = ?",
                      read.row(),
                      read.version())
                  .executeUpdate();
            });
    if (changed == 0) {
      throw stale(read);
    }
  }

  /** Removes every row. */
  public void deleteAll() {
    extents.shrink(shape.table());
    session.run(() -> session.statement("DELETE FROM " + shape.table().name()).executeUpdate());
  }

  private StaleRowException stale(Stored<T> read) {
    long found =
        session.run(
            () -> {
              String sql = "SELECT version FROM " + shape.table().name() + " WHERE fid = ?";
              try (ResultSet r = session.statement(sql, read.row()).executeQuery()) {
                return r.next() ? r.getLong(1) : 0L;
              }
            });
    return new StaleRowException(
        shape.table().name(), shape.key(read.value()), read.version(), found);
  }

  private String name(T value) {
    return shape.table().name() + " '" + shape.key(value) + "'";
  }
}
