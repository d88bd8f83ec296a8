package lanemend.exchange;

import java.util.List;

/**
 * What a file gave: the good rows and every row refused. {@code rowsSeen == rows.size() + rows
 * refused}, so nothing is dropped silently.
 */
public record Read<T>(List<T> rows, List<RowProblem> problems, long rowsSeen) {
  public Read {
    rows = List.copyOf(rows);
    problems = List.copyOf(problems);
  }
}
