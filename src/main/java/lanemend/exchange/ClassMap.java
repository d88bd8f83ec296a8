package lanemend.exchange;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import lanemend.network.RoadClass;

/**
 * What the words of the user's class column mean. Lanemend's own words need no mapping.
 *
 * @param meanings by the file's word in lower case; {@code *} stands for every other word and for a
 *     blank; empty means: leave such lines out
 */
public record ClassMap(Map<String, Optional<RoadClass>> meanings) {
  /** Lanemend's own words only. */
  public static final ClassMap NONE = new ClassMap(Map.of());

  private static final String OTHERS = "*";
  private static final String LEAVE_OUT = "ignore";

  public ClassMap {
    meanings = Map.copyOf(meanings);
  }

  /**
   * Reads {@code word=class}, for instance {@code primary=arterial}, {@code footway=ignore}, {@code
   * *=local}.
   *
   * @throws IllegalArgumentException with a sentence for the user
   */
  public static ClassMap parse(List<String> specs) {
    Map<String, String> byWord = new LinkedHashMap<>();
    for (String spec : specs) {
      int equals = spec.lastIndexOf('=');
      if (equals < 1) {
        throw new IllegalArgumentException(
            "'" + spec + "' does not map a class: write word=class, for instance primary=arterial");
      }
      byWord.put(spec.substring(0, equals), spec.substring(equals + 1));
    }
    return of(byWord);
  }

  /**
   * The same from pairs of word and class.
   *
   * @throws IllegalArgumentException with a sentence for the user
   */
  public static ClassMap of(Map<String, String> byWord) {
    Map<String, Optional<RoadClass>> meanings = new LinkedHashMap<>();
    byWord.forEach(
        (word, meaning) -> {
          Optional<RoadClass> roadClass = own(meaning);
          if (roadClass.isEmpty() && !normal(meaning).equals(LEAVE_OUT)) {
            throw new IllegalArgumentException(
                "class '" + word + "' is mapped to '" + meaning + "', expected " + wanted());
          }
          meanings.put(normal(word), roadClass);
        });
    return new ClassMap(meanings);
  }

  /** What a word means: a class, to be left out, or nothing said (neither). */
  record Meaning(Optional<RoadClass> roadClass, boolean leaveOut) {}

  Meaning meaningOf(String word) {
    Optional<RoadClass> mapped = meanings.get(normal(word));
    if (mapped == null && own(word).isPresent()) {
      mapped = own(word);
    }
    if (mapped == null) {
      mapped = meanings.get(OTHERS);
    }
    return mapped == null
        ? new Meaning(Optional.empty(), false)
        : new Meaning(mapped, mapped.isEmpty());
  }

  static String wanted() {
    return Arrays.stream(RoadClass.values())
            .map(c -> c.name().toLowerCase(Locale.ROOT))
            .collect(Collectors.joining(", "))
        + " or "
        + LEAVE_OUT;
  }

  private static Optional<RoadClass> own(String word) {
    return Arrays.stream(RoadClass.values())
        .filter(c -> c.name().equalsIgnoreCase(word.strip()))
        .findFirst();
  }

  private static String normal(String word) {
    return word.strip().toLowerCase(Locale.ROOT);
  }
}
