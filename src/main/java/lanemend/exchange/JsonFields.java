package lanemend.exchange;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;

/**
 * The fields of one JSON object, read strictly: a field must be there unless a method says
 * otherwise, must be of its kind, and a field nobody asked for is a fault ({@link #done}). A fault
 * is noted and a neutral value given, so that reading goes on to the next field.
 */
final class JsonFields {
  private final JsonValue object;
  private final JsonProblems problems;
  private final Set<String> asked = new TreeSet<>();

  JsonFields(JsonValue value, JsonProblems problems) {
    this.object = value;
    this.problems = problems;
    if (!value.isObject()) {
      problems.wrong(value, "an object");
    }
  }

  JsonProblems problems() {
    return problems;
  }

  boolean has(String field) {
    asked.add(field);
    JsonValue v = object.members().get(field);
    return v != null && !v.isNull();
  }

  /** The field's value, or null with a fault noted. */
  JsonValue value(String field, String expected) {
    if (has(field)) {
      return object.members().get(field);
    }
    if (object.isObject()) {
      problems.wrong(object.line(), pathOf(field), "", expected);
    }
    return null;
  }

  private String pathOf(String field) {
    return object.path().isEmpty() ? field : object.path() + "." + field;
  }

  private <T> T read(String field, String expected, T neutral, Function<JsonValue, T> parse) {
    JsonValue v = value(field, expected);
    return v == null ? neutral : orFault(v, expected, neutral, parse);
  }

  /** {@code parse} gives null for a value that is not as expected. */
  private <T> T orFault(JsonValue v, String expected, T neutral, Function<JsonValue, T> parse) {
    T parsed = parse.apply(v);
    if (parsed == null) {
      problems.wrong(v, expected);
      return neutral;
    }
    return parsed;
  }

  /** Text that is not blank. */
  String text(String field) {
    return read(field, "a text", "", JsonFields::plainText);
  }

  String textOr(String field, String absent) {
    return has(field) ? text(field) : absent;
  }

  private static String plainText(JsonValue v) {
    boolean good = v.isText() && !v.text().isBlank() && Cells.textFault(v.text()).isEmpty();
    return good ? v.text().strip() : null;
  }

  double number(String field, double min, double max) {
    return read(field, "a number " + Cells.range(min, max), min, v -> inRange(v, min, max));
  }

  private static Double inRange(JsonValue v, double min, double max) {
    double value = v.isNumber() ? Cells.parse(v.text()) : Double.NaN;
    return value >= min && value <= max ? Double.valueOf(value) : null;
  }

  int whole(String field, int min, int max) {
    String expected = "a whole number " + Cells.range(min, max);
    return read(
        field,
        expected,
        min,
        v -> {
          Double value = inRange(v, min, max);
          return value != null && value == Math.rint(value) ? (Integer) value.intValue() : null;
        });
  }

  boolean yesNo(String field) {
    return read(
        field,
        "true or false",
        false,
        v -> v.token().isBoolean() ? Boolean.valueOf(v.text()) : null);
  }

  /** An amount of money, 0 or more. */
  BigDecimal money(String field) {
    return BigDecimal.valueOf(number(field, 0, 1e9));
  }

  /** One of two spellings with their units; both or neither is a fault. */
  double either(String us, double usFactor, String metric, double metricFactor, double max) {
    if (has(us) && has(metric)) {
      problems.wrong(object.members().get(metric), "only one of " + us + " and " + metric);
      return 0;
    }
    return has(metric)
        ? number(metric, 0, max / metricFactor) * metricFactor
        : number(us, 0, max / usFactor) * usFactor;
  }

  LocalDate date(String field) {
    return read(field, DATE, LocalDate.EPOCH, JsonFields::day);
  }

  private static final String DATE = "a date such as 2026-04-30";

  private static LocalDate day(JsonValue v) {
    try {
      LocalDate day = v.isText() ? LocalDate.parse(v.text()) : null;
      return day != null && day.getYear() >= 1900 && day.getYear() < 2200 ? day : null;
    } catch (DateTimeException e) {
      return null;
    }
  }

  /** Dates; an absent field is an empty set. */
  Set<LocalDate> dates(String field) {
    Set<LocalDate> dates = new TreeSet<>();
    for (JsonValue v : has(field) ? list(field) : List.<JsonValue>of()) {
      dates.add(orFault(v, DATE, LocalDate.EPOCH, JsonFields::day));
    }
    return dates;
  }

  LocalTime time(String field) {
    return read(
        field,
        "a time such as 07:30",
        LocalTime.MIDNIGHT,
        v -> {
          try {
            return v.isText() ? LocalTime.parse(v.text()) : null;
          } catch (DateTimeException e) {
            return null;
          }
        });
  }

  <E extends Enum<E>> E word(String field, Class<E> type) {
    return read(field, Cells.words(type), type.getEnumConstants()[0], v -> word(v, type));
  }

  <E extends Enum<E>> Set<E> words(String field, Class<E> type) {
    Set<E> words = new LinkedHashSet<>();
    for (JsonValue v : list(field)) {
      words.add(
          orFault(v, Cells.words(type), type.getEnumConstants()[0], item -> word(item, type)));
    }
    return words;
  }

  private static <E extends Enum<E>> E word(JsonValue v, Class<E> type) {
    for (E e : type.getEnumConstants()) {
      if (v.isText() && e.name().equalsIgnoreCase(v.text().strip())) {
        return e;
      }
    }
    return null;
  }

  /** The items of an array. */
  List<JsonValue> list(String field) {
    return read(field, "an array", List.of(), v -> v.isArray() ? v.items() : null);
  }

  /** Objects of an array, each read by {@code item}. */
  <T> List<T> objects(String field, Function<JsonFields, T> item) {
    List<T> all = new ArrayList<>();
    for (JsonValue v : list(field)) {
      JsonFields fields = new JsonFields(v, problems);
      all.add(item.apply(fields));
      fields.done();
    }
    return all;
  }

  /** An object of this object. */
  JsonFields object(String field) {
    JsonValue v = value(field, "an object");
    return new JsonFields(
        v == null
            ? new JsonValue(
                pathOf(field),
                object.line(),
                com.fasterxml.jackson.core.JsonToken.START_OBJECT,
                "",
                Map.of(),
                List.of())
            : v,
        problems);
  }

  /** A number for every constant of an enum, in an object keyed by its words. */
  <E extends Enum<E>> Map<E, Double> numbersBy(
      String field, Class<E> type, double factor, double min, double max) {
    Map<E, Double> byKey = new EnumMap<>(type);
    if (value(field, "an object") != null) {
      JsonFields fields = object(field);
      for (E e : type.getEnumConstants()) {
        byKey.put(e, factor * fields.number(e.name().toLowerCase(Locale.ROOT), min, max));
      }
      fields.done();
    }
    return byKey;
  }

  /** Text by name, for mappings; an absent field is empty. */
  Map<String, String> texts(String field) {
    Map<String, String> texts = new java.util.LinkedHashMap<>();
    if (has(field)) {
      JsonFields fields = object(field);
      for (String name : fields.object.members().keySet()) {
        texts.put(name, fields.text(name));
      }
    }
    return texts;
  }

  void wrong(String field, String expected) {
    JsonValue v = object.members().get(field);
    if (v == null) {
      problems.wrong(object.line(), pathOf(field), "", expected);
    } else {
      problems.wrong(v, expected);
    }
  }

  /** Notes a fault of the object as a whole. */
  void wrongWhole(String expected) {
    problems.wrong(object, expected);
  }

  /** Ends the object: a field nobody asked for is a fault, since it may be a misspelt one. */
  void done() {
    object
        .members()
        .forEach(
            (name, v) -> {
              if (!asked.contains(name)) {
                problems.wrong(
                    v.line(), v.path(), name, "one of the fields " + String.join(", ", asked));
              }
            });
  }
}
