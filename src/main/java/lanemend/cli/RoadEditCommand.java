package lanemend.cli;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import lanemend.inventory.edit.EventFate;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.edit.RoadEdit;
import lanemend.network.edit.RoadEditor;
import lanemend.store.Store;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What every edit of a road has in common: a day, a try without writing, one transaction. */
abstract class RoadEditCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(
      names = "--on",
      paramLabel = "DATE",
      description = "first day the road is as it is now (default: today)")
  private LocalDate on;

  @Option(names = "--dry-run", description = "say what would become of every event; write nothing")
  private boolean dryRun;

  /** The edit; an {@link IllegalArgumentException} or a {@link Refusal} says why there is none. */
  abstract RoadEdit edit(RoadEditor editor, Network network, ProjectedCrs crs);

  CommandSpec spec() {
    return spec;
  }

  @Override
  public Integer call() {
    LocalDate today = LocalDate.now(ZoneId.systemDefault());
    LocalDate day = on == null ? today : on;
    if (day.isAfter(today) && !dryRun) {
      throw new Refusal(
          "--on "
              + day
              + " is to come: an edit is written on its day or later (--dry-run shows it now)");
    }
    try (Store store = work.open()) {
      RoadEdit edit = worked(store, day);
      List<EventFate> fates = new ArrayList<>();
      if (dryRun) {
        fates.addAll(store.<List<EventFate>>read(s -> s.foresee(edit)));
      } else {
        store.write(
            work.who(),
            edit.what() + ", from " + day + " on",
            change -> fates.addAll(change.edit(edit)));
      }
      new EditSaid(work, spec.commandLine().getOut()).say(edit, fates, dryRun);
    }
    return ExitCode.DONE;
  }

  private RoadEdit worked(Store store, LocalDate day) {
    ProjectedCrs crs = ProjectedCrs.fromWkt(store.crsWkt());
    try {
      return store.read(
          s -> {
            Network network = s.network();
            return edit(new RoadEditor(network, s.lastEditions(), crs, day), network, crs);
          });
    } catch (IllegalArgumentException e) {
      throw new Refusal(e.getMessage());
    }
  }
}
