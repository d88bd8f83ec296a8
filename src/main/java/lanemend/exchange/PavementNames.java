package lanemend.exchange;

import java.util.Locale;

/** Words of enumerations as files carry them. */
final class PavementNames {
  private PavementNames() {}

  static String of(Enum<?> word) {
    return word.name().toLowerCase(Locale.ROOT);
  }
}
