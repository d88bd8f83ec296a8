package lanemend.cli;

import java.time.LocalDate;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.PlanKeeping;
import lanemend.crewdays.HandRules;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code plan release}: takes back what was settled by hand. */
@Command(
    name = "release",
    description = {
      "Take back what was settled by hand of a defect's zone, of a crew's day or of a date.",
      "",
      "The plan stays as it is until 'plan' or 'plan adjust' is run."
    })
final class PlanReleaseCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Parameters(paramLabel = "DEFECT", arity = "0..1", description = "the defect")
  private String defect;

  @Option(names = "--crew", paramLabel = "ID", description = "the crew (default: every crew)")
  private String crew = "";

  @Option(names = "--on", paramLabel = "DATE", description = "the date locked or closed")
  private LocalDate date;

  @Override
  public Integer call() {
    if ((defect == null) == (date == null)) {
      throw new Refusal("name a defect, or a date with --on");
    }
    try (Store store = work.open()) {
      PlanDesk desk = new PlanDesk(store, work.who(), spec.commandLine().getOut());
      County county = desk.county();
      HandRules rules = county.handRules();
      HandRules rest =
          defect == null
              ? PlanKeeping.released(rules, crew, date)
              : PlanKeeping.released(rules, defect);
      if (rest.all().size() == rules.all().size()) {
        throw new Refusal(
            "nothing is settled by hand of "
                + (defect == null
                    ? (crew.isEmpty() ? "every crew" : "crew " + crew) + " on " + date
                    : "defect " + defect)
                + ": 'plan rules' lists what is");
      }
      desk.keepRules(county, rest, "plan release");
      desk.list(rest);
    }
    return ExitCode.DONE;
  }
}
