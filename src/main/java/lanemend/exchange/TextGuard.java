package lanemend.exchange;

/**
 * Keeps a spreadsheet from running a text cell as a formula. On export a text that starts with =,
 * +, -, @, a tab, or an apostrophe before one of these gets an apostrophe in front; on import that
 * apostrophe is taken off again. Numbers are never touched.
 */
final class TextGuard {
  private static final String RISKY = "=+-@\t'";

  private TextGuard() {}

  static String guard(String text) {
    if (text.isEmpty()) {
      return text;
    }
    char first = text.charAt(0);
    boolean risky = first == '\'' ? text.length() > 1 && isRisky(text.charAt(1)) : isRisky(first);
    return risky ? "'" + text : text;
  }

  static String restore(String cell) {
    return cell.length() > 1 && cell.charAt(0) == '\'' && isRisky(cell.charAt(1))
        ? cell.substring(1)
        : cell;
  }

  private static boolean isRisky(char c) {
    return RISKY.indexOf(c) >= 0;
  }
}
