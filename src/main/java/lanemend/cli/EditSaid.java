package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import lanemend.exchange.EditExport;
import lanemend.inventory.edit.EventFate;
import lanemend.inventory.edit.EventKind;
import lanemend.inventory.edit.Outcome;
import lanemend.network.edit.RoadEdit;

/** Tells what an edit of roads does, event by event; the whole list goes to a file. */
final class EditSaid {
  private final WorkFolder work;
  private final PrintWriter out;

  EditSaid(WorkFolder work, PrintWriter out) {
    this.work = work;
    this.out = out;
  }

  void say(RoadEdit edit, List<EventFate> fates, boolean dryRun) {
    out.printf(
        "road       %s, from %s on%s%n",
        edit.what(), edit.on(), dryRun ? " (tried only, nothing was written)" : "");
    new Report(out, out).list(edit.notes(), "  note: ");
    Map<Outcome, Long> counts =
        fates.stream()
            .collect(
                Collectors.groupingBy(
                    EventFate::outcome, () -> new EnumMap<>(Outcome.class), Collectors.counting()));
    if (fates.isEmpty()) {
      out.println("events     none of them changes");
      return;
    }
    out.printf(
        "events     %s%n",
        counts.entrySet().stream()
            .map(e -> String.format(Locale.ROOT, "%,d %s", e.getValue(), e.getKey().words()))
            .collect(Collectors.joining(", ")));
    long looks = fates.stream().filter(EventFate::needsLook).count();
    // What somebody must do comes first.
    List<String> lines =
        fates.stream()
            .sorted(Comparator.comparing(f -> !f.needsLook()))
            .map(EditSaid::line)
            .toList();
    new Report(out, out).list(lines, "  ");
    if (looks > 0 && !dryRun) {
      out.printf(Locale.ROOT, "review     %,d to look at: 'review' lists them%n", looks);
    }
    Path file = work.folderOf("exports").resolve(dryRun ? "edit-tried.csv" : "edit-last.csv");
    EditExport.csv(file, edit, fates);
    out.printf("export     %s%n", file);
  }

  private static String line(EventFate f) {
    return words(f.event().kind())
        + " "
        + f.event().key()
        + (f.event().value().isEmpty() ? "" : " = " + f.event().value())
        + ": "
        + f.outcome().words()
        + "; "
        + (f.needsLook() ? "to look at: " + f.look() : f.why());
  }

  private static String words(EventKind kind) {
    return switch (kind) {
      case OPEN_DEFECT, CLOSED_DEFECT -> "defect";
      case FINDING -> "finding";
      case PATCH -> "patch";
      case RECORD -> "survey or layer";
      case PAVEMENT_FACT, TRAFFIC_FACT, AGENCY_FACT -> "fact";
      case DECISION -> "decision";
    };
  }
}
