package lanemend.store;

import java.sql.SQLException;

/** How a core record lies in its table. */
interface RowShape<T> {

  Table table();

  /** What a person calls this row: the same text the table's key expression gives. */
  String key(T value);

  /**
   * Values in the order of {@link Table#written}.
   *
   * @param roads lines of the roads, to draw on
   */
  Object[] values(T value, Roads roads);

  T read(Row row) throws SQLException;
}
