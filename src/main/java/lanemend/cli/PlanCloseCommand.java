package lanemend.cli;

import java.time.LocalDate;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.HandRules;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code plan close}: a day without work, for one crew or for all. */
@Command(
    name = "close",
    description = {
      "Close a day for one crew or for all, as for rain or a crew that is out.",
      "",
      "What was planned then goes to other days as 'plan adjust' does it, with least disturbance."
          + " 'plan release' opens the day again."
    })
final class PlanCloseCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private AdjustOptions options;

  @Option(names = "--on", paramLabel = "DATE", required = true, description = "the date")
  private LocalDate date;

  @Option(names = "--crew", paramLabel = "ID", description = "the crew (default: every crew)")
  private String crew = "";

  @Option(names = "--reason", paramLabel = "TEXT", required = true, description = "why")
  private String reason;

  @Override
  public Integer call() {
    try (Store store = work.open();
        KeptOnInterrupt kept = new KeptOnInterrupt()) {
      PlanDesk desk = new PlanDesk(store, work.who(), spec.commandLine().getOut());
      County county = desk.planned();
      if (!crew.isEmpty()) {
        PlanDesk.crew(county.agency(), crew);
      }
      HandRules rules = county.handRules().with(HandRule.closeDay(crew, date, reason));
      desk.keep(
          county,
          rules,
          options.adjusted(county, rules, kept),
          options.today(county),
          "plan close " + (crew.isEmpty() ? "" : crew + " ") + date + ": " + reason,
          options.onlyTry());
    }
    return ExitCode.DONE;
  }
}
