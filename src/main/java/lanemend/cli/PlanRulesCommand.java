package lanemend.cli;

import java.util.concurrent.Callable;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code plan rules}: lists what is settled by hand. */
@Command(name = "rules", description = "List what is settled about the plan by hand.")
final class PlanRulesCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      PlanDesk desk = new PlanDesk(store, work.who(), spec.commandLine().getOut());
      desk.list(desk.county().handRules());
    }
    return ExitCode.DONE;
  }
}
