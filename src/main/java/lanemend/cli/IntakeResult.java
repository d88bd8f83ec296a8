package lanemend.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lanemend.exchange.Read;
import lanemend.exchange.RowProblem;
import lanemend.network.AssemblyNote;
import lanemend.store.ImportRun;

/**
 * What bringing files in came to.
 *
 * @param kept rows that are now in the store
 * @param notes things decided or mended on the way, a sentence each
 * @param summary one line, or empty
 */
record IntakeResult(
    String kind, long kept, List<RowProblem> refused, List<String> notes, String summary) {
  IntakeResult {
    refused = List.copyOf(refused);
    notes = List.copyOf(notes);
  }

  static <T> ImportRun runOf(String kind, Path file, Read<T> read) {
    return new ImportRun(
        kind,
        file.toString(),
        read.rowsSeen(),
        read.rows().size(),
        read.problems().stream().map(RowProblem::text).toList());
  }

  /** A note with the route it concerns and where in the file it comes from. */
  static String text(AssemblyNote note) {
    return Stream.of(note.routeId(), note.origin(), note.text())
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining(": "));
  }
}
