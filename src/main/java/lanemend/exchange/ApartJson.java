package lanemend.exchange;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Pairs of defects somebody said are two, kept so that they are not proposed again. */
public final class ApartJson {
  private static final ObjectMapper JSON = new ObjectMapper();

  private ApartJson() {}

  /** Two ids in either order. */
  public record Pair(String one, String other) {
    /** The pair of two ids, whichever is named first. */
    public static Pair of(String a, String b) {
      return a.compareTo(b) <= 0 ? new Pair(a, b) : new Pair(b, a);
    }
  }

  /**
   * Reads the setting's text, a list of lists of two ids.
   *
   * @throws ExchangeException when it is not
   */
  public static Set<Pair> parse(String text) {
    try {
      Set<Pair> pairs = new LinkedHashSet<>();
      for (List<String> pair : JSON.readValue(text, new TypeReference<List<List<String>>>() {})) {
        if (pair.size() != 2) {
          throw broken(pair.toString());
        }
        pairs.add(Pair.of(pair.get(0), pair.get(1)));
      }
      return pairs;
    } catch (JsonProcessingException e) {
      throw broken(text);
    }
  }

  /** The text that {@link #parse} reads. */
  public static String text(Set<Pair> pairs) {
    List<List<String>> lists = new ArrayList<>();
    pairs.forEach(p -> lists.add(List.of(p.one(), p.other())));
    try {
      return JSON.writeValueAsString(lists);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("lists of texts can be written", e);
    }
  }

  private static ExchangeException broken(String found) {
    return new ExchangeException(
        new RowProblem("the store's setting", 0, "", found, "pairs of defect ids"));
  }
}
