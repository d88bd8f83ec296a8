package lanemend.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Replanner;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code plan urgent}: brings one repair in by a date and changes as little as can be. */
@Command(
    name = "urgent",
    description = {
      "Bring a defect into the plan that must be repaired by a date, changing as little as can be.",
      "",
      "Least is, in this order: crew days close at hand, zones taken off the plan, other crew days"
          + " changed, zones moved, days in another order, cost. Later plans keep the date."
    })
final class PlanUrgentCommand implements Callable<Integer> {
  static final int FREEZE_DAYS = 2;
  private static final double SECONDS = 1.5;

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private Today today;

  @Parameters(paramLabel = "DEFECT", description = "the defect, imported already")
  private String defect;

  @Option(names = "--by", paramLabel = "DATE", required = true, description = "the last day for it")
  private LocalDate by;

  @Option(names = "--reason", paramLabel = "TEXT", description = "why (default: urgent)")
  private String reason = "urgent";

  @Option(
      names = "--freeze",
      paramLabel = "DAYS",
      defaultValue = "" + FREEZE_DAYS,
      description =
          "calendar days from today that change only if they must (default: ${DEFAULT-VALUE})")
  private int freezeDays;

  @Option(
      names = "--seconds",
      paramLabel = "S",
      defaultValue = "" + SECONDS,
      description = "longest search (default: ${DEFAULT-VALUE})")
  private double seconds;

  @Option(names = "--try", description = "only say what it would give")
  private boolean onlyTry;

  @Override
  public Integer call() {
    Refusal.unless(freezeDays >= 0, "--freeze", freezeDays, "0 days or more");
    Refusal.unless(seconds > 0, "--seconds", seconds, "more than 0");
    PrintWriter out = spec.commandLine().getOut();
    try (Store store = work.open()) {
      PlanDesk desk = new PlanDesk(store, work.who(), out);
      County county = desk.county();
      LocalDate from = today.in(county.agency().plan());
      HandRules rules = county.handRules().with(HandRule.doneBy(defect, by, reason));
      boolean planned =
          county
              .assignment()
              .dayOf(defect)
              .filter(d -> !d.date().isAfter(by) && !d.date().isBefore(from))
              .isPresent();
      if (planned) {
        desk.keepRules(county, rules, "plan urgent " + defect);
        out.println(defect + " is planned in time already; the date is kept, nothing else changed");
        return ExitCode.DONE;
      }
      Replanner.Urgent found = find(county, from);
      if (found == null) {
        throw new Refusal(
            "no way was found to repair "
                + defect
                + " by "
                + by
                + "; 'plan move "
                + defect
                + " --crew ID --on DATE --try' says what stands against a day");
      }
      say(found, out);
      String why = "plan urgent " + defect + " by " + by + ": " + reason;
      desk.keep(county, rules, found.assignment(), from, why, onlyTry);
    }
    return ExitCode.DONE;
  }

  private Replanner.Urgent find(County county, LocalDate from) {
    try {
      return county
          .plans()
          .replanner(county.agency(), from)
          .urgent(
              county.repairsInParts(),
              county.assignment(),
              defect,
              by,
              from.plusDays(freezeDays),
              seconds);
    } catch (IllegalArgumentException e) {
      throw new Refusal(e.getMessage());
    }
  }

  private void say(Replanner.Urgent u, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "urgent     %s is done by crew %s on %s%s: %d other crew days changed, %d zones moved, %d"
            + " taken off, %d days in another order, %d close at hand (%s)%n",
        defect,
        u.crewId(),
        u.date(),
        u.joined() ? " in a zone planned already" : "",
        u.otherDays(),
        u.zonesMoved(),
        u.zonesOff(),
        u.daysReordered(),
        u.frozenDays(),
        u.proven() ? "nothing less would do" : "least found in the time");
  }
}
