package lanemend.renewal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.renewal.program.Program;
import lanemend.renewal.sections.Cluster;

/**
 * A study made into something to decide on: flagged sections with limits, forecast, overlay and the
 * decision on file, and the program they make under the budgets.
 *
 * @param sections by route, then place
 * @param byHand stretches this study does not flag and an engineer put on the list or decided on,
 *     by route, then place
 * @param firstYear calendar year of the program's first budget
 * @param budgeted false where the agency set no budgets: the program is then what it would do with
 *     money enough each year
 * @param remarks what an engineer must know about the program
 */
public record RenewalProposal(
    RenewalStudy study,
    List<ProposedSection> sections,
    List<ProposedSection> byHand,
    Program program,
    int firstYear,
    boolean budgeted,
    List<String> remarks) {

  /** Years that sections are forecast for. */
  public static final int FORECAST_YEARS = 10;

  public RenewalProposal {
    sections = List.copyOf(sections);
    byHand = List.copyOf(byHand);
    remarks = List.copyOf(remarks);
  }

  /**
   * Puts flagged sections and decisions together.
   *
   * @param season year now planned for; the program starts in it, or in the year the records end
   *     where that is later
   */
  public static RenewalProposal of(
      RenewalStudy study,
      Network network,
      OverlayCases cases,
      RenewalRules rules,
      List<DecidedSection> decisions,
      int season) {
    List<Cluster> flagged = new ArrayList<>(study.flagged());
    flagged.sort(Comparator.comparing(Cluster::routeId).thenComparingDouble(Cluster::fromAlongM));
    List<ProposedSection> sections = new ArrayList<>();
    List<DecidedSection> elsewhere = new ArrayList<>(decisions);
    for (Cluster c : flagged) {
      Optional<DecidedSection> decision =
          elsewhere.stream()
              .filter(d -> d.overlaps(c.routeId(), c.fromAlongM(), c.toAlongM()))
              .findFirst();
      // A decision belongs to one flag only, or two would share a name in the program.
      decision.ifPresent(elsewhere::remove);
      sections.add(section(study, network, cases, rules.minProjectM(), c, decision));
    }
    int firstYear = Math.max(season, study.settings().exposure().yearAhead());
    List<ProposedSection> byHand = new ArrayList<>();
    elsewhere.sort(
        Comparator.comparing(DecidedSection::routeId)
            .thenComparingDouble(d -> d.decision().fromAlongM()));
    for (DecidedSection d : elsewhere) {
      byHand.add(byHand(study, cases, d));
    }
    return fitted(study, sections, byHand, rules.yearlyBudgets(), firstYear);
  }

  /**
   * The same sections in a program under other budgets.
   *
   * @param yearlyBudgets of the program's years from its first; empty for money enough each year
   */
  public RenewalProposal under(List<Double> yearlyBudgets) {
    return fitted(study, sections, byHand, yearlyBudgets, firstYear);
  }

  private static RenewalProposal fitted(
      RenewalStudy study,
      List<ProposedSection> sections,
      List<ProposedSection> byHand,
      List<Double> yearlyBudgets,
      int firstYear) {
    List<ProgramFitting.Option> options = new ArrayList<>();
    sections.forEach(s -> options.add(ProgramFitting.Option.of(s)));
    byHand.stream()
        .filter(RenewalProposal::takesMoney)
        .forEach(s -> options.add(ProgramFitting.Option.of(s)));
    ProgramFitting fitting = ProgramFitting.of(options, yearlyBudgets, firstYear);
    return new RenewalProposal(
        study,
        sections,
        byHand,
        fitting.program(),
        firstYear,
        !yearlyBudgets.isEmpty(),
        fitting.remarks());
  }

  /** What is no longer flagged and was put off or turned down takes no money by itself. */
  private static boolean takesMoney(ProposedSection byHand) {
    return byHand
        .decision()
        .filter(
            d ->
                d.overlayYear() != 0
                    || d.decision().kind() == EngineerDecision.Kind.ADDED
                    || d.decision().kind() == EngineerDecision.Kind.ACCEPTED
                    || d.decision().kind() == EngineerDecision.Kind.LIMITS_CHANGED)
        .isPresent();
  }

  private static ProposedSection byHand(RenewalStudy study, OverlayCases cases, DecidedSection d) {
    double from = d.decision().fromAlongM();
    double to = d.decision().toAlongM();
    return new ProposedSection(
        d.decision().sectionId(),
        study.byHand(d.routeId(), from, to),
        from,
        to,
        study.forecast(d.routeId(), from, to, FORECAST_YEARS),
        cases.of(d.routeId(), from, to),
        Optional.of(d));
  }

  /** Flagged sections, then those by hand. */
  public List<ProposedSection> all() {
    List<ProposedSection> all = new ArrayList<>(sections);
    all.addAll(byHand);
    return all;
  }

  private static ProposedSection section(
      RenewalStudy study,
      Network network,
      OverlayCases cases,
      double minProjectM,
      Cluster c,
      Optional<DecidedSection> decision) {
    Optional<Route> route = network.route(c.routeId());
    double end = route.map(Route::lengthM).orElse(c.toAlongM());
    double missing = Math.max(0, minProjectM - (c.toAlongM() - c.fromAlongM()));
    double from = Math.max(0, Math.min(c.fromAlongM() - missing / 2, end - minProjectM));
    double to = Math.min(end, Math.max(c.toAlongM() + missing / 2, from + minProjectM));
    from = missing == 0 ? c.fromAlongM() : from;
    to = missing == 0 ? c.toAlongM() : to;
    if (decision.isPresent()) {
      from = decision.get().decision().fromAlongM();
      to = decision.get().decision().toAlongM();
    }
    double first = from;
    double last = to;
    String id =
        decision
            .map(d -> d.decision().sectionId())
            .or(() -> route.map(r -> idOf(r, first, last)))
            .orElse(c.routeId());
    return new ProposedSection(
        id,
        c,
        from,
        to,
        study.forecast(c.routeId(), from, to, FORECAST_YEARS),
        cases.of(c.routeId(), from, to),
        decision);
  }

  /** A section's name: its route and mileposts, for instance {@code SR 7 12.300-13.100}. */
  public static String idOf(Route route, double fromAlongM, double toAlongM) {
    return route.id()
        + " "
        + route.mileposts().at(fromAlongM).text()
        + "-"
        + route.mileposts().at(toAlongM).text();
  }

  /** The calendar year and treatment the program has for a section; empty when it has none. */
  public Optional<Programmed> programmed(String sectionId) {
    for (int i = 0; i < program.candidates().size(); i++) {
      if (program.candidates().get(i).sectionId().equals(sectionId)) {
        return program
            .chosen()
            .get(i)
            .map(c -> new Programmed(firstYear + c.year(), c.treatment(), c.cost()));
      }
    }
    return Optional.empty();
  }

  /** When and how a section is overlaid in the program. */
  public record Programmed(int year, String treatment, double cost) {}
}
