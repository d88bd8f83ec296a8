package lanemend.web.desk;

import java.util.Locale;
import lanemend.inventory.Severity;

/** Names of the core's kinds as people write them. */
final class DeskWords {
  private DeskWords() {}

  /** {@code ALLIGATOR_CRACKING} as {@code alligator cracking}. */
  static String plain(Enum<?> e) {
    return code(e).replace('_', ' ');
  }

  /**
   * {@code ALLIGATOR_CRACKING} as {@code alligator_cracking}, as files and the interface have it.
   */
  static String code(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }

  /** The kind of this code. */
  static <E extends Enum<E>> E read(Class<E> type, String field, String code) {
    for (E e : type.getEnumConstants()) {
      if (code(e).equals(code)) {
        return e;
      }
    }
    throw new Problem(
            Problem.Kind.BAD_VALUE,
            field + " is '" + code + "', which is no " + field + " there is")
        .with("field", field);
  }

  /** 0 to 2 for low to high: how pages number the three shapes. */
  static int rank(Severity severity) {
    return switch (severity) {
      case LOW -> 0;
      case MEDIUM -> 1;
      case HIGH -> 2;
    };
  }
}
