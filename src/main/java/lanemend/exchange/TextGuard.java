package lanemend.exchange;

/**
 * Keeps a spreadsheet from running a text cell as a formula. On export a text that starts with =,
 * +, -, @, a tab, a line break, a null character, or an apostrophe before one of these gets an
 * apostrophe in front (OWASP ASVS 5.0.0, 1.2.10); on import that apostrophe is taken off again.
 * Numbers are never touched.
 */
final class TextGuard {
  private static final String RISKY = "=+-@\t\r\0'";

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
    return RISKY.indexOf(c) >= 0 || c == '\n';
  }
}
