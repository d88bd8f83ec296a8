package lanemend.cli;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.PlanMaking;
import lanemend.crewdays.Agency;
import lanemend.crewdays.PlanSettings;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code plan}: groups waiting repairs into work zones and crew days. */
@Command(
    name = "plan",
    description = {
      "Group every waiting repair into work zones and crew days.",
      "",
      "The same store, seed and iterations give the same plan. A longer search gives a cheaper one."
          + " A plan replaces the one before and keeps to what is settled by hand."
    },
    subcommands = {
      PlanMoveCommand.class,
      PlanLockCommand.class,
      PlanLeaveOutCommand.class,
      PlanReleaseCommand.class,
      PlanRulesCommand.class,
      PlanUrgentCommand.class,
      PlanCloseCommand.class,
      PlanAdjustCommand.class,
      PlanChangesCommand.class,
      PlanProveCommand.class
    })
final class PlanCommand implements Callable<Integer> {
  static final long ITERATIONS = 30_000;
  static final long SEED = 1;
  static final double PROOF_SECONDS = 5;

  /** As many as the agency's file may ask for. */
  private static final int MOST_DAYS = 3_660;

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(
      names = "--from",
      paramLabel = "DATE",
      description = "first day, YYYY-MM-DD (default: the agency's)")
  private LocalDate from;

  @Option(
      names = "--days",
      paramLabel = "N",
      description = "how many calendar days the plan may use (default: the agency's)")
  private Integer days;

  @Option(
      names = "--until",
      paramLabel = "DATE",
      description = "last day, YYYY-MM-DD, in place of --days")
  private LocalDate until;

  @Option(
      names = "--season",
      description = "plan to the last day of the agency's hot-mix season, in place of --days")
  private boolean season;

  @Option(
      names = "--keep-other-days",
      description =
          "plan these dates only: crew days on other dates stay as they are (without it they are"
              + " planned anew or go)")
  private boolean keepOtherDays;

  @Option(
      names = "--iterations",
      paramLabel = "N",
      description = "search steps on each core (default: " + ITERATIONS + ")")
  private Long iterations;

  @Option(
      names = "--seconds",
      paramLabel = "S",
      description = "search for this long instead; the result then depends on the machine")
  private Double seconds;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "" + SEED,
      description = "seed of the search (default: ${DEFAULT-VALUE})")
  private long seed;

  @Option(
      names = "--proof",
      paramLabel = "S",
      defaultValue = "" + PROOF_SECONDS,
      description =
          "seconds to prove how far the plan is at most from the cheapest; 0 for none (default:"
              + " ${DEFAULT-VALUE})")
  private double proof;

  @Override
  public Integer call() {
    SearchBudget budget = budget();
    Refusal.unless(proof >= 0, "--proof", proof, "0 seconds or more");
    try (Store store = work.open()) {
      County county = County.read(store);
      Agency agency = county.agency();
      if (from != null || days != null || until != null || season) {
        agency = agency.withHorizon(from, calendarDays(agency.plan()));
      }
      PlanMaking making =
          PlanMaking.over(county, agency, keepOtherDays, LocalDate.now(ZoneId.systemDefault()));
      Planning.plan(store, work.who(), county, making, budget, proof, spec.commandLine().getOut());
    }
    return ExitCode.DONE;
  }

  /** Calendar days the plan may use, or null to keep the agency's. */
  private Integer calendarDays(PlanSettings plan) {
    if ((days == null ? 0 : 1) + (until == null ? 0 : 1) + (season ? 1 : 0) > 1) {
      throw new Refusal("give one of --days, --until and --season");
    }
    LocalDate first = from == null ? plan.firstDay() : from;
    LocalDate last = season ? plan.season().hotMixTo().atYear(first.getYear()) : until;
    if (last == null) {
      Refusal.unless(
          days == null || (days >= 1 && days <= MOST_DAYS), "--days", days, "1 to " + MOST_DAYS);
      return days;
    }
    long count = ChronoUnit.DAYS.between(first, last) + 1;
    if (count < 1) {
      throw new Refusal("the plan would end on " + last + ", before its first day " + first);
    }
    if (count > MOST_DAYS) {
      throw new Refusal(
          "the plan would run from "
              + first
              + " to "
              + last
              + ", "
              + count
              + " days; expected 1 to "
              + MOST_DAYS);
    }
    return Math.toIntExact(count);
  }

  private SearchBudget budget() {
    if (seconds != null && iterations != null) {
      throw new Refusal("give --seconds or --iterations, not both");
    }
    if (seconds != null) {
      Refusal.unless(seconds > 0, "--seconds", seconds, "more than 0");
      return SearchBudget.seconds(seconds, seed);
    }
    Refusal.unless(iterations == null || iterations >= 1, "--iterations", iterations, "1 or more");
    return SearchBudget.iterations(iterations == null ? ITERATIONS : iterations, seed);
  }
}
