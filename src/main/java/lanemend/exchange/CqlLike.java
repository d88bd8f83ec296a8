package lanemend.exchange;

import java.util.Locale;
import org.geotools.api.filter.Filter;
import org.geotools.api.filter.FilterVisitor;
import org.geotools.api.filter.expression.Expression;

/**
 * LIKE without regular expressions: a pattern of many % on a long note would keep those busy for
 * years. Time at most text times pattern.
 *
 * @param pattern % for any text, _ for any one character, a backslash before either for itself
 */
record CqlLike(Expression text, String pattern, boolean matchingCase) implements Filter {

  @Override
  public boolean evaluate(Object row) {
    Object value = text.evaluate(row);
    if (value == null) {
      return false;
    }
    return matchingCase
        ? matches(value.toString(), pattern)
        : matches(lower(value.toString()), lower(pattern));
  }

  @Override
  public Object accept(FilterVisitor visitor, Object extraData) {
    return this;
  }

  private static String lower(String s) {
    return s.toLowerCase(Locale.ROOT);
  }

  /** Goes back to the last % only: an earlier one could not do better. */
  private static boolean matches(String s, String p) {
    int at = 0;
    int in = 0;
    int afterAny = -1;
    int resume = 0;
    while (at < s.length()) {
      if (in < p.length() && p.charAt(in) == '%') {
        afterAny = ++in;
        resume = at;
      } else if (in < p.length() && fits(s.charAt(at), p, in)) {
        in += escaped(p, in) ? 2 : 1;
        at++;
      } else if (afterAny >= 0) {
        in = afterAny;
        at = ++resume;
      } else {
        return false;
      }
    }
    while (in < p.length() && p.charAt(in) == '%') {
      in++;
    }
    return in == p.length();
  }

  private static boolean escaped(String p, int in) {
    return p.charAt(in) == '\\' && in + 1 < p.length();
  }

  private static boolean fits(char c, String p, int in) {
    return escaped(p, in) ? c == p.charAt(in + 1) : p.charAt(in) == '_' || c == p.charAt(in);
  }
}
