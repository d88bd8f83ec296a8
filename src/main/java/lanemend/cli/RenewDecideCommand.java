package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.SectionDecisions;
import lanemend.network.Route;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;
import lanemend.store.Store;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code renew decide}: keeps what an engineer decided on a section. */
@Command(
    name = "decide",
    description = {
      "Keep an engineer's decision on a section, with name and reason.",
      "",
      "A stretch that is not flagged can be put on the list with --add: it gets its page, forecast"
          + " and overlay like the flagged ones.",
      "A decision replaces one on the same stretch. While an overlay is agreed for this season or"
          + " the next, 'plan' leaves the section's defects off the crew days: hold them together"
          + " only.",
      "  renew decide --route \"SR 7\" --from 12.3 --to 13.1 --accept --year 2027"
          + " --who \"A. Engineer, P.E.\" --reason \"cores confirm it\""
    })
final class RenewDecideCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(names = "--route", paramLabel = "NAME", required = true, description = "route")
  private String route;

  @Option(
      names = "--from",
      paramLabel = "MILES",
      required = true,
      description = "milepost where the section begins, such as 12.4 or '12.4 back'")
  private String from;

  @Option(
      names = "--to",
      paramLabel = "MILES",
      required = true,
      description = "milepost where it ends")
  private String to;

  @ArgGroup(multiplicity = "1")
  private What what;

  @Option(
      names = "--year",
      paramLabel = "YEAR",
      description = "overlay in this year (--accept, --limits) or not before it (--defer)")
  private Integer year;

  @Option(
      names = "--reason",
      paramLabel = "TEXT",
      required = true,
      description = "why, in the engineer's words")
  private String reason;

  @Option(names = "--page", description = "make the section's evidence page too")
  private boolean page;

  /** One of these. */
  private static final class What {
    @Option(
        names = "--add",
        description = "put it on the list, flagged or not, and make its page; decide later")
    private boolean add;

    @Option(names = "--accept", description = "overlay it between these limits")
    private boolean accept;

    @Option(
        names = "--limits",
        paramLabel = "MILES,MILES",
        split = ",",
        description = "overlay it between these other mileposts")
    private List<String> limits = new ArrayList<>();

    @Option(names = "--defer", description = "look again; no overlay before --year")
    private boolean defer;

    @Option(names = "--reject", description = "keep patching")
    private boolean reject;

    @Option(names = "--withdraw", description = "take back the decision on file")
    private boolean withdraw;
  }

  @Override
  public Integer call() {
    checkWords();
    try (Store store = work.open()) {
      County county = County.read(store);
      Route on =
          county
              .network()
              .route(route)
              .orElseThrow(() -> new Refusal("there is no route '" + route + "'"));
      SectionDecisions.Stretch named = SectionDecisions.Stretch.of(on, from, to);
      if (what.withdraw) {
        withdraw(store, on, named);
      } else {
        DecidedSection decided = decision(on, named);
        keep(store, decided);
        if (page || what.add) {
          Path made =
              RenewalPages.writeOne(
                  work, RenewCommand.study(County.read(store)), decided.decision().sectionId());
          spec.commandLine().getOut().println("page       " + made);
        }
      }
    }
    return ExitCode.DONE;
  }

  private void checkWords() {
    // The name of a login is not a name that stands under an engineering decision.
    if (!spec.commandLine().getParseResult().hasMatchedOption("--who")) {
      throw usage("Missing required option: '--who=<NAME>', the engineer who decides");
    }
    if (work.who().isBlank() || reason.isBlank()) {
      throw usage("--who and --reason must say something");
    }
    if (!what.limits.isEmpty() && what.limits.size() != 2) {
      throw usage("--limits takes two mileposts, such as 12.1,13.4");
    }
    if (what.defer && year == null) {
      throw usage("--defer needs --year: no overlay before it");
    }
    if (what.withdraw && page) {
      throw usage("--page goes with a decision, not with --withdraw");
    }
    if ((what.add || what.reject || what.withdraw) && year != null) {
      throw usage("--year goes with --accept, --limits and --defer only");
    }
    if (year != null && (year < 2000 || year > 2199)) {
      throw usage("--year " + year + " is not a year from 2000 to 2199");
    }
  }

  private ParameterException usage(String sentence) {
    return new ParameterException(spec.commandLine(), sentence);
  }

  private DecidedSection decision(Route on, SectionDecisions.Stretch named) {
    boolean otherLimits = !what.limits.isEmpty();
    SectionDecisions.Stretch decided =
        otherLimits
            ? SectionDecisions.Stretch.of(on, what.limits.get(0), what.limits.get(1))
            : named;
    EngineerDecision.Kind kind =
        what.add
            ? EngineerDecision.Kind.ADDED
            : what.accept
                ? EngineerDecision.Kind.ACCEPTED
                : otherLimits
                    ? EngineerDecision.Kind.LIMITS_CHANGED
                    : what.defer ? EngineerDecision.Kind.DEFERRED : EngineerDecision.Kind.REJECTED;
    return new SectionDecisions.Verdict(
            kind, named, decided, year == null ? 0 : year, reason, work.who())
        .on(on, LocalDate.now(ZoneId.systemDefault()));
  }

  private void keep(Store store, DecidedSection decided) {
    EngineerDecision d = decided.decision();
    int opened =
        SectionDecisions.keep(store, work.who(), "renew decide: " + reason.strip(), decided);
    PrintWriter out = spec.commandLine().getOut();
    out.printf(
        "decided    %s: %s%s, by %s%n",
        d.sectionId(),
        d.kind().name().toLowerCase(Locale.ROOT).replace('_', ' '),
        decided.overlayYear() != 0
            ? ", overlay in " + decided.overlayYear()
            : d.notBefore() != 0 ? ", not before " + d.notBefore() : "",
        d.by());
    sayOpened(opened);
    if (decided.overlayYear() != 0) {
      out.println("           'plan' again: defects under an overlay this season or next wait");
    }
  }

  private void withdraw(Store store, Route on, SectionDecisions.Stretch named) {
    SectionDecisions.Withdrawn withdrawn =
        SectionDecisions.withdraw(
            store, work.who(), "renew decide, withdrawn: " + reason.strip(), on, named);
    withdrawn.sections().forEach(g -> spec.commandLine().getOut().println("withdrawn  " + g));
    sayOpened(withdrawn.opened());
  }

  private void sayOpened(int opened) {
    if (opened > 0) {
      spec.commandLine()
          .getOut()
          .println("           " + opened + " defects are open again: 'plan' again");
    }
  }
}
