package lanemend.exchange;

import java.util.List;
import java.util.stream.Collectors;

/**
 * A whole file that cannot be read or written. Nothing of it was taken; {@link #problems()} says
 * why, in the form of a row's problem.
 */
public final class ExchangeException extends RuntimeException {
  private static final long serialVersionUID = 1;

  private final transient List<RowProblem> problems;

  /** One reason. */
  public ExchangeException(RowProblem problem) {
    this(List.of(problem));
  }

  /**
   * Several reasons, for files that are taken whole or not at all.
   *
   * @throws IllegalArgumentException when there is none
   */
  public ExchangeException(List<RowProblem> problems) {
    super(
        problems.stream()
            .map(RowProblem::text)
            .collect(Collectors.joining(System.lineSeparator())));
    if (problems.isEmpty()) {
      throw new IllegalArgumentException("a refused file needs a reason");
    }
    this.problems = List.copyOf(problems);
  }

  /** Everything wrong, at least one. */
  public List<RowProblem> problems() {
    return problems;
  }

  /** The first thing wrong. */
  public RowProblem problem() {
    return problems.get(0);
  }
}
