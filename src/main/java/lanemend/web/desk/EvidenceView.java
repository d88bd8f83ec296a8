package lanemend.web.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.county.CountyRenewal;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.RenewalStudy;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.repairs.RepairForecast;
import lanemend.renewal.sections.Section;
import lanemend.renewal.sections.Sectioning;
import lanemend.web.page.Wording;
import lanemend.web.renewal.EvidenceContext;
import lanemend.web.renewal.EvidenceDrawings;
import lanemend.web.renewal.FlaggedSection;

/**
 * What speaks for and against renewing a section, for a screen.
 *
 * @param inShort as in the list
 * @param version stands for the decision on file; a new one names it in {@code If-Match}
 * @param decision on file in one sentence, or empty
 * @param unsettled what is assumed or lacking, a sentence each
 */
record EvidenceView(
    SectionView inShort,
    String version,
    String decision,
    String why,
    String hindcast,
    List<Group> groups,
    List<Horizon> forecast,
    List<Limit> limits,
    List<String> measured,
    List<String> unsettled,
    List<String> cautions,
    List<EvidenceDrawings.Drawn> drawings) {

  /** Figures that belong together, with what they say. */
  record Group(String title, List<String> words, List<Trace> figures) {}

  /** The first years together, patching on; each with its interval. */
  record Horizon(int years, String through, Trace repairs, Trace mix, Trace cost) {}

  /** A unit of the road by one of the two ways to cut it. */
  record Limit(String way, String milepost, String milepostTo, String length, Trace rate) {}

  static EvidenceView of(ProposedSection s, CountyRenewal study) {
    EvidenceContext context = context(study);
    EvidenceDrawings drawn = EvidenceDrawings.of(shown(s), context);
    List<String> unsettled = new ArrayList<>(s.overlay().lacking());
    unsettled.addAll(s.overlay().assumptions());
    return new EvidenceView(
        SectionView.of(s, study),
        SectionView.version(s.decision()),
        s.decision().map(d -> EvidenceDrawings.sentence(d, context)).orElse(""),
        drawn.why(),
        drawn.hindcast(),
        groups(s, study, drawn),
        forecast(s, study),
        limits(s, study),
        s.overlay().measured(),
        unsettled,
        drawn.cautions(),
        drawn.drawings());
  }

  static EvidenceContext context(CountyRenewal study) {
    return new EvidenceContext(
        study.county().agency(), study.county().network(), study.county().onRoads(), study.study());
  }

  static FlaggedSection shown(ProposedSection s) {
    return new FlaggedSection(s.id(), s.cluster(), s.fromAlongM(), s.toAlongM(), s.overlay());
  }

  private static List<Group> groups(
      ProposedSection s, CountyRenewal study, EvidenceDrawings drawn) {
    List<Group> groups = new ArrayList<>();
    groups.add(
        new Group("Why it is here", List.of(), traces(List.of(s.cluster().figure()), study)));
    List<Figure> design = new ArrayList<>();
    s.overlay().loads().ifPresent(design::add);
    Optional<OverlayDesign> d = s.overlay().design();
    d.ifPresent(x -> design.add(x.needed()));
    d.flatMap(OverlayDesign::chosen)
        .ifPresent(
            o -> {
              design.add(o.effective());
              design.add(o.thickness());
            });
    groups.add(new Group("Overlay thickness", milling(s, study), traces(design, study)));
    List<Trace> costs = new ArrayList<>();
    Optional<OverlayCase.Costing> costing = s.overlay().costing();
    costing.ifPresent(
        c -> {
          costs.add(SectionView.money(c.overlayCost(), study));
          costs.addAll(traces(c.lifeCycle().figures(), study));
          Trace crossover = SectionView.crossover(c, study);
          costs.add(
              new Trace(
                  "patching has overtaken an overlay",
                  crossover.shown(),
                  crossover.formula(),
                  crossover.inputs(),
                  crossover.source()));
        });
    groups.add(
        new Group(
            "Patching on or overlay",
            costing.isPresent() ? drawn.cost() : s.overlay().lacking(),
            costs));
    groups.add(condition(s, study));
    return groups;
  }

  private static List<String> milling(ProposedSection s, CountyRenewal study) {
    Wording words = Wording.of(study.county().agency());
    return s.overlay()
        .design()
        .flatMap(OverlayDesign::chosen)
        .map(
            o ->
                List.of(
                    o.millM() > 0
                        ? "Mill " + words.text(o.millM(), Unit.THICKNESS_METER) + " first."
                        : "No milling: the surface may rise by the whole overlay."))
        .orElse(List.of("No thickness is worked out."));
  }

  private static Group condition(ProposedSection s, CountyRenewal study) {
    return s.overlay()
        .condition()
        .map(
            c ->
                new Group(
                    "Condition index",
                    c.missing().isEmpty()
                        ? List.of(c.samples().size() + " sample units of the last survey.")
                        : List.of("Missing: " + String.join("; ", c.missing()) + "."),
                    traces(c.index().stream().toList(), study)))
        .orElse(
            new Group(
                "Condition index",
                List.of("No condition survey of this section's surface was entered."),
                List.of()));
  }

  private static List<Trace> traces(List<Figure> figures, CountyRenewal study) {
    return figures.stream().map(f -> SectionView.money(f, study)).toList();
  }

  private static List<Horizon> forecast(ProposedSection s, CountyRenewal study) {
    Wording words = Wording.of(study.county().agency());
    List<Horizon> rows = new ArrayList<>();
    for (RepairForecast.Horizon h : s.forecast().horizons()) {
      List<Figure> figures = s.forecast().figures(h.years());
      rows.add(
          new Horizon(
              h.years(),
              study
                  .study()
                  .settings()
                  .exposure()
                  .recordsTo()
                  .plusYears(h.years())
                  .minusDays(1)
                  .toString(),
              range(figures.get(0), h.repairs(), words, study),
              range(figures.get(1), h.tonnes(), words, study),
              range(figures.get(2), h.cost(), words, study)));
    }
    return rows;
  }

  private static Trace range(Figure f, RepairForecast.Range r, Wording words, CountyRenewal study) {
    double scale = f.unit() == Unit.TONNE ? words.units().show(1, Unit.TONNE).value() : 1;
    return Trace.of(f, study.county().units())
        .reading(
            SectionView.say(
                "%,.0f (%,.0f to %,.0f)", scale * r.mean(), scale * r.low(), scale * r.high()));
  }

  private static List<Limit> limits(ProposedSection s, CountyRenewal study) {
    List<Limit> rows = new ArrayList<>();
    RenewalStudy made = study.study();
    for (Sectioning cut : made.sectionings()) {
      if (cut.routeId().equals(s.cluster().routeId())) {
        add(rows, "Cumulative difference (AASHTO 1993, J)", cut.byDifference(), s, study);
        add(rows, "Optimal partition (PELT)", cut.byPartition(), s, study);
      }
    }
    return rows;
  }

  private static void add(
      List<Limit> rows, String way, List<Section> cut, ProposedSection s, CountyRenewal study) {
    Wording words = Wording.of(study.county().agency());
    for (Section x : cut) {
      if (x.fromAlongM() < s.toAlongM() && x.toAlongM() > s.fromAlongM()) {
        rows.add(
            new Limit(
                way,
                PlanView.milepost(study.county(), x.routeId(), x.fromAlongM()),
                PlanView.milepost(study.county(), x.routeId(), x.toAlongM()),
                words.text(x.lengthM(), Unit.ROAD_METER),
                Trace.of(x.rate(), study.county().units())));
      }
    }
  }
}
