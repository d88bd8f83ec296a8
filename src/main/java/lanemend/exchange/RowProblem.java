package lanemend.exchange;

/**
 * One thing wrong with one row of an input file.
 *
 * @param line line (or feature number) counted from 1; 0 when the whole file is meant
 * @param field column or property, or empty when the row as a whole is meant
 * @param found what stands there, shortened
 * @param expected what would have been right
 */
public record RowProblem(String file, long line, String field, String found, String expected) {
  /** One line for a person. */
  public String text() {
    return file
        + (line > 0 ? ":" + line : "")
        + (field.isEmpty() ? "" : " " + field)
        + ": found "
        + (found.isEmpty() ? "nothing" : "'" + found + "'")
        + ", expected "
        + expected;
  }
}
