package lanemend.exchange;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;

/** Settings as JSON a person can read and edit: indented, numbers in plain decimals. */
final class JsonText {
  private JsonText() {}

  /** What goes into the text. */
  interface Body {
    void write(JsonGenerator out) throws IOException;
  }

  static String of(Body body) {
    StringWriter text = new StringWriter();
    try (JsonGenerator out = new JsonFactory().createGenerator(text)) {
      out.setPrettyPrinter(new DefaultPrettyPrinter());
      body.write(out);
    } catch (IOException e) {
      throw new UncheckedIOException("writing to memory cannot fail", e);
    }
    return text.append('\n').toString();
  }

  static void number(JsonGenerator out, String field, double value) throws IOException {
    out.writeFieldName(field);
    out.writeNumber(Numbers.plain(value));
  }

  static void money(JsonGenerator out, String field, BigDecimal value) throws IOException {
    out.writeFieldName(field);
    out.writeNumber(value.toPlainString());
  }
}
