package lanemend.web.page;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import lanemend.crewdays.Agency;
import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;

/** How values read on paper: numbers with units, times, dates and the trade's words. */
public record Wording(UnitSystem units, String currency) {
  private static final DateTimeFormatter TWELVE_HOURS =
      DateTimeFormatter.ofPattern("h:mm a", Locale.US);
  private static final DateTimeFormatter TWENTY_FOUR_HOURS =
      DateTimeFormatter.ofPattern("HH:mm", Locale.US);
  private static final DateTimeFormatter LONG_DATE =
      DateTimeFormatter.ofPattern("EEEE, MMMM d, uuuu", Locale.US);
  private static final DateTimeFormatter DAY_OF_YEAR =
      DateTimeFormatter.ofPattern("MMM d", Locale.US);
  private static final DateTimeFormatter SHORT_DATE =
      DateTimeFormatter.ofPattern("EEE MMM d, uuuu", Locale.US);

  public static Wording of(Agency agency) {
    return new Wording(agency.units(), agency.plan().currency());
  }

  public String text(Figure figure) {
    return text(figure.value(), figure.unit());
  }

  /** A number and its unit, with squares, cubes and degrees set as the trade writes them. */
  public String text(double value, Unit unit) {
    return labelled(number(value, unit), unit);
  }

  /** The number alone, for columns whose head names the unit; a small one is never shown as 0. */
  public String number(double value, Unit unit) {
    UnitSystem.Shown shown = units.show(value, unit);
    int decimals = shown.decimals();
    while (decimals < 5 && value != 0 && rounded(shown.value(), decimals) == 0) {
      decimals++;
    }
    return new UnitSystem.Shown(shown.value(), "", decimals).text();
  }

  /** With the decimals it takes to work it again by hand: right to half a percent. */
  public String precise(double value, Unit unit) {
    UnitSystem.Shown shown = units.show(value, unit);
    int decimals = shown.decimals();
    double exact = shown.value();
    while (decimals < 5 && Math.abs(rounded(exact, decimals) - exact) > 0.005 * Math.abs(exact)) {
      decimals++;
    }
    return labelled(new UnitSystem.Shown(exact, "", decimals).text(), unit);
  }

  /** An estimated amount: cents would pretend to more than a forecast knows. */
  public String estimate(double money) {
    return String.format(Locale.ROOT, "%,.0f", money + 0.0) + "\u00a0" + currency;
  }

  /** A defect's length or width: small ones are measured finer than road distances. */
  public String size(double meters) {
    UnitSystem.Shown shown = units.show(meters, Unit.METER);
    boolean fine = shown.value() < 10 && Math.abs(shown.value() - Math.rint(shown.value())) > 0.04;
    int decimals = fine ? Math.max(1, shown.decimals()) : shown.decimals();
    return labelled(new UnitSystem.Shown(shown.value(), "", decimals).text(), Unit.METER);
  }

  private String labelled(String number, Unit unit) {
    String label = unitLabel(unit);
    return label.isEmpty() ? number : number + "\u00a0" + label;
  }

  private static double rounded(double value, int decimals) {
    double scale = Math.pow(10, decimals);
    return Math.rint(value * scale) / scale;
  }

  public String unitLabel(Unit unit) {
    return unit == Unit.MONEY ? currency : typeset(units.show(0, unit).label());
  }

  public String time(LocalTime time) {
    return (units == UnitSystem.METRIC ? TWENTY_FOUR_HOURS : TWELVE_HOURS)
        .format(time)
        .replace("AM", "am")
        .replace("PM", "pm")
        .replace(' ', '\u00a0');
  }

  public static String longDate(LocalDate date) {
    return LONG_DATE.format(date);
  }

  /** A date that is near, such as {@code May 13}. */
  public static String dayOfYear(LocalDate date) {
    return DAY_OF_YEAR.format(date);
  }

  public static String shortDate(LocalDate date) {
    return SHORT_DATE.format(date);
  }

  /** {@code MOTOR_GRADER} as {@code motor grader}. */
  public static String words(Enum<?> name) {
    return name.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  public static String capital(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }

  /** The letter that stands for a severity on drawings. */
  public static String letter(Severity severity) {
    return severity.name().substring(0, 1);
  }

  /** Stop 2's third repair is {@code 2C}, its twenty-seventh {@code 2AA}. */
  public static String repairId(int stop, int index) {
    StringBuilder letters = new StringBuilder();
    for (int i = index; i >= 0; i = i / 26 - 1) {
      letters.insert(0, (char) ('A' + i % 26));
    }
    return stop + letters.toString();
  }

  /** A text typeset and closed with a full stop, so that another can follow it. */
  public static String sentence(String text) {
    String set = typeset(text.strip());
    return set.isEmpty() || ".!?".indexOf(set.charAt(set.length() - 1)) >= 0 ? set : set + ".";
  }

  /** {@code ft2} as the trade writes it, also inside a sentence. */
  public static String typeset(String label) {
    return label
        .replace("deg ", "\u00b0")
        .replaceAll("\\b(ft|yd|in|m|mm|km)2\\b", "$1\u00b2")
        .replaceAll("\\b(ft|yd|in|m|mm|km)3\\b", "$1\u00b3");
  }
}
