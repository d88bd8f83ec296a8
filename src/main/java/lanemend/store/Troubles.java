package lanemend.store;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What a check found, a sentence each, with what puts it right where a program may do that: where
 * the right value follows from what else the file holds, and nothing a person said is lost.
 */
final class Troubles {
  private final List<String> sentences = new ArrayList<>();
  private final Map<String, Fix> fixes = new LinkedHashMap<>();

  /** Puts something right, inside a write. */
  @FunctionalInterface
  interface Fix {
    void in(Session session) throws SQLException;
  }

  /** Something only a person can put right. */
  void add(String sentence) {
    sentences.add(sentence);
  }

  void addAll(Collection<String> more) {
    sentences.addAll(more);
  }

  /**
   * Something a program can put right.
   *
   * @param done what was done, said afterwards; troubles with the same words share one fix
   */
  void add(String sentence, String done, Fix fix) {
    sentences.add(sentence);
    fixes.putIfAbsent(done, fix);
  }

  boolean isEmpty() {
    return sentences.isEmpty();
  }

  List<String> sentences() {
    return List.copyOf(sentences);
  }

  /** By what each says it did, in the order they must be made. */
  Map<String, Fix> fixes() {
    return Collections.unmodifiableMap(fixes);
  }
}
