package lanemend.store;

import java.nio.file.Path;
import java.sql.SQLException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** SQLite's errors in a sentence that says what to do. */
final class SqlErrors {

  private SqlErrors() {}

  /** A failure of the file as a whole. */
  static StoreException of(Path file, SQLException e) {
    return isFull(e)
        ? new NoRoomException(sentence(file, e), e)
        : new StoreException(sentence(file, e), e);
  }

  /** A failure to write one row; {@code row} is for instance {@code defect 'D-1'}. */
  static StoreException ofRow(Path file, String row, SQLException e) {
    SQLiteErrorCode code = code(e);
    String message = detail(e);
    return switch (code) {
      case SQLITE_CONSTRAINT_UNIQUE, SQLITE_CONSTRAINT_PRIMARYKEY ->
          new StoreException(row + " is already in the store", e);
      case SQLITE_CONSTRAINT_FOREIGNKEY ->
          new StoreException(
              row + " points to a row that is not in the store, or others still point to it", e);
      case SQLITE_CONSTRAINT_NOTNULL -> new StoreException(row + " lacks a value: " + message, e);
      case SQLITE_CONSTRAINT_CHECK ->
          new StoreException(row + " has a value the store does not take: " + message, e);
      default -> of(file, e);
    };
  }

  static String sentence(Path file, SQLException e) {
    return switch (code(e).code & 0xff) {
      case 5, 6 ->
          file
              + " is being written by another program; nothing was changed, try again when it has"
              + " finished";
      case 8, 3, 14 -> file + " cannot be written: the file or its folder is read-only";
      case 10 -> "the disk failed while " + file + " was read or written (" + detail(e) + ")";
      case 11, 26 ->
          file
              + " is damaged ("
              + detail(e)
              + "); put back a backup copy with 'restore', or take what can be read with"
              + " 'salvage'";
      case 13 -> "there is no room left to write " + file + "; nothing was changed";
      default -> file + " could not be read or written: " + detail(e);
    };
  }

  private static boolean isFull(SQLException e) {
    return (code(e).code & 0xff) == SQLiteErrorCode.SQLITE_FULL.code;
  }

  private static SQLiteErrorCode code(SQLException e) {
    return e instanceof SQLiteException s ? s.getResultCode() : SQLiteErrorCode.UNKNOWN_ERROR;
  }

  /** The driver repeats the code's name and standard text around SQLite's own message. */
  private static String detail(SQLException e) {
    String message = String.valueOf(e.getMessage());
    int open = message.lastIndexOf('(');
    return open >= 0 && message.endsWith(")")
        ? message.substring(open + 1, message.length() - 1)
        : message;
  }
}
