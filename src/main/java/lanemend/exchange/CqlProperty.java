package lanemend.exchange;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.geotools.api.filter.expression.Expression;
import org.geotools.api.filter.expression.ExpressionVisitor;
import org.geotools.util.Converters;

/**
 * One named property of a record, which reads it where the parsed filter asks.
 *
 * @param words the words a {@link Kind#WORD} may be; else empty
 * @param read gives a String, a Double, a LocalDate, a geometry or null
 */
record CqlProperty<T>(String name, Kind kind, List<String> words, Function<T, Object> read)
    implements Expression {

  /** What a property holds. */
  enum Kind {
    TEXT,
    /** One of a few words, which have no order. */
    WORD,
    NUMBER,
    /** A day; compared as text, which sorts as days do and knows no time zone. */
    DATE,
    GEOMETRY
  }

  @Override
  @SuppressWarnings("unchecked") // a filter is only ever given records of its own kind
  public Object evaluate(Object object) {
    Object value = read.apply((T) object);
    return value instanceof LocalDate day ? day.toString() : value;
  }

  @Override
  public <V> V evaluate(Object object, Class<V> context) {
    return Converters.convert(evaluate(object), context);
  }

  @Override
  public Object accept(ExpressionVisitor visitor, Object extraData) {
    return this;
  }

  /**
   * What a value written beside this property means; refused where it can mean nothing, since a
   * filter that is never true would pass for an answer.
   */
  Object meaning(Object written) {
    String text = String.valueOf(written);
    return switch (kind) {
      case TEXT -> text(written);
      case WORD -> word(text);
      case NUMBER -> number(written, text);
      case DATE -> day(written, text);
      case GEOMETRY ->
          throw CqlText.problem(
              text, "geometry in BBOX, DWITHIN, INTERSECTS and the like, not compared");
    };
  }

  /** The same property where its text is a number, else nothing. */
  CqlProperty<T> asNumber() {
    return new CqlProperty<>(
        name,
        Kind.NUMBER,
        List.of(),
        t -> {
          double value = Cells.parse(String.valueOf(read.apply(t)));
          return Double.isNaN(value) ? null : (Double) value;
        });
  }

  private Object text(Object written) {
    if (written instanceof Boolean) {
      throw CqlText.problem(
          String.valueOf(written), "beside " + name + " a text in single quotes, such as 'yes'");
    }
    return written;
  }

  private String word(String text) {
    String plain = text.strip().toLowerCase(Locale.ROOT).replace(' ', '_');
    if (!words.contains(plain)) {
      throw CqlText.problem(text, "for " + name + " one of " + String.join(", ", words));
    }
    return plain;
  }

  private Double number(Object written, String text) {
    double value = written instanceof Number n ? n.doubleValue() : Cells.parse(text);
    if (Double.isNaN(value)) {
      throw CqlText.problem(text, "a number beside " + name);
    }
    return value;
  }

  private String day(Object written, String text) {
    if (written instanceof java.util.Date date) {
      return CqlText.dayWritten(date).toString();
    }
    try {
      return LocalDate.parse(text.strip()).toString();
    } catch (DateTimeParseException e) {
      throw CqlText.problem(text, "beside " + name + " a date such as '2026-04-30'");
    }
  }
}
