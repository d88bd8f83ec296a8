package lanemend.exchange;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.Date;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.geotools.api.filter.Filter;
import org.geotools.filter.text.cql2.CQLException;
import org.geotools.filter.text.ecql.ECQL;

/** Parses a filter's text; what is wrong comes as one sentence with its place. */
final class CqlText {
  /** The parser goes a level of its stack deeper with each bracket. */
  private static final int DEEPEST = 50;

  private static final int LONGEST = 4_000;
  private static final Pattern PLACE = Pattern.compile("line \\d+, column (\\d+)");
  private static final Pattern FOUND = Pattern.compile("Encountered:? \"(.*?)\" (?:at|\\(|line)");
  private static final Pattern BARE_ID =
      Pattern.compile("'(?:[^']|'')*'|\"[^\"]*\"|\\b([iI][dD])\\b");
  private static final Pattern UNQUOTED_DAY =
      Pattern.compile("'(?:[^']|'')*'|\\b(\\d{4})-(\\d{2})-(\\d{2})");

  private CqlText() {}

  static ExchangeException problem(String found, String expected) {
    return new ExchangeException(new RowProblem("filter", 0, "", found, expected));
  }

  private static ExchangeException problemAt(String place, String found, String expected) {
    return new ExchangeException(new RowProblem("filter", 0, place, found, expected));
  }

  /** The same refusal with the place in {@code text} at which what was found stands. */
  static ExchangeException placed(ExchangeException e, String text) {
    RowProblem p = e.problem();
    int at = text.indexOf(p.found());
    return at < 0 || p.found().isEmpty() || !p.field().isEmpty()
        ? e
        : problemAt("character " + (at + 1), p.found(), p.expected());
  }

  /**
   * Reads a filter.
   *
   * @param text on one line: {@link #onOneLine}
   */
  static Filter parse(String text) {
    checkSize(text);
    checkDays(text);
    try {
      return ECQL.toFilter(withIdAsName(text));
    } catch (CQLException e) {
      throw syntax(text, String.valueOf(e.getMessage()));
    } catch (RuntimeException e) {
      // A geometry that does not close, for instance: the library lets its own failure through.
      throw problem(text, "a filter that can be read (" + firstLine(e.getMessage()) + ")");
    }
  }

  /** Breaks and tabs as blanks, so that a place in the text is one number. */
  static String onOneLine(String text) {
    return text.replaceAll("\\s", " ");
  }

  /** The parser takes a bare id for a word of its own; in double quotes it is a name. */
  private static String withIdAsName(String text) {
    Matcher m = BARE_ID.matcher(text);
    return m.replaceAll(
        r -> Matcher.quoteReplacement(r.group(1) == null ? r.group() : "\"" + r.group(1) + "\""));
  }

  /** How far two quotes for each id before it have moved a column, undone. */
  private static int columnInText(String text, int column) {
    Matcher m = BARE_ID.matcher(text);
    int moved = 0;
    while (m.find() && m.start() + moved < column - 1) {
      moved += m.group(1) == null ? 0 : 2;
    }
    return Math.max(1, Math.min(column - moved, text.length() + 1));
  }

  private static void checkSize(String text) {
    if (text.isBlank()) {
      throw problem("", "a condition such as severity = 'high'");
    }
    if (text.length() > LONGEST) {
      throw problem(text.length() + " characters", "at most " + LONGEST);
    }
    int deep = 0;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      deep += c == '(' || c == '[' ? 1 : c == ')' || c == ']' ? -1 : 0;
      if (deep > DEEPEST) {
        throw problemAt("character " + (i + 1), "(", "at most " + DEEPEST + " open brackets");
      }
    }
  }

  /** The parser takes 2026-13-45 for a day in February 2027. */
  private static void checkDays(String text) {
    Matcher m = UNQUOTED_DAY.matcher(text);
    while (m.find()) {
      if (m.group(1) == null) {
        continue;
      }
      try {
        LocalDate.of(
            Integer.parseInt(m.group(1)),
            Integer.parseInt(m.group(2)),
            Integer.parseInt(m.group(3)));
      } catch (DateTimeException e) {
        throw problemAt("character " + (m.start() + 1), m.group(), "a day there is");
      }
    }
  }

  private static ExchangeException syntax(String text, String message) {
    if (message.startsWith("Function not found")) {
      return problem(text, "properties, values and comparisons; functions are not taken");
    }
    Matcher place = PLACE.matcher(message);
    if (!place.find()) {
      return problem(text, "a filter that can be read (" + firstLine(message) + ")");
    }
    int column = columnInText(text, Integer.parseInt(place.group(1)));
    String where = "character " + column;
    if (message.startsWith("Lexical error")) {
      return message.contains("<EOF>")
          ? problemAt(where, "the end", "a ' that closes the text before it")
          : problemAt(
              where,
              text.substring(column - 1, Math.min(column, text.length())),
              "a character filters are written with");
    }
    Matcher found = FOUND.matcher(message);
    String what = found.find() ? found.group(1).replace("\\\"", "\"").replace("\"id\"", "id") : "";
    String shown = what.equals("<EOF>") ? "the end" : what.replace(" <EOF>", " and the end");
    return problemAt(where, shown, expectedThere(message));
  }

  /** The parser's list of everything that could stand there is a page long: its gist. */
  private static String expectedThere(String message) {
    boolean mayEnd = message.contains("<EOF> \n") || message.contains("<AND>");
    boolean closes = message.contains("\")\"");
    if (mayEnd) {
      return closes ? "AND, OR or a closing bracket" : "AND, OR or the end";
    }
    return "a comparison such as severity = 'high', length_ft > 20 or"
        + " BBOX(geometry, west, south, east, north)";
  }

  private static String firstLine(String message) {
    String line = message == null ? "" : message.lines().findFirst().orElse("");
    // The parser ends its sentences with the whole filter.
    int echo = line.indexOf(" Parsing :");
    return line.isEmpty() ? "no reason given" : echo < 0 ? line : line.substring(0, echo);
  }

  /** The moment of a date as the parser has it. */
  @SuppressWarnings("JavaUtilDate") // what the library hands out, and some kinds lack toInstant
  static Instant moment(Date date) {
    return Instant.ofEpochMilli(date.getTime());
  }

  /** The day of a date in a filter: the parser reads a bare day in the machine's time zone. */
  static LocalDate dayWritten(Date date) {
    Instant moment = moment(date);
    ZonedDateTime here = moment.atZone(ZoneId.systemDefault());
    return here.toLocalTime().equals(LocalTime.MIDNIGHT)
        ? here.toLocalDate()
        : moment.atZone(ZoneOffset.UTC).toLocalDate();
  }
}
