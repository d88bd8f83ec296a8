package lanemend.store;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HexFormat;

/** A value as the change log has it, as SQLite takes it. */
final class LoggedValue {

  private LoggedValue() {}

  /**
   * The value of a column.
   *
   * @param row as in {@code before_json} or {@code after_json}; a column that came with a later
   *     layout was empty then, and is null
   */
  static Object of(JsonNode row, String column) {
    JsonNode value = row.get(column);
    if (value == null || value.isNull()) {
      return null;
    }
    if (column.equals("geom")) {
      return value.asText().isEmpty() ? null : HexFormat.of().parseHex(value.asText());
    }
    if (value.isIntegralNumber()) {
      return value.asLong();
    }
    return value.isNumber() ? (Object) value.asDouble() : value.asText();
  }
}
