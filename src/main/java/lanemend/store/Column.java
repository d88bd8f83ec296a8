package lanemend.store;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * A column: its name (with its unit), its GeoPackage data type and what the file itself holds it
 * to. The rules are CHECK constraints because other programs write the file too, and a value that
 * no reader understands is best refused where it is written.
 */
record Column(String name, String type, String rule) {

  static Column id() {
    return new Column("id", "TEXT", "NOT NULL UNIQUE CHECK (id <> '')");
  }

  /** Free text; empty when nothing was said. */
  static Column text(String name) {
    return new Column(name, "TEXT", "NOT NULL DEFAULT ''");
  }

  static Column optionalText(String name) {
    return new Column(name, "TEXT", "");
  }

  static Column number(String name) {
    return new Column(name, "DOUBLE", "NOT NULL " + finite(name));
  }

  static Column optionalNumber(String name) {
    return new Column(name, "DOUBLE", finite(name));
  }

  static Column whole(String name) {
    return new Column(name, "INTEGER", "NOT NULL CHECK (typeof(" + name + ") = 'integer')");
  }

  static Column flag(String name) {
    return new Column(name, "BOOLEAN", "NOT NULL CHECK (" + name + " IN (0, 1))");
  }

  /** A calendar year, or null where none is set. */
  static Column optionalYear(String name) {
    return new Column(
        name,
        "INTEGER",
        "CHECK ("
            + name
            + " IS NULL OR (typeof("
            + name
            + ") = 'integer' AND "
            + name
            + " BETWEEN 1900 AND 2199))");
  }

  /** Text that must say something. */
  static Column said(String name) {
    return new Column(name, "TEXT", "NOT NULL CHECK (trim(" + name + ") <> '')");
  }

  static Column day(String name) {
    return new Column(name, "DATE", "NOT NULL " + realDay(name));
  }

  static Column optionalDay(String name) {
    return new Column(name, "DATE", realDay(name));
  }

  /** A choice of an enumeration, written in lower case. */
  static <E extends Enum<E>> Column code(String name, Class<E> choices) {
    String list =
        Arrays.stream(choices.getEnumConstants())
            .map(e -> "'" + code(e) + "'")
            .collect(Collectors.joining(", "));
    return new Column(name, "TEXT", "NOT NULL CHECK (" + name + " IN (" + list + "))");
  }

  static Column lane(String rule) {
    return new Column("lane", "TEXT", (rule + " CHECK (lane GLOB '[RL][0-9]')").strip());
  }

  static Column references(String name, String table, String key) {
    return new Column(name, "TEXT", "NOT NULL REFERENCES " + table + "(" + key + ")");
  }

  static String code(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }

  boolean isReal() {
    return type.equals("DOUBLE");
  }

  String ddl() {
    return (name + " " + type + " " + rule).strip();
  }

  // Text sorts above every number in SQLite, so the upper bound also refuses text and infinity.
  private static String finite(String name) {
    return "CHECK (" + name + " BETWEEN -1e300 AND 1e300)";
  }

  // date() turns 2026-02-30 into 2026-03-02, so only real days written in full come out unchanged.
  private static String realDay(String name) {
    return "CHECK (date(" + name + ") IS " + name + ")";
  }
}
