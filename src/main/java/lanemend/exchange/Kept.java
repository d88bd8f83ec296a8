package lanemend.exchange;

import java.util.List;
import java.util.Locale;

/**
 * The records a filter is true of.
 *
 * @param rows in the order they came
 * @param of how many were looked at
 */
public record Kept<T>(List<T> rows, int of) {
  public Kept {
    rows = List.copyOf(rows);
  }

  /**
   * Filters records of one kind; {@link FilterTables} has what may be named. The one call the
   * command line and a page need.
   *
   * @param where a condition, see {@link CqlFilter}; null for every record
   * @throws ExchangeException with one sentence, as {@link CqlFilter#parse}
   */
  public static <T> Kept<T> where(List<T> rows, String where, EventProperties<T> known) {
    return where == null
        ? new Kept<>(rows, rows.size())
        : new Kept<>(rows.stream().filter(CqlFilter.parse(where, known)).toList(), rows.size());
  }

  /** Text such as {@code 3 of 400}. */
  public String text() {
    return String.format(Locale.ROOT, "%,d of %,d", rows.size(), of);
  }
}
