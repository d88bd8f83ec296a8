package lanemend.exchange;

/**
 * One thing wrong with one row of an input file.
 *
 * @param line line counted from 1 (GeoPackage: the feature's id); 0 when the whole file is meant
 * @param field column or property, or empty when the row as a whole is meant
 * @param found what stands there, shortened and without control characters
 * @param expected what would have been right
 */
public record RowProblem(String file, long line, String field, String found, String expected) {
  private static final int LONGEST_FOUND = 120;
  private static final int LONGEST_EXPECTED = 1_000;

  public RowProblem {
    field = shown(field, LONGEST_FOUND);
    found = shown(found, LONGEST_FOUND);
    expected = shown(expected, LONGEST_EXPECTED);
  }

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

  /** A hostile file must not steer the terminal or fill the report, so what it holds is tamed. */
  private static String shown(String text, int longest) {
    StringBuilder out = new StringBuilder(Math.min(text.length(), longest));
    int i = 0;
    while (i < text.length() && out.length() < longest) {
      int c = text.codePointAt(i);
      boolean plain =
          !Character.isISOControl(c)
              && Character.getType(c) != Character.FORMAT
              && Character.getType(c) != Character.SURROGATE;
      out.appendCodePoint(plain ? c : 0xFFFD);
      i += Character.charCount(c);
    }
    return i < text.length() ? out.append("...").toString() : out.toString();
  }
}
