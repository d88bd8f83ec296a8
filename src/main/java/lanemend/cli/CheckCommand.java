package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.OffRoadPlaces;
import lanemend.crewdays.Agency;
import lanemend.network.GraphReport;
import lanemend.patching.PatchDesign;
import lanemend.store.Store;
import lanemend.store.StoreBackup;
import lanemend.store.StoreCheck;
import lanemend.store.StoreException;
import lanemend.store.StoreRepair;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code check}: looks for trouble in the store, the roads and the plan. */
@Command(
    name = "check",
    description = {
      "Look for trouble: rows that do not fit together, roads trucks cannot reach, a plan that"
          + " breaks a limit. Changes nothing, unless told to repair.",
      "",
      "--repair puts right what follows from the rest of the file (indexes, extents, triggers, the"
          + " standard's own tables, lengths, lines drawn along a road, missing log entries), after"
          + " a backup copy. What a person entered is left to a person, and said."
    })
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(names = "--repair", description = "put right what a program may, after a backup copy")
  private boolean repair;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (Store store = work.open()) {
      if (repair && StoreRepair.isNeeded(store)) {
        Path copy = BackupCommand.place(work, "-before-repair");
        BackupCommand.print(StoreBackup.copyAsItIs(store.file(), copy), out);
        StoreRepair.Repaired repaired = StoreRepair.repair(store, work.who());
        repaired.done().forEach(d -> out.println("  repaired: " + d));
        // All of them, and not the first few: each is for a person to look at.
        repaired.left().forEach(l -> out.println("  left to a person: " + l));
      }
      return check(store, out);
    }
  }

  /** Checks a store's file alone, without its roads and plan. */
  static int checkFile(Path file, PrintWriter out) {
    List<String> troubles = StoreCheck.check(file);
    out.println(
        "check      " + (troubles.isEmpty() ? "nothing wrong" : troubles.size() + " things wrong"));
    new Report(out, out).list(troubles, "  wrong: ");
    return troubles.isEmpty() ? ExitCode.DONE : ExitCode.TROUBLE_FOUND;
  }

  static int check(Store store, PrintWriter out) {
    List<String> troubles = new ArrayList<>(StoreCheck.check(store));
    County county;
    try {
      county = County.read(store);
    } catch (StoreException e) {
      // What keeps the county from being read is, or goes with, one of the troubles.
      if (!troubles.contains(e.getMessage())) {
        troubles.add(e.getMessage());
      }
      out.printf("check      %d things wrong; the roads could not be read%n", troubles.size());
      new Report(out, out).list(troubles, "  wrong: ");
      return ExitCode.TROUBLE_FOUND;
    }
    GraphReport roads = county.haulGraph().report();
    if (county.hasAgency()) {
      troubles.addAll(OffRoadPlaces.of(county.agency(), county.haulGraph()));
    }
    if (county.hasAgency() && !county.assignment().days().isEmpty()) {
      troubles.addAll(planTroubles(county));
    }
    Report report = new Report(out, out);
    out.printf(
        Locale.ROOT,
        "check      %s; roads hang together over %.1f %% of their length in %d parts%n",
        troubles.isEmpty() ? "nothing wrong" : troubles.size() + " things wrong",
        100 * roads.largestShare(),
        roads.parts());
    report.list(
        roads.unreachableRoutes().stream()
            .map(id -> "trucks cannot reach " + id + " from most roads")
            .toList(),
        "  note: ");
    report.list(troubles, "  wrong: ");
    return troubles.isEmpty() ? ExitCode.DONE : ExitCode.TROUBLE_FOUND;
  }

  private static List<String> planTroubles(County county) {
    Agency agency = county.agency();
    List<PatchDesign> repairs = county.repairs();
    try {
      return county.plans().checker(agency).check(county.plan(), repairs);
    } catch (Refusal e) {
      return List.of(e.getMessage());
    } catch (IllegalArgumentException e) {
      return List.of("the plan no longer fits the store: " + e.getMessage() + "; plan again");
    }
  }
}
