package lanemend.exchange;

import java.util.ArrayList;
import java.util.List;

/** Everything wrong with a settings file, gathered so that it can be mended in one go. */
final class JsonProblems {
  private static final int MOST = 200;

  private final String file;
  private final List<RowProblem> problems = new ArrayList<>();

  JsonProblems(String file) {
    this.file = file;
  }

  void wrong(JsonValue at, String expected) {
    wrong(at.line(), at.path(), at.shown(), expected);
  }

  void wrong(long line, String path, String found, String expected) {
    if (problems.size() < MOST) {
      problems.add(new RowProblem(file, line, path, found, expected));
    }
  }

  boolean none() {
    return problems.isEmpty();
  }

  /**
   * Ends the reading.
   *
   * @throws ExchangeException when anything was wrong
   */
  void check() {
    if (!problems.isEmpty()) {
      throw new ExchangeException(problems);
    }
  }
}
