package lanemend.exchange;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * The fields of one row, read one by one. A fault does not stop the reading: it is noted, the
 * method gives a neutral value (blank, empty, null), and the row is refused at the end with every
 * fault named.
 */
final class Cells {
  /** Stands for a nested value of a GeoJSON property; refused when the property is one we read. */
  static final String NESTED_OBJECT = "\u0000object";

  static final String NESTED_ARRAY = "\u0000array";

  private static final int LONGEST_TEXT = 4_000;
  private static final Pattern NUMBER =
      Pattern.compile("[+-]?(\\d{1,40}(\\.\\d{0,40})?|\\.\\d{1,40})([eE][+-]?\\d{1,4})?");
  private static final Pattern BLANKS = Pattern.compile("\\s+");
  private static final LocalDate EARLIEST = LocalDate.of(1900, 1, 1);
  private static final LocalDate LATEST = LocalDate.of(2200, 1, 1);

  private record Fault(String field, String found, String expected) {}

  private final Row row;
  private final FieldMap map;
  private final Set<String> used;
  private final List<Fault> faults = new ArrayList<>();

  /**
   * @param used columns that were read are added here
   */
  Cells(Row row, FieldMap map, Set<String> used) {
    this.row = row;
    this.map = map;
    this.used = used;
  }

  Row row() {
    return row;
  }

  /** Why a text cannot be taken, or empty: bytes that were not UTF-8, NUL and other controls. */
  static String textFault(String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '\uFFFD') {
        return "text in UTF-8";
      }
      if (Character.isISOControl(c) && c != '\n' && c != '\t') {
        return "text without control characters";
      }
    }
    return "";
  }

  /** The field's text without surrounding blanks, or empty. */
  String text(String field) {
    return text(field, LONGEST_TEXT);
  }

  /** Like {@link #text}, for geometry: as long as a line may be. */
  String longText(String field) {
    return text(field, BoundedLines.MAX_CHARS);
  }

  private String text(String field, int longest) {
    for (String column : map.columnsOf(field)) {
      used.add(column);
      String cell = row.cells().getOrDefault(column, "");
      if (!cell.isBlank()) {
        return clean(field, cell, longest);
      }
    }
    return "";
  }

  private String clean(String field, String cell, int longest) {
    if (cell.equals(NESTED_OBJECT) || cell.equals(NESTED_ARRAY)) {
      wrong(field, cell.equals(NESTED_OBJECT) ? "an object" : "an array", "a plain value");
      return "";
    }
    String text = cell.strip().replace("\r\n", "\n").replace('\r', '\n');
    String fault = textFault(text);
    if (!fault.isEmpty()) {
      wrong(field, text, fault);
      return "";
    }
    if (text.length() > longest) {
      wrong(field, text, "at most " + longest + " characters");
      return "";
    }
    return text;
  }

  /** True when something stands in the field, good or bad. */
  boolean filled(String field) {
    for (String column : map.columnsOf(field)) {
      if (!row.cells().getOrDefault(column, "").isBlank()) {
        return true;
      }
    }
    return false;
  }

  /** Like {@link #text} for one line of text that must be there. */
  String required(String field, String expected) {
    String text = line(field);
    if (text.isEmpty() && !filled(field)) {
      wrong(field, "", expected);
    }
    return text;
  }

  /** Text on one line: names and codes, with inner blanks made single. */
  String line(String field) {
    String text = text(field);
    return BLANKS.matcher(text).replaceAll(" ");
  }

  /** A number from {@code min} to {@code max}; empty when blank or faulty. */
  OptionalDouble number(String field, double min, double max) {
    return number(field, min, max, () -> "a number " + range(min, max));
  }

  /**
   * @param expected made only when it is needed, as this is called for every number of a file
   */
  OptionalDouble number(String field, double min, double max, Supplier<String> expected) {
    String text = text(field);
    if (text.isEmpty()) {
      return OptionalDouble.empty();
    }
    double value = parse(text);
    if (!(value >= min && value <= max)) {
      wrong(
          field, text, expected.get() + (text.contains(",") ? " (decimal point, no commas)" : ""));
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(value);
  }

  /** The number, or NaN when the text is not a plain decimal number. */
  static double parse(String text) {
    return NUMBER.matcher(text).matches() ? Double.parseDouble(text) : Double.NaN;
  }

  static String range(double min, double max) {
    return "from " + Numbers.plain(min) + " to " + Numbers.plain(max);
  }

  /**
   * A size given in US or metric units, in metres.
   *
   * @param us column with the US unit, {@code usM} metres each
   * @param maxM largest sensible size, itself allowed; zero is allowed, less is not
   */
  OptionalDouble size(String us, double usM, String metric, double metricM, double maxM) {
    if (filled(us) && filled(metric)) {
      wrong(metric, text(metric), "only one of " + us + " and " + metric);
      return OptionalDouble.empty();
    }
    // The limit in the column's own unit, a hair wider so that rounding does not refuse it.
    OptionalDouble inUs = number(us, 0, limit(maxM / usM));
    OptionalDouble inMetric = number(metric, 0, limit(maxM / metricM));
    return inUs.isPresent()
        ? OptionalDouble.of(inUs.getAsDouble() * usM)
        : inMetric.isPresent()
            ? OptionalDouble.of(inMetric.getAsDouble() * metricM)
            : OptionalDouble.empty();
  }

  private static double limit(double max) {
    return Math.floor(max * 10 + 1e-6) / 10;
  }

  /** One of an enum's words in lower case; null when blank or faulty. */
  <E extends Enum<E>> E word(String field, Class<E> type) {
    String text = line(field);
    if (text.isEmpty()) {
      return null;
    }
    for (E e : type.getEnumConstants()) {
      if (e.name().equalsIgnoreCase(text.replace(' ', '_').replace('-', '_'))) {
        return e;
      }
    }
    wrong(field, text, words(type));
    return null;
  }

  /** Like {@link #word}, and blank is a fault too. */
  <E extends Enum<E>> E requiredWord(String field, Class<E> type) {
    E word = word(field, type);
    if (word == null && !filled(field)) {
      wrong(field, "", words(type));
    }
    return word;
  }

  static <E extends Enum<E>> String words(Class<E> type) {
    return "one of "
        + Arrays.stream(type.getEnumConstants())
            .map(e -> e.name().toLowerCase(Locale.ROOT))
            .collect(Collectors.joining(", "));
  }

  /** A date as {@code 2026-04-30}; a time after it is left; null when blank or faulty. */
  LocalDate date(String field) {
    String text = text(field);
    if (text.isEmpty()) {
      return null;
    }
    try {
      // GIS exports write a date with a time of day; only the day matters here.
      boolean withTime = text.length() > 10 && (text.charAt(10) == 'T' || text.charAt(10) == ' ');
      LocalDate date = LocalDate.parse(withTime ? text.substring(0, 10) : text);
      if (!date.isBefore(EARLIEST) && date.isBefore(LATEST)) {
        return date;
      }
    } catch (DateTimeParseException e) {
      // Said below, with the form that is wanted.
      wrong(field, text, dateWanted());
      return null;
    }
    wrong(field, text, dateWanted());
    return null;
  }

  /** A moment with its offset from UTC, such as {@code 2026-04-30T14:05:00Z}; null when blank. */
  Instant moment(String field) {
    String text = text(field);
    if (text.isEmpty()) {
      return null;
    }
    try {
      return OffsetDateTime.parse(text.replace(' ', 'T')).toInstant();
    } catch (DateTimeException e) {
      wrong(field, text, "a time with its offset, such as 2026-04-30T14:05:00Z");
      return null;
    }
  }

  private static String dateWanted() {
    return "a date such as 2026-04-30, from " + EARLIEST + " to " + LATEST;
  }

  /** Like {@link #date} for something that has happened: required, and not after {@code latest}. */
  LocalDate pastDate(String field, LocalDate latest) {
    LocalDate date = date(field);
    if (date == null) {
      if (!filled(field)) {
        wrong(field, "", dateWanted());
      }
    } else if (date.isAfter(latest)) {
      wrong(field, date.toString(), "a date not after " + latest);
      return null;
    }
    return date;
  }

  void wrong(String field, String found, String expected) {
    if (faults.stream().noneMatch(f -> f.field().equals(field))) {
      faults.add(new Fault(field, found, expected));
    }
  }

  boolean ok() {
    return faults.isEmpty();
  }

  /**
   * Takes the faults away as separate problems, so that the row can be used without those facts.
   */
  List<RowProblem> forgive() {
    List<RowProblem> forgiven =
        faults.stream().map(f -> row.origin().problem(f.field(), f.found(), f.expected())).toList();
    faults.clear();
    return forgiven;
  }

  /** The row's problem; its first fault, with the others named after it. */
  RowProblem problem() {
    Fault first = faults.get(0);
    StringBuilder expected = new StringBuilder(first.expected());
    Set<String> said = new HashSet<>(Set.of(first.field()));
    for (Fault f : faults) {
      if (said.add(f.field())) {
        expected.append("; also ").append(f.field()).append(": found ");
        expected.append(f.found().isEmpty() ? "nothing" : "'" + shortened(f.found()) + "'");
        expected.append(", expected ").append(f.expected());
      }
    }
    return row.origin().problem(first.field(), first.found(), expected.toString());
  }

  private static String shortened(String text) {
    return text.length() <= 40 ? text : text.substring(0, 40) + "...";
  }
}
