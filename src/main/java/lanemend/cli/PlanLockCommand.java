package lanemend.cli;

import java.time.LocalDate;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.PlanKeeping;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.HandRules;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code plan lock}: keeps a work zone where it is, or a whole crew day as it is. */
@Command(
    name = "lock",
    description = {
      "Keep the work zone of a defect with its crew on its date, or a whole crew day as it is.",
      "",
      "Later plans leave it so. 'plan release' takes it back."
    })
final class PlanLockCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Parameters(paramLabel = "DEFECT", arity = "0..1", description = "a defect of the zone")
  private String defect;

  @Option(names = "--crew", paramLabel = "ID", description = "with --on: the crew day to lock")
  private String crew;

  @Option(names = "--on", paramLabel = "DATE", description = "date of the crew day to lock")
  private LocalDate date;

  @Option(names = "--reason", paramLabel = "TEXT", description = "why (default: locked by hand)")
  private String reason = "locked by hand";

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      PlanDesk desk = new PlanDesk(store, work.who(), spec.commandLine().getOut());
      County county = desk.planned();
      if ((defect == null) == (crew == null) || (crew == null) != (date == null)) {
        throw new Refusal("name a defect, or a crew day with --crew and --on");
      }
      HandRules rules = defect == null ? day(county) : zone(county);
      desk.keepRules(county, rules, "plan lock");
      desk.list(rules);
    }
    return ExitCode.DONE;
  }

  private HandRules day(County county) {
    PlanDesk.crew(county.agency(), crew);
    return county.handRules().with(HandRule.lockDay(crew, date, reason));
  }

  private HandRules zone(County county) {
    if (county.assignment().dayOf(defect).isEmpty()) {
      throw new Refusal("defect '" + defect + "' is on no crew day");
    }
    return PlanKeeping.pinned(county.handRules(), county.assignment(), defect, reason);
  }
}
