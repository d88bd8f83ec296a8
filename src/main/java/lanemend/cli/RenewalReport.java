package lanemend.cli;

import java.io.PrintWriter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import lanemend.county.CountyRenewal;
import lanemend.measure.Conversion;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.Route;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.RenewalProposal;
import lanemend.renewal.RenewalRules;
import lanemend.renewal.exposure.Exposure;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.program.Program;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.repairs.RepairForecast;

/** Prints a renewal study: what the records leave open first, then what comes of them. */
final class RenewalReport {
  private static final int YEARS = 5;
  private static final int SHOWN = 10;

  private final CountyRenewal renewal;
  private final RenewalProposal proposal;
  private final UnitSystem units;
  private final PrintWriter out;

  RenewalReport(CountyRenewal renewal, PrintWriter out) {
    this.renewal = renewal;
    this.proposal = renewal.proposal();
    this.units = renewal.county().units();
    this.out = out;
  }

  void print() {
    records();
    say(
        "renewal    %d section%s flagged, %d by hand; %d years forecast with 90 %% intervals",
        proposal.sections().size(),
        proposal.sections().size() == 1 ? "" : "s",
        proposal.byHand().size(),
        YEARS);
    if (!proposal.all().isEmpty()) {
      table();
    }
    proposal.study().hindcasts().forEach(this::hindcast);
    program();
    decisions();
    assumptions();
    out.println("           for review by a licensed engineer");
  }

  private void records() {
    Exposure e = proposal.study().exposure();
    say(
        "records    %,d repairs count in cells from %s to %s; %,d rows do not",
        e.histories().allRepairs(),
        e.settings().recordsFrom(),
        e.settings().recordsTo().minusDays(1),
        e.unused().size());
    grouped(e.unused().stream().map(Exposure.Unused::why).toList(), "not counted");
    grouped(e.remarks().stream().map(Exposure.Remark::text).toList(), "assumed");
    grouped(
        e.inferred().stream()
            .map(i -> "surfacing year of " + i.routeId() + ": " + i.rule())
            .toList(),
        "inferred");
    list(
        e.toAsk().stream()
            // A sliver at a route's end that nobody repaired is in records.csv only.
            .filter(a -> a.repairs() > 0 || a.toAlongM() - a.fromAlongM() >= 1)
            .sorted(Comparator.comparingInt(Exposure.ToAsk::repairs).reversed())
            .map(a -> "to ask: " + a.question())
            .toList());
  }

  /** Rows that say the same are told once with their number; each stands in records.csv. */
  private void grouped(List<String> texts, String lead) {
    Map<String, Long> counts =
        texts.stream()
            .collect(
                Collectors.groupingBy(
                    RenewalReport::withoutPlace, TreeMap::new, Collectors.counting()));
    list(
        counts.entrySet().stream()
            .map(c -> lead + ", " + c.getValue() + ": " + c.getKey())
            .toList());
  }

  private static String withoutPlace(String text) {
    int place = text.endsWith(")") ? text.lastIndexOf(" (") : -1;
    return place < 0 ? text : text.substring(0, place);
  }

  private void list(List<String> lines) {
    lines.stream().limit(SHOWN).forEach(l -> out.println("  " + l));
    if (lines.size() > SHOWN) {
      out.println("  and " + (lines.size() - SHOWN) + " more, in records.csv");
    }
  }

  private void table() {
    int width =
        Math.max(7, proposal.all().stream().mapToInt(s -> place(s).length()).max().orElse(0));
    String row = "  %-" + width + "s %7s %6s %7s  %-14s %-9s %-18s %s%n";
    out.printf(
        row,
        "section",
        "repairs",
        "usual",
        "p",
        "next " + YEARS + " years",
        "overlay",
        "crossover",
        "program");
    for (ProposedSection s : proposal.all()) {
      RepairForecast.Range next = s.forecast().horizons().get(YEARS - 1).repairs();
      out.printf(
          Locale.ROOT,
          row,
          place(s),
          s.cluster().repairs(),
          number("%.1f", s.cluster().expected()),
          s.cluster().tested() ? number("%.4f", s.cluster().pValue()) : "by hand",
          number("%.0f (%.0f-%.0f)", next.mean(), next.low(), next.high()),
          s.overlay()
              .design()
              .flatMap(OverlayDesign::chosen)
              .map(o -> units.show(o.thickness().value(), Unit.THICKNESS_METER).text())
              .orElse("no fit"),
          s.overlay().costing().map(this::crossover).orElse("not known"),
          program(s));
    }
  }

  private String crossover(OverlayCase.Costing costing) {
    LifeCycle life = costing.lifeCycle();
    int years = life.crossoverChance().length;
    int year = Math.min(life.crossoverYear(), years);
    double chance = 100 * life.crossoverChance()[year - 1];
    return life.crossoverYear() == LifeCycle.NEVER
        ? number("not in %d y (%.0f %%)", years, chance)
        : number("%d y (%.0f %%)", year, chance);
  }

  private String program(ProposedSection s) {
    String decided =
        s.decision()
            .map(d -> d.overlayYear() == 0 ? word(d.decision().kind()) : "agreed")
            .map(w -> " (" + w + ")")
            .orElse("");
    return proposal.programmed(s.id()).map(p -> String.valueOf(p.year())).orElse("patch on")
        + decided;
  }

  private void hindcast(Hindcast h) {
    double best = h.scores().stream().skip(1).mapToDouble(Hindcast.Score::deviance).min().orElse(0);
    say(
        "hindcast   %d year%s left out: 90 %% intervals held %.0f %%; deviance %,.0f, best simple"
            + " way %,.0f; %d of %d flags went on failing",
        h.years(),
        h.years() == 1 ? "" : "s",
        100 * h.coverage(),
        h.scores().get(0).deviance(),
        best,
        h.flags().stream().filter(Hindcast.FlagCheck::wentOn).count(),
        h.flags().size());
  }

  private void program() {
    Program p = proposal.program();
    if (!proposal.budgeted()) {
      out.println(
          "program    no yearly budgets are set ('renewal' in the agency file): years are those"
              + " that cost least");
    } else {
      for (int y = 0; y < p.budgets().length; y++) {
        say(
            "program    %d: %,.0f of %,.0f spent; one more saves %.2f",
            proposal.firstYear() + y, p.spent()[y], p.budgets()[y], p.worthOfOneMore()[y]);
      }
      say(
          "           saves %,.0f, within %.2f %% of the most possible",
          p.benefit(), 100 * p.gap());
    }
    proposal.remarks().forEach(r -> out.println("  note: " + r));
  }

  private void decisions() {
    proposal.sections().forEach(s -> s.decision().ifPresent(d -> decision(d, "")));
    proposal
        .byHand()
        .forEach(s -> s.decision().ifPresent(d -> decision(d, ", not flagged by this study")));
  }

  private void decision(DecidedSection d, String more) {
    EngineerDecision e = d.decision();
    String year =
        d.overlayYear() != 0
            ? ", overlay in " + d.overlayYear()
            : e.notBefore() != 0 ? ", not before " + e.notBefore() : "";
    say(
        "decided    %s: %s%s by %s on %s%s: %s",
        stretch(d.routeId(), e.fromAlongM(), e.toAlongM()),
        word(e.kind()),
        year,
        e.by(),
        e.on(),
        more,
        e.reason());
  }

  private void assumptions() {
    RenewalRules rules = renewal.rules();
    RepairCost cost = proposal.study().settings().repairCost();
    String from =
        rules.repairCost().isPresent()
            ? "set by the agency"
            : cost.equals(RenewalRules.USUAL_REPAIR_COST) ? "common practice" : "from the records";
    say(
        "assumed    patching costs %,.0f a repair and %,.0f a %s (%s)",
        cost.perRepair(),
        units == UnitSystem.US_CUSTOMARY
            ? cost.perTonne() * Conversion.T_PER_SHORT_TON
            : cost.perTonne(),
        units == UnitSystem.US_CUSTOMARY ? "ton" : "tonne",
        from);
    grouped(
        proposal.all().stream().flatMap(s -> s.overlay().measured().stream()).toList(), "measured");
    grouped(
        proposal.all().stream().flatMap(s -> s.overlay().assumptions().stream()).toList(),
        "sections");
    grouped(
        proposal.all().stream().flatMap(s -> s.overlay().lacking().stream()).toList(), "lacking");
  }

  private String place(ProposedSection s) {
    return stretch(s.cluster().routeId(), s.fromAlongM(), s.toAlongM());
  }

  private String stretch(String routeId, double from, double to) {
    return renewal
        .county()
        .network()
        .route(routeId)
        .map((Route r) -> RenewalProposal.idOf(r, from, to))
        .orElse(routeId);
  }

  private static String word(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private static String number(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private void say(String format, Object... values) {
    out.println(String.format(Locale.ROOT, format, values));
  }
}
