package lanemend.cli;

import java.time.LocalDate;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.crewdays.HandRules;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code plan adjust}: plans again after something changed, with least disturbance. */
@Command(
    name = "adjust",
    description = {
      "Plan again after something changed (new defects, work done, a day lost), and disturb the"
          + " plan as little as can be.",
      "",
      "Past days and days close at hand stay. Each zone that ends on another day or with another"
          + " crew counts as --move-price, so it moves only where that saves more or nothing else"
          + " fits."
    })
final class PlanAdjustCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private AdjustOptions options;

  @Override
  public Integer call() {
    try (Store store = work.open();
        KeptOnInterrupt kept = new KeptOnInterrupt()) {
      PlanDesk desk = new PlanDesk(store, work.who(), spec.commandLine().getOut());
      County county = desk.planned();
      LocalDate from = options.today(county);
      HandRules rules = county.handRules();
      desk.keep(
          county,
          rules,
          options.adjusted(county, rules, kept),
          from,
          "plan adjust",
          options.onlyTry());
    }
    return ExitCode.DONE;
  }
}
