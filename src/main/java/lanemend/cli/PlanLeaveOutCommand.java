package lanemend.cli;

import java.time.LocalDate;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lanemend.county.County;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.HandRules;
import lanemend.patching.RepairPart;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code plan leave-out}: keeps a defect out of the plan. */
@Command(
    name = "leave-out",
    description = {
      "Keep a defect out of the plan; it goes on waiting.",
      "",
      "The rest of its work zone and crew day stays. 'plan release' takes it back."
    })
final class PlanLeaveOutCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private Today today;

  @Parameters(paramLabel = "DEFECT", description = "the defect")
  private String defect;

  @Option(names = "--reason", paramLabel = "TEXT", required = true, description = "why")
  private String reason;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      PlanDesk desk = new PlanDesk(store, work.who(), spec.commandLine().getOut());
      County county = desk.county();
      if (county.repairs().stream().noneMatch(r -> r.defect().id().equals(defect))) {
        throw new Refusal("defect '" + defect + "' does not wait for repair");
      }
      HandRules rules = county.handRules().with(HandRule.leaveOut(defect, reason));
      LocalDate from = today.in(county.agency().plan());
      desk.keep(
          county,
          rules,
          county.plans().waiting(county.assignment()).without(parts(county)),
          from,
          "plan leave-out " + defect + ": " + reason,
          false);
    }
    return ExitCode.DONE;
  }

  /** The defect's repair in the plan, or its parts. */
  private Set<String> parts(County county) {
    return county.assignment().defectIds().stream()
        .filter(id -> RepairPart.defectOf(id).equals(defect))
        .collect(Collectors.toSet());
  }
}
