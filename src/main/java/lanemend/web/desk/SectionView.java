package lanemend.web.desk;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lanemend.county.CountyRenewal;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.RenewalProposal;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.SectionCondition;
import lanemend.renewal.repairs.RepairForecast;
import lanemend.web.page.Wording;

/**
 * A proposed section in one line of the list; each number with its trace, null where it is not
 * known.
 *
 * @param byHand true where the study does not flag it
 * @param flag repairs against expected
 * @param next repairs of the next five years with their interval
 * @param crossover the year by which patching overtakes an overlay, with its chance
 * @param program the year of the program, or empty where the section is patched on
 */
record SectionView(
    String id,
    String route,
    String milepost,
    String milepostTo,
    double fromAlongM,
    double toAlongM,
    String length,
    boolean byHand,
    Trace flag,
    String chance,
    Trace next,
    Trace overlay,
    Trace cost,
    Trace crossover,
    Trace condition,
    String program,
    String state,
    String stateWords,
    long waiting) {

  /** Years a list looks ahead. */
  static final int YEARS = 5;

  static SectionView of(ProposedSection s, CountyRenewal study) {
    Wording words = Wording.of(study.county().agency());
    UnitSystem units = study.county().units();
    String route = s.cluster().routeId();
    Optional<OverlayCase.Costing> costing = s.overlay().costing();
    return new SectionView(
        s.id(),
        route,
        PlanView.milepost(study.county(), route, s.fromAlongM()),
        PlanView.milepost(study.county(), route, s.toAlongM()),
        s.fromAlongM(),
        s.toAlongM(),
        words.text(s.toAlongM() - s.fromAlongM(), Unit.ROAD_METER),
        !s.cluster().flagged(),
        Trace.of(s.cluster().figure(), units)
            .reading(say("%d / %.1f", s.cluster().repairs(), s.cluster().expected())),
        s.cluster().tested() ? say("%.4f", s.cluster().pValue()) : "by hand",
        next(s, units),
        s.overlay()
            .design()
            .flatMap(OverlayDesign::chosen)
            .map(o -> Trace.of(o.thickness(), units))
            .orElse(null),
        costing.map(c -> money(c.overlayCost(), study)).orElse(null),
        costing.map(c -> crossover(c, study)).orElse(null),
        s.overlay()
            .condition()
            .flatMap(SectionCondition::index)
            .map(f -> Trace.of(f, units))
            .orElse(null),
        program(s, study.proposal()),
        DeskWords.code(SectionState.of(s.decision())),
        SectionState.words(s.decision()),
        study.waitingOn(s));
  }

  static String program(ProposedSection s, RenewalProposal proposal) {
    return proposal.programmed(s.id()).map(p -> String.valueOf(p.year())).orElse("");
  }

  private static Trace next(ProposedSection s, UnitSystem units) {
    RepairForecast.Range r = s.forecast().horizons().get(YEARS - 1).repairs();
    return Trace.of(s.forecast().figures(YEARS).get(0), units)
        .reading(say("%.0f (%.0f to %.0f)", r.mean(), r.low(), r.high()));
  }

  /** When patching has cost more than an overlay now, with the chance of it. */
  static Trace crossover(OverlayCase.Costing costing, CountyRenewal study) {
    LifeCycle life = costing.lifeCycle();
    int first = study.study().settings().exposure().yearAhead();
    int n = life.crossoverChance().length;
    boolean never = life.crossoverYear() == LifeCycle.NEVER;
    int year = never ? n : life.crossoverYear();
    double chance = 100 * life.crossoverChance()[year - 1];
    Figure f =
        new Figure(
            "patching has overtaken an overlay now by the end of " + (first + year - 1),
            chance,
            Unit.PERCENT,
            "share of drawn futures in which patching has cost more by then than an overlay now"
                + " with what is left of its life taken off",
            List.of(
                new Figure.Input("years", year, Unit.YEAR),
                new Figure.Input("by the end of the analysis", 100 * last(life), Unit.PERCENT)),
            "present cost over the analysis period; docs/renewal.md");
    return Trace.of(f, study.county().units())
        .reading(
            never
                ? say("not by %d (%.0f %%)", first + n - 1, chance)
                : say("%d (%.0f %%)", first + year - 1, chance));
  }

  private static double last(LifeCycle life) {
    return life.crossoverChance()[life.crossoverChance().length - 1];
  }

  /** A figure as pages show it; amounts of money are estimates, so without cents. */
  static Trace money(Figure f, CountyRenewal study) {
    Trace trace = Trace.of(f, study.county().units());
    return f.unit() == Unit.MONEY
        ? trace.reading(Wording.of(study.county().agency()).estimate(f.value()))
        : trace;
  }

  static String say(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }

  /** Stands for the decision on file, so that nobody overwrites one they have not seen. */
  static String version(Optional<DecidedSection> decision) {
    return decision.map(d -> Integer.toHexString(d.toString().hashCode())).orElse("0");
  }
}
