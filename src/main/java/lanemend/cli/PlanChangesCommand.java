package lanemend.cli;

import java.time.LocalDate;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code plan changes}: what is different from the plan before, and why. */
@Command(
    name = "changes",
    description = "List what is different from the plan that was kept before, and why.")
final class PlanChangesCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private Today today;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      PlanDesk desk = new PlanDesk(store, work.who(), spec.commandLine().getOut());
      County county = desk.planned();
      if (county.assignmentBefore().days().isEmpty()) {
        throw new Refusal("there is no plan before this one yet");
      }
      LocalDate from = today.in(county.agency().plan());
      desk.say(
          county
              .plans()
              .compare(
                  county.handRules(),
                  county.assignmentBefore(),
                  county.assignment(),
                  county.plan(),
                  from),
          county);
    }
    return ExitCode.DONE;
  }
}
