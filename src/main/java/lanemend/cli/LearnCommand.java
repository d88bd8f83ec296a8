package lanemend.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import lanemend.county.BrokenPlan;
import lanemend.county.County;
import lanemend.county.LearnedEffect;
import lanemend.county.LearnedWork;
import lanemend.crewdays.learning.Learning;
import lanemend.crewdays.learning.Proposal;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.measure.Unit;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code learn}: what done work teaches of minutes, mix and cost. */
@Command(
    name = "learn",
    description = {
      "List what done work teaches: how minutes, mix and the cost of a crew's hour went against"
          + " the plan, by treatment and crew, each pulled towards the agency's mean as far as its"
          + " records leave it open, with its 90 %% interval.",
      "",
      "Nothing is used until it is accepted: 'learn effect' says what it would do to the plan,"
          + " 'learn accept' puts it in force, 'learn release' takes it out again. A * marks"
          + " factors that records clearly speak for."
    },
    subcommands = {
      LearnCommand.Effect.class,
      LearnCommand.Accept.class,
      LearnCommand.Release.class,
      LearnCommand.InForce.class
    })
final class LearnCommand implements Callable<Integer> {
  private static final int NAMED = 20;

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private Time time;

  /** The work to learn from. */
  static final class Time {
    @Option(
        names = "--from",
        paramLabel = "DATE",
        description = "learn from work done since, YYYY-MM-DD (default: all)")
    private LocalDate from;

    @Option(
        names = "--to",
        paramLabel = "DATE",
        description = "learn from work done until, YYYY-MM-DD (default: all)")
    private LocalDate to;

    Learning learn(LearnedWork done) {
      if (from != null && to != null && to.isBefore(from)) {
        throw new Refusal("--to " + to + " lies before --from " + from);
      }
      return done.learn(from, to);
    }
  }

  /** Which proposals are meant. */
  static final class Which {
    @Parameters(
        arity = "0..*",
        paramLabel = "FACTOR",
        description = "such as 'minutes blade_patch C2' or 'mix hand_patch', in quotes")
    private List<String> keys = List.of();

    @Option(names = "--clear", description = "all that records clearly speak for (marked *)")
    private boolean clear;

    @Option(names = "--all", description = "all that can be used")
    private boolean all;

    List<Proposal> of(Learning learning) {
      if ((keys.isEmpty() ? 0 : 1) + (clear ? 1 : 0) + (all ? 1 : 0) != 1) {
        throw new Refusal("name factors, or give one of --clear and --all");
      }
      if (keys.isEmpty()) {
        List<Proposal> chosen =
            learning.proposals().stream().filter(p -> p.usable() && (all || p.clear())).toList();
        if (chosen.isEmpty()) {
          throw new Refusal("there is no such factor to use: 'learn' lists what there is");
        }
        return chosen;
      }
      List<Proposal> chosen = new ArrayList<>();
      for (String key : keys) {
        chosen.add(
            learning
                .proposal(key.strip())
                .orElseThrow(
                    () ->
                        new Refusal(
                            "no work was recorded for '"
                                + key
                                + "': 'learn' lists what there is")));
      }
      return chosen;
    }
  }

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      Learning learning = time.learn(new LearnedWork(County.read(store)));
      PrintWriter out = spec.commandLine().getOut();
      say(learning, out);
      return ExitCode.DONE;
    }
  }

  private static void say(Learning learning, PrintWriter out) {
    if (learning.proposals().isEmpty()) {
      out.println("learned    nothing: no record has both what was planned and what was done");
    } else {
      out.printf(
          Locale.ROOT,
          "%-40s %6s %9s  %-14s %7s %9s%n",
          "factor",
          "now",
          "proposed",
          "90 % interval",
          "repairs",
          "own mean");
      learning.proposals().forEach(p -> say(p, out));
    }
    for (Learning.Pulled p : learning.pulled()) {
      out.printf(
          Locale.ROOT,
          "far off    %s on %s: %s is %.2f times its plan; it counts as %.2f%n",
          p.id(),
          p.on(),
          measure(p.measure()),
          p.ratio(),
          p.countedAs());
    }
    for (Map.Entry<Measure, Map<String, Integer>> of : learning.without().entrySet()) {
      of.getValue()
          .forEach(
              (why, n) ->
                  out.printf(
                      Locale.ROOT,
                      "not used   %s of %,d repairs: %s%n",
                      measure(of.getKey()),
                      n,
                      why));
    }
    if (!learning.proposals().isEmpty()) {
      out.println("           nothing is used until accepted: 'learn effect', 'learn accept'");
    }
  }

  private static void say(Proposal p, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "%-40s %6.2f %9.2f  %-14s %7d %9.2f%s%n",
        (p.crewId().isEmpty() ? "" : "  ") + p.key(),
        p.now(),
        p.proposed(),
        String.format(Locale.ROOT, "%.2f to %.2f", p.low(), p.high()),
        p.records(),
        p.own(),
        p.usable() ? p.clear() ? " *" : "" : " (shown only)");
  }

  private static String measure(Measure m) {
    return switch (m) {
      case MINUTES -> "minutes";
      case MIX -> "mix";
      case HOUR_COST -> "hour cost";
    };
  }

  /** {@code learn effect}. */
  @Command(
      name = "effect",
      description = {
        "Say what factors would do to the plan, before they are in force: the plan as kept, worked"
            + " out with and without them, and all waiting repairs planned anew with and without.",
        "  learn effect --clear"
      })
  static final class Effect implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;
    @Mixin private Time time;
    @Mixin private Which which;

    @Option(
        names = "--iterations",
        paramLabel = "N",
        defaultValue = "" + PlanCommand.ITERATIONS,
        description = "search steps of each plan (default: ${DEFAULT-VALUE})")
    private long iterations;

    @Override
    public Integer call() {
      Refusal.unless(iterations >= 1, "--iterations", iterations, "1 or more");
      try (Store store = work.open()) {
        County county = County.read(store);
        LocalDate today = LocalDate.now(ZoneId.systemDefault());
        List<LearnedFactor> more =
            which.of(time.learn(new LearnedWork(county))).stream()
                .map(p -> usable(p).accepted(work.who(), today))
                .toList();
        LearnedEffect effect;
        try (Progress bar = new Progress("crew days", 100)) {
          effect =
              LearnedEffect.of(
                  county,
                  more,
                  SearchBudget.iterations(iterations, PlanCommand.SEED),
                  Planning.showing(bar));
        } catch (BrokenPlan e) {
          throw Planning.refusal(e);
        }
        PrintWriter out = spec.commandLine().getOut();
        out.printf("effect     of %d factors%n", more.size());
        if (effect.keptWithout() != null) {
          out.println("plan as kept:");
          say("  now", effect.keptWithout(), county, out);
          if (effect.keptWith() != null) {
            say("  with them", effect.keptWith(), county, out);
          }
          if (!effect.broken().isEmpty()) {
            out.printf("  it would break %d limits:%n", effect.broken().size());
            effect.broken().stream().limit(NAMED).forEach(b -> out.println("    " + b));
          }
        }
        out.println("planned anew:");
        say("  without", effect.anewWithout(), county, out);
        say("  with them", effect.anewWith(), county, out);
        return ExitCode.DONE;
      }
    }

    private static Proposal usable(Proposal p) {
      if (!p.usable()) {
        throw new Refusal("'" + p.key() + "' is shown only: " + p.reason());
      }
      return p;
    }

    private static void say(String name, LearnedEffect.Totals t, County county, PrintWriter out) {
      out.printf(
          Locale.ROOT,
          "%-12s %d crew days, %d repairs, %d left out, %s, %,.1f crew hours, %,.0f %s; chance of"
              + " ending in time %.0f %% a day, %.0f %% the least%n",
          name,
          t.plan().crewDays(),
          t.plan().repairs(),
          t.plan().leftOut(),
          county.units().show(t.plan().tonnes(), Unit.TONNE).text(),
          t.crewHours(),
          t.plan().cost(),
          county.agency().plan().currency(),
          100 * t.meanChance(),
          100 * t.leastChance());
    }
  }

  /** {@code learn accept}. */
  @Command(
      name = "accept",
      description = {
        "Put learned factors in force: designs and crew days use them from now on, and each figure"
            + " says so. The plan as kept stays; plan again after it.",
        "  learn accept --clear",
        "  learn accept \"minutes blade_patch\" \"mix blade_patch\" --who \"A. Planner\""
      })
  static final class Accept implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;
    @Mixin private Time time;
    @Mixin private Which which;

    @Override
    public Integer call() {
      try (Store store = work.open()) {
        LearnedWork done = new LearnedWork(County.read(store));
        List<Proposal> chosen = which.of(time.learn(done));
        done.accept(store, work.who(), LocalDate.now(ZoneId.systemDefault()), chosen);
        PrintWriter out = spec.commandLine().getOut();
        for (Proposal p : chosen) {
          out.printf(Locale.ROOT, "accepted   %s: %.3f (%s)%n", p.key(), p.proposed(), p.reason());
        }
        out.println("  note: run 'plan' again; 'undo' or 'learn release' takes it back");
        return ExitCode.DONE;
      }
    }
  }

  /** {@code learn release}. */
  @Command(
      name = "release",
      description = {"Take learned factors out of force.", "  learn release \"mix hand_patch\""})
  static final class Release implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Parameters(arity = "1..*", paramLabel = "FACTOR", description = "as 'learn in-force' has it")
    private List<String> keys;

    @Override
    public Integer call() {
      try (Store store = work.open()) {
        LearnedWork.release(store, work.who(), keys);
        keys.forEach(k -> spec.commandLine().getOut().println("released   " + k));
        return ExitCode.DONE;
      }
    }
  }

  /** {@code learn in-force}. */
  @Command(
      name = "in-force",
      description = "List the learned factors in force, who accepted them and on what they rest.")
  static final class InForce implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Override
    public Integer call() {
      try (Store store = work.open()) {
        PrintWriter out = spec.commandLine().getOut();
        List<LearnedFactor> all = County.read(store).learned().all();
        all.forEach(f -> out.printf("%-32s %s%n", f.key(), f.source()));
        if (all.isEmpty()) {
          out.println("no learned factor is in force");
        }
        return ExitCode.DONE;
      }
    }
  }
}
