package lanemend.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.store.Store;
import lanemend.store.WriteDone;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code undo}: takes a write back. */
@Command(
    name = "undo",
    description = {
      "Take back a write: an import, an edit of a road, a plan. Every row is again what it was.",
      "",
      "Without a number the last one that stands. It is refused while later writes build on it; an"
          + " undo can itself be taken back by its number. 'history' lists the numbers."
    })
final class UndoCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Parameters(arity = "0..1", paramLabel = "NUMBER", description = "the write's number")
  private Long number;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (Store store = work.open()) {
      List<WriteDone> writes = store.read(s -> s.writes());
      WriteDone back =
          writes.stream()
              .filter(
                  w -> number == null ? w.undoneBy() == 0 && w.undoes() == 0 : w.edit() == number)
              .reduce((a, b) -> b)
              .orElseThrow(
                  () ->
                      new Refusal(
                          number == null
                              ? "there is nothing to take back"
                              : "there is no write " + number + ": 'history' lists them"));
      int rows = store.undo(back.edit(), work.who());
      out.printf(
          Locale.ROOT,
          "undo       write %d (%s) taken back, %,d rows are again what they were%n",
          back.edit(),
          back.why(),
          rows);
    }
    return ExitCode.DONE;
  }
}
