package lanemend.exchange;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Which columns of the user's file hold which of Lanemend's fields. A field that is not mapped is
 * looked for under its own name.
 *
 * @param columns by field: the columns to look in, in lower case; the first that is filled counts
 */
public record FieldMap(Map<String, List<String>> columns) {
  /** Every field under its own name. */
  public static final FieldMap NONE = new FieldMap(Map.of());

  public FieldMap {
    columns = Map.copyOf(columns);
  }

  /**
   * Reads {@code field=column} or {@code field=column|column}, once per field.
   *
   * @throws IllegalArgumentException with a sentence for the user
   */
  public static FieldMap parse(List<String> specs) {
    Map<String, String> byField = new LinkedHashMap<>();
    for (String spec : specs) {
      int equals = spec.indexOf('=');
      if (equals < 1) {
        throw new IllegalArgumentException(
            "'" + spec + "' does not map a field: write field=column, for instance route=ref|name");
      }
      String field = spec.substring(0, equals);
      if (byField.put(field, spec.substring(equals + 1)) != null) {
        throw new IllegalArgumentException("field " + field + " is mapped twice");
      }
    }
    return of(byField);
  }

  /**
   * The same from pairs of field and {@code column|column}.
   *
   * @throws IllegalArgumentException with a sentence for the user
   */
  public static FieldMap of(Map<String, String> byField) {
    Map<String, List<String>> columns = new LinkedHashMap<>();
    byField.forEach(
        (field, names) -> {
          List<String> list =
              java.util.Arrays.stream(names.split("\\|", -1)).map(FieldMap::normal).toList();
          if (list.stream().anyMatch(String::isEmpty)) {
            throw new IllegalArgumentException(
                "field " + field + " is mapped to '" + names + "': a column name is missing");
          }
          columns.put(normal(field), list);
        });
    return new FieldMap(columns);
  }

  /** Columns to look in for a field. */
  List<String> columnsOf(String field) {
    return columns.getOrDefault(field, List.of(field));
  }

  private static String normal(String name) {
    return name.strip().toLowerCase(Locale.ROOT);
  }
}
