package lanemend.cli;

import java.time.LocalDate;
import lanemend.county.County;
import lanemend.county.PlanKeeping;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.routing.SearchBudget;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** How a plan is adjusted. */
final class AdjustOptions {
  private static final long ITERATIONS = 10_000;

  @Mixin private Today today;

  @Option(
      names = "--freeze",
      paramLabel = "DAYS",
      defaultValue = "" + PlanUrgentCommand.FREEZE_DAYS,
      description = "calendar days from today that do not change (default: ${DEFAULT-VALUE})")
  private int freezeDays;

  @Option(
      names = "--move-price",
      paramLabel = "MONEY",
      description =
          "what it is worth not to move a zone to another day or crew (default: half an hour of the"
              + " dearest crew)")
  private Double movePrice;

  @Option(
      names = "--iterations",
      paramLabel = "N",
      defaultValue = "" + ITERATIONS,
      description = "search steps on each core (default: ${DEFAULT-VALUE})")
  private long iterations;

  @Option(names = "--try", description = "only say what it would give")
  private boolean onlyTry;

  LocalDate today(County county) {
    return today.in(county.agency().plan());
  }

  boolean onlyTry() {
    return onlyTry;
  }

  /** The kept plan adjusted to what is true now and to these rules. */
  Assignment adjusted(County county, HandRules rules, KeptOnInterrupt kept) {
    Refusal.unless(freezeDays >= 0, "--freeze", freezeDays, "0 days or more");
    Refusal.unless(iterations >= 1, "--iterations", iterations, "1 or more");
    Refusal.unless(movePrice == null || movePrice >= 0, "--move-price", movePrice, "0 or more");
    PlanKeeping keeping = new PlanKeeping(county, today(county));
    try (Progress bar = new Progress("crew days", 100)) {
      return keeping.adjusted(
          rules,
          freezeDays,
          movePrice == null ? keeping.movePrice() : movePrice,
          SearchBudget.iterations(iterations, PlanCommand.SEED),
          kept.hearing(Planning.showing(bar)));
    }
  }
}
