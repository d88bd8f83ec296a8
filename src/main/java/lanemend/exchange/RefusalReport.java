package lanemend.exchange;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;

/** What was refused, for people (text) and for a spreadsheet (CSV). */
public final class RefusalReport {
  /** Columns of the CSV. */
  public static final List<String> COLUMNS = List.of("file", "line", "field", "found", "expected");

  private RefusalReport() {}

  /**
   * Writes {@code file,line,field,found,expected}, one row per problem, replacing the file.
   *
   * @throws ExchangeException when it cannot be written
   */
  public static void csv(Path target, List<RowProblem> problems) {
    CsvOut.write(
        target,
        COLUMNS,
        problems.stream()
            .map(p -> List.<Object>of(p.file(), p.line(), p.field(), p.found(), p.expected()))
            .toList());
  }

  /** One line per problem, at most {@code most}, and how many more there are. */
  public static String text(List<RowProblem> problems, int most) {
    String first =
        problems.stream().limit(most).map(RowProblem::text).collect(Collectors.joining("\n"));
    int more = problems.size() - most;
    return more > 0 ? first + "\nand " + more + " more" : first;
  }
}
