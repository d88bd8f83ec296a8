package lanemend.cli;

import java.time.LocalDate;
import java.time.ZoneId;
import lanemend.county.PlanKeeping;
import lanemend.crewdays.PlanSettings;
import picocli.CommandLine.Option;

/** From which day on a plan may still be changed. */
final class Today {
  @Option(
      names = "--today",
      paramLabel = "DATE",
      description =
          "crew days before it are past and stay (default: today; the plan's first day where today"
              + " is not among the plan's days)")
  private LocalDate date;

  LocalDate in(PlanSettings plan) {
    if (date != null) {
      return date;
    }
    return PlanKeeping.today(plan, LocalDate.now(ZoneId.systemDefault()));
  }
}
