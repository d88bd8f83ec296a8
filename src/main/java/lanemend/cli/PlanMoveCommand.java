package lanemend.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.PlanKeeping;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Trial;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code plan move}: puts a work zone on another crew day by hand. */
@Command(
    name = "move",
    description = {
      "Move the work zone of a defect to a crew and date.",
      "",
      "Says what it costs and each limit it would break; what breaks none is kept, and later plans"
          + " leave it there ('plan release' lets it go). A defect that was left out comes in."
    })
final class PlanMoveCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private Today today;

  @Parameters(paramLabel = "DEFECT", description = "a defect of the zone")
  private String defect;

  @Option(names = "--crew", paramLabel = "ID", required = true, description = "the crew")
  private String crew;

  @Option(names = "--on", paramLabel = "DATE", required = true, description = "the date")
  private LocalDate date;

  @Option(names = "--reason", paramLabel = "TEXT", description = "why (default: moved by hand)")
  private String reason = "moved by hand";

  @Option(names = "--try", description = "only say what it would give")
  private boolean onlyTry;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (Store store = work.open()) {
      PlanDesk desk = new PlanDesk(store, work.who(), out);
      County county = desk.planned();
      LocalDate from = today.in(county.agency().plan());
      Trial trial = trial(county, from);
      if (trial.costAfter() != null) {
        out.printf(
            Locale.ROOT,
            "cost       %,.0f %s now, %,.0f with it there (%+,.0f)%n",
            trial.costBefore(),
            county.agency().plan().currency(),
            trial.costAfter(),
            trial.costAfter().subtract(trial.costBefore()));
      }
      if (!trial.possible()) {
        trial.broken().forEach(b -> out.println("not possible: " + b));
        return ExitCode.TROUBLE_FOUND;
      }
      HandRules rules = PlanKeeping.pinned(county.handRules(), trial.assignment(), defect, reason);
      String why = "plan move " + defect + " to " + crew + " " + date + ": " + reason;
      desk.keep(county, rules, trial.assignment(), from, why, onlyTry);
    }
    return ExitCode.DONE;
  }

  private Trial trial(County county, LocalDate from) {
    try {
      return county.plans().openPlan(from).move(defect, crew, date);
    } catch (IllegalArgumentException e) {
      throw new Refusal(e.getMessage());
    }
  }
}
