package lanemend.web.desk;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A wish in plain words made into a filter: {@code high potholes on SR 7 milepost 3 to 9, open}.
 * Words of one kind (two severities) are alternatives, words of several kinds all hold. A word that
 * means nothing here is refused with its place, never passed over.
 */
final class FilterWords {
  private static final Pattern WORD = Pattern.compile("[^\\s,;]+");
  private static final Set<String> PASSED =
      Set.of("and", "or", "the", "a", "all", "defects", "defect", "with", "that", "are", "is");
  private static final String CRACKING =
      "alligator_cracking block_cracking longitudinal_cracking transverse_cracking";

  /** Words to property and its values. */
  private static final Map<String, String[]> MEANINGS = new TreeMap<>();

  static {
    for (String severity : List.of("low", "medium", "high")) {
      MEANINGS.put(severity, new String[] {"severity", severity});
    }
    for (String status : List.of("open", "planned", "done", "withdrawn")) {
      MEANINGS.put(status, new String[] {"status", status});
    }
    kinds("deferred", "status", "deferred_to_overlay");
    kinds("pothole potholes hole holes", "kind", "pothole");
    kinds("alligator", "kind", "alligator_cracking");
    kinds("rut ruts rutting", "kind", "rutting");
    kinds("shove shoves shoving", "kind", "shoving");
    kinds("edge edges", "kind", "edge_break");
    kinds("depression depressions settled", "kind", "depression");
    kinds("ravelling raveling", "kind", "ravelling");
    kinds("block", "kind", "block_cracking");
    kinds("longitudinal", "kind", "longitudinal_cracking");
    kinds("transverse", "kind", "transverse_cracking");
    kinds("crack cracks cracking", "kind", CRACKING);
  }

  private static void kinds(String words, String property, String values) {
    for (String word : words.split(" ", -1)) {
      MEANINGS.put(word, (property + " " + values).split(" ", -1));
    }
  }

  private record Word(String text, int at) {}

  private final String text;
  private final Collection<String> routeNames;
  private final List<Word> words = new ArrayList<>();
  private final Map<String, List<String>> anyOf = new LinkedHashMap<>();
  private final List<String> all = new ArrayList<>();
  private int next;

  private FilterWords(String text, Collection<String> routeNames) {
    this.text = text;
    this.routeNames = routeNames;
    Matcher m = WORD.matcher(text);
    while (m.find()) {
      words.add(new Word(m.group().toLowerCase(Locale.ROOT), m.start()));
    }
  }

  /**
   * The filter, or nothing for no words.
   *
   * @param routeNames names of the roads there are
   */
  static String read(String text, Collection<String> routeNames) {
    FilterWords reading = new FilterWords(text, routeNames);
    while (reading.next < reading.words.size()) {
      reading.one();
    }
    return reading.filter();
  }

  private String filter() {
    List<String> parts = new ArrayList<>();
    anyOf.forEach(
        (property, values) ->
            parts.add(
                values.size() == 1
                    ? property + " = " + values.get(0)
                    : property + " IN (" + String.join(", ", values) + ")"));
    parts.addAll(all);
    return String.join(" AND ", parts);
  }

  private void one() {
    if (route()) {
      return;
    }
    Word word = words.get(next++);
    String[] meaning = MEANINGS.get(word.text());
    if (meaning != null) {
      means(meaning);
      return;
    }
    switch (word.text()) {
      case "on" -> {
        if (!route()) {
          throw wrong(atNext(), "the name of a road after 'on'");
        }
      }
      case "milepost", "mileposts", "mile", "miles", "mp", "from" -> mileposts();
      case "deeper" -> size("depth", "in", "mm", "depth_in", "depth_mm");
      case "longer" -> size("length", "ft", "m", "length_ft", "length_m");
      case "wider" -> size("width", "ft", "m", "width_ft", "width_m");
      case "larger", "bigger" -> size("area", "ft2", "m2", "area_ft2", "area_m2");
      case "found" -> found();
      case "since" -> all.add("found_on >= '" + day() + "'");
      case "before" -> all.add("found_on < '" + day() + "'");
      default -> {
        if (!PASSED.contains(word.text())) {
          throw wrong(
              word,
              "a severity (high), a kind (potholes), a status (open), a road (on SR 7), mileposts"
                  + " (milepost 3 to 9), a size (deeper than 2 in) or a day (since 2026-04-30)");
        }
      }
    }
  }

  /** Alligator cracking is one kind, not alligator and every cracking. */
  private void means(String[] meaning) {
    boolean two = meaning[0].equals("kind") && meaning.length == 2;
    if (two && next < words.size()) {
      String after = words.get(next).text();
      if (after.startsWith("crack") || after.startsWith("break")) {
        next++;
      }
    }
    List<String> values = anyOf.computeIfAbsent(meaning[0], k -> new ArrayList<>());
    for (int i = 1; i < meaning.length; i++) {
      String quoted = "'" + meaning[i] + "'";
      if (!values.contains(quoted)) {
        values.add(quoted);
      }
    }
  }

  /** Takes the longest name of a road that stands here. */
  private boolean route() {
    if (next >= words.size()) {
      return false;
    }
    String best = null;
    String rest = text.substring(words.get(next).at());
    for (String name : routeNames) {
      boolean here =
          rest.regionMatches(true, 0, name, 0, name.length())
              && (rest.length() == name.length()
                  || " ,;\t".indexOf(rest.charAt(name.length())) >= 0);
      if (here && (best == null || name.length() > best.length())) {
        best = name;
      }
    }
    if (best == null) {
      return false;
    }
    int end = words.get(next).at() + best.length();
    while (next < words.size() && words.get(next).at() < end) {
      next++;
    }
    String quoted = "'" + best.replace("'", "''") + "'";
    List<String> values = anyOf.computeIfAbsent("route", k -> new ArrayList<>());
    if (!values.contains(quoted)) {
      values.add(quoted);
    }
    return true;
  }

  private void mileposts() {
    double from = number("a milepost such as 3.2");
    double to = from;
    if (next < words.size() && Set.of("to", "-", "through").contains(words.get(next).text())) {
      next++;
      to = number("a milepost after 'to'");
    }
    all.add("milepost_to >= " + plain(Math.min(from, to)));
    all.add("milepost <= " + plain(Math.max(from, to)));
  }

  private void size(String what, String us, String metric, String usName, String metricName) {
    skip("than");
    double value = number("a " + what + " such as 2 " + us);
    String unit = next < words.size() ? words.get(next).text() : "";
    if (unit.equals(us)) {
      next++;
      all.add(usName + " > " + plain(value));
    } else if (unit.equals(metric)) {
      next++;
      all.add(metricName + " > " + plain(value));
    } else {
      throw wrong(atNext(), us + " or " + metric + " after the number");
    }
  }

  private void found() {
    String how = next < words.size() ? words.get(next).text() : "";
    if (!Set.of("since", "before").contains(how)) {
      throw wrong(atNext(), "'since' or 'before' and a day such as 2026-04-30");
    }
  }

  private LocalDate day() {
    if (next < words.size()) {
      try {
        LocalDate day = LocalDate.parse(words.get(next).text());
        next++;
        return day;
      } catch (DateTimeParseException e) {
        throw wrong(words.get(next), "a day such as 2026-04-30");
      }
    }
    throw wrong(atNext(), "a day such as 2026-04-30");
  }

  private double number(String expected) {
    if (next < words.size()) {
      try {
        double value = Double.parseDouble(words.get(next).text());
        if (Double.isFinite(value)) {
          next++;
          return value;
        }
      } catch (NumberFormatException e) {
        throw wrong(words.get(next), expected);
      }
    }
    throw wrong(atNext(), expected);
  }

  private void skip(String word) {
    if (next < words.size() && words.get(next).text().equals(word)) {
      next++;
    }
  }

  private Word atNext() {
    return next < words.size() ? words.get(next) : new Word("", text.length());
  }

  private static String plain(double value) {
    return java.math.BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }

  private static Problem wrong(Word word, String expected) {
    return new Problem(
            Problem.Kind.BAD_FILTER,
            (word.text().isEmpty() ? "Found the end" : "Found '" + word.text() + "'")
                + ", expected "
                + expected)
        .with("found", word.text())
        .with("expected", expected)
        .with("position", word.at() + 1);
  }
}
