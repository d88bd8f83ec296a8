package lanemend.exchange;

import java.util.List;

/**
 * What a file gave: the good rows and every row refused, so that nothing is dropped silently.
 *
 * @param rows what was taken, in the order of the file
 * @param problems one per refused row; a row with several faults names the others in {@code
 *     expected}
 * @param rowsSeen always {@code rows.size() + problems.size()}
 * @param warnings facts left out of rows that were taken (roads only: a line is worth more than its
 *     unreadable speed)
 * @param notes things worth saying about the file as a whole, one sentence each
 */
public record Read<T>(
    List<T> rows,
    List<RowProblem> problems,
    long rowsSeen,
    List<RowProblem> warnings,
    List<String> notes) {
  public Read {
    rows = List.copyOf(rows);
    problems = List.copyOf(problems);
    warnings = List.copyOf(warnings);
    notes = List.copyOf(notes);
    if (rowsSeen != (long) rows.size() + problems.size()) {
      throw new IllegalStateException(
          rowsSeen + " rows seen, " + rows.size() + " taken, " + problems.size() + " refused");
    }
  }

  /** True when every row was taken. */
  public boolean clean() {
    return problems.isEmpty();
  }
}
