package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import lanemend.exchange.RefusalReport;
import lanemend.exchange.RowProblem;

/** Tells the user what came in and what was refused, and says it in the exit code. */
final class Report {
  private static final int SHOWN = 20;
  private static final String REFUSED_FILE = "refused-rows.csv";

  private final PrintWriter out;
  private final PrintWriter err;
  private final List<RowProblem> refused = new ArrayList<>();

  Report(PrintWriter out, PrintWriter err) {
    this.out = out;
    this.err = err;
  }

  /** Prints one file's outcome and remembers its refused rows. */
  void add(IntakeResult result) {
    out.printf(
        "%-10s %,7d rows taken%s%s%n",
        result.kind(),
        result.kept(),
        result.refused().isEmpty() ? "" : String.format(", %,d refused", result.refused().size()),
        result.summary().isEmpty() ? "" : ": " + result.summary());
    list(result.notes(), "  note: ");
    refused.addAll(result.refused());
    if (!result.refused().isEmpty()) {
      err.println(RefusalReport.text(result.refused(), SHOWN));
    }
  }

  /** Remembers refused rows of a file that gives nothing to count. */
  void refuse(List<RowProblem> problems) {
    refused.addAll(problems);
    if (!problems.isEmpty()) {
      err.println(RefusalReport.text(problems, SHOWN));
    }
  }

  /** Prints sentences, the first {@value #SHOWN} of them. */
  void list(List<String> sentences, String lead) {
    sentences.stream().limit(SHOWN).forEach(s -> out.println(lead + s));
    if (sentences.size() > SHOWN) {
      out.println(lead + "and " + (sentences.size() - SHOWN) + " more");
    }
  }

  /** Writes the refused rows where the user finds them; returns the exit code. */
  int finish(WorkFolder work) {
    if (refused.isEmpty()) {
      return ExitCode.DONE;
    }
    Path file = work.folderOf("").resolve(REFUSED_FILE);
    RefusalReport.csv(file, refused);
    err.println(refused.size() + " rows refused; all of them are listed in " + file);
    return ExitCode.ROWS_REFUSED;
  }
}
