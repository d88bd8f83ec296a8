package lanemend.store;

/** A row was changed (or removed) by somebody else after it was read. */
public final class StaleRowException extends StoreException {
  private static final long serialVersionUID = 1L;
  private final String table;
  private final String row;
  private final long expected;
  private final long found;

  /**
   * @param expected the version that was read
   * @param found the version there now; 0 when the row is gone
   */
  StaleRowException(String table, String row, long expected, long found) {
    super(
        found == 0
            ? table + " '" + row + "' was removed by somebody else since it was read"
            : table
                + " '"
                + row
                + "' was changed by somebody else since it was read: expected version "
                + expected
                + ", found version "
                + found);
    this.table = table;
    this.row = row;
    this.expected = expected;
    this.found = found;
  }

  public String table() {
    return table;
  }

  /** The row's own key, for instance a defect's id. */
  public String row() {
    return row;
  }

  public long expected() {
    return expected;
  }

  /** 0 when the row is gone. */
  public long found() {
    return found;
  }
}
