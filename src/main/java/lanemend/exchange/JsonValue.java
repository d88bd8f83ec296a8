package lanemend.exchange;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A value of a JSON settings file with the line and the path where it stands, so that a wrong field
 * can be named.
 *
 * @param path for instance {@code plants[0].daily_tons}; empty for the whole
 * @param text the value as written, for a string without its quotes
 * @param members by name when this is an object
 * @param items when this is an array
 */
record JsonValue(
    String path,
    long line,
    JsonToken token,
    String text,
    Map<String, JsonValue> members,
    List<JsonValue> items) {

  private static final long LARGEST_FILE = 16 << 20;

  boolean isObject() {
    return token == JsonToken.START_OBJECT;
  }

  boolean isArray() {
    return token == JsonToken.START_ARRAY;
  }

  boolean isText() {
    return token == JsonToken.VALUE_STRING;
  }

  boolean isNumber() {
    return token.isNumeric();
  }

  boolean isNull() {
    return token == JsonToken.VALUE_NULL;
  }

  /** The value in a message. */
  String shown() {
    return isObject() ? "an object" : isArray() ? "an array" : text;
  }

  /**
   * Reads a file whole.
   *
   * @throws ExchangeException when it cannot be read, is not JSON, or has a field twice
   */
  static JsonValue read(Path file) {
    String name = RowSource.nameOf(file);
    try {
      if (Files.size(file) > LARGEST_FILE) {
        throw new ExchangeException(
            new RowProblem(name, 0, "", Files.size(file) + " bytes", "at most 16 MB of settings"));
      }
      try (Reader text = BoundedLines.utf8(file)) {
        return parse(name, text);
      }
    } catch (IOException e) {
      throw CsvRows.unreadable(name, e);
    }
  }

  /** The same from text; {@code name} stands for the file in messages. */
  static JsonValue parse(String name, String json) {
    try {
      return parse(name, new StringReader(json));
    } catch (IOException e) {
      throw CsvRows.unreadable(name, e);
    }
  }

  private static JsonValue parse(String name, Reader text) throws IOException {
    try (JsonParser p = StrictJson.factory().createParser(text)) {
      try {
        return whole(name, p);
      } catch (JsonProcessingException e) {
        throw StrictJson.malformed(name, e, p);
      }
    }
  }

  private static JsonValue whole(String name, JsonParser p) throws IOException {
    if (p.nextToken() == null) {
      throw new ExchangeException(new RowProblem(name, 1, "", "an empty file", "a JSON object"));
    }
    JsonValue value = value(name, p, "");
    if (p.nextToken() != null) {
      throw new ExchangeException(
          new RowProblem(
              name,
              p.currentTokenLocation().getLineNr(),
              "",
              p.getText(),
              "nothing after the object"));
    }
    return value;
  }

  private static JsonValue value(String name, JsonParser p, String path) throws IOException {
    JsonToken token = p.currentToken();
    long line = p.currentTokenLocation().getLineNr();
    Map<String, JsonValue> members = new LinkedHashMap<>();
    List<JsonValue> items = new ArrayList<>();
    String text = token.isScalarValue() ? p.getText() : "";
    if (token == JsonToken.START_OBJECT) {
      while (p.nextToken() == JsonToken.FIELD_NAME) {
        String field = p.currentName();
        p.nextToken();
        String memberPath = path.isEmpty() ? field : path + "." + field;
        JsonValue member = value(name, p, memberPath);
        if (members.put(field, member) != null) {
          throw new ExchangeException(
              new RowProblem(name, member.line(), memberPath, member.shown(), "each field once"));
        }
      }
    } else if (token == JsonToken.START_ARRAY) {
      while (p.nextToken() != JsonToken.END_ARRAY) {
        items.add(value(name, p, path + "[" + items.size() + "]"));
      }
    }
    return new JsonValue(path, line, token, text, members, items);
  }
}
