package lanemend.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lanemend.store.LoggedChange;
import lanemend.store.Store;
import lanemend.store.WriteDone;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code history}: who changed what. */
@Command(
    name = "history",
    description = "Who changed what: every write, or what happened to one row.")
final class HistoryCommand implements Callable<Integer> {
  private static final int SHOWN = 20;

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(
      names = "--last",
      paramLabel = "N",
      defaultValue = "" + SHOWN,
      description = "how many writes to show (default: ${DEFAULT-VALUE})")
  private int last;

  @Option(
      names = "--of",
      paramLabel = "ID",
      description = "what happened to the row of this id: a defect, finding, patch or route")
  private String of;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (Store store = work.open()) {
      if (of == null) {
        writes(store, out);
      } else {
        row(store, out);
      }
    }
    return ExitCode.DONE;
  }

  private void writes(Store store, PrintWriter out) {
    List<WriteDone> writes = store.read(s -> s.writes());
    int from = Math.max(0, writes.size() - Math.max(0, last));
    if (from > 0) {
      out.println(from + " earlier writes are not shown (--last)");
    }
    for (WriteDone w : writes.subList(from, writes.size())) {
      out.printf(
          Locale.ROOT,
          "%6d  %s  %s  %s%s%n",
          w.edit(),
          w.at(),
          w.who(),
          w.why(),
          w.undoneBy() == 0 ? "" : "  (taken back by " + w.undoneBy() + ")");
      out.println(
          "        "
              + new TreeMap<>(w.rows())
                  .entrySet().stream()
                      .map(e -> String.format(Locale.ROOT, "%s %,d", e.getKey(), e.getValue()))
                      .collect(Collectors.joining(", ")));
    }
  }

  private void row(Store store, PrintWriter out) {
    List<LoggedChange> changes =
        store.read(
            s ->
                List.of("defect", "finding", "patch", "route", "renewal_decision").stream()
                    .flatMap(table -> s.history(table, of).stream())
                    .toList());
    if (changes.isEmpty()) {
      throw new Refusal("the change log knows no row '" + of + "'");
    }
    for (LoggedChange c : changes) {
      out.printf(
          Locale.ROOT,
          "%6d  %s  %s  %s: %s %s%n",
          c.edit(),
          c.at(),
          c.who(),
          c.why(),
          c.table(),
          c.action());
      ChangedCells.of(c).forEach(cell -> out.println("        " + cell));
    }
  }
}
