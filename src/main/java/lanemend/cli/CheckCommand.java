package lanemend.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.crewdays.Agency;
import lanemend.network.GraphReport;
import lanemend.patching.PatchDesign;
import lanemend.store.Store;
import lanemend.store.StoreCheck;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code check}: looks for trouble in the store, the roads and the plan. */
@Command(
    name = "check",
    description =
        "Look for trouble: rows that do not fit together, roads trucks cannot reach, a plan that"
            + " breaks a limit. Changes nothing.")
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      return check(store, spec.commandLine().getOut());
    }
  }

  static int check(Store store, PrintWriter out) {
    List<String> troubles = new ArrayList<>(StoreCheck.check(store));
    County county = County.read(store);
    GraphReport roads = county.haulGraph().report();
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
      return county.checker(agency).check(county.plan(), repairs);
    } catch (IllegalArgumentException e) {
      return List.of("the plan no longer fits the store: " + e.getMessage() + "; plan again");
    }
  }
}
