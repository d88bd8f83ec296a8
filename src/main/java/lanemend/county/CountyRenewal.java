package lanemend.county;

import lanemend.exchange.KeptStudy;
import lanemend.exchange.RenewalRulesReader;
import lanemend.inventory.Defect;
import lanemend.renewal.OverlayCases;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.RenewalProposal;
import lanemend.renewal.RenewalRules;
import lanemend.renewal.RenewalSettings;
import lanemend.renewal.RenewalStudy;
import lanemend.renewal.StudyProgress;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.sections.FlaggedModel;

/**
 * The renewal study of a county with what is proposed from it. Studying takes seconds; what an
 * engineer decides afterwards changes the proposal only.
 *
 * @param county whose roads and records were studied
 * @param judged whose decisions, defects and budgets the proposal has: {@code county}, or the same
 *     roads and records later
 * @param rules of the study
 */
public record CountyRenewal(
    County county, County judged, RenewalRules rules, RenewalProposal proposal) {

  /**
   * Studies a county.
   *
   * @throws NotReady when no study can be made of its records and settings
   * @throws java.util.concurrent.CancellationException when {@code progress} ends it
   */
  public static CountyRenewal of(County county, StudyProgress progress) {
    if (county.patches().isEmpty()) {
      throw new NotReady("no repair is on record yet: 'import patches FILE' first");
    }
    RenewalRules rules = county.renewalRules();
    try {
      RenewalSettings settings = rules.settings(county.patches());
      RenewalStudy study =
          RenewalStudy.of(
              county.network().routes().values(),
              county.onRoads(),
              county.patches(),
              settings,
              progress);
      progress.goOn("designing overlays and fitting the program", 1);
      return new CountyRenewal(county, county, rules, proposed(county, county, rules, study));
    } catch (IllegalArgumentException e) {
      throw new NotReady(
          "no renewal study can be made of these records and settings: " + e.getMessage());
    }
  }

  /**
   * A study that was kept, with the decisions, defects and road facts of the county now.
   *
   * @throws NotReady when the county's agency is not known
   */
  static CountyRenewal again(County now, KeptStudy kept) {
    RenewalRules rules = RenewalRulesReader.parse("agency", kept.agency(), RenewalRules.standard());
    ExposureSettings days = kept.exposure().settings();
    RenewalStudy study =
        RenewalStudy.of(
            rules.settings(days.recordsFrom(), days.recordsTo(), kept.cost()),
            kept.exposure(),
            kept.flagged(),
            kept.hindcasts());
    return new CountyRenewal(now, now, rules, proposed(now, now, rules, study));
  }

  /** As {@link #again} takes it up. */
  KeptStudy kept(String stamp) {
    RenewalStudy study = study();
    return new KeptStudy(
        stamp,
        county.lastChange(),
        county.agencyText().orElse(""),
        study.settings().repairCost(),
        study.exposure(),
        new FlaggedModel(study.model(), study.clusters()),
        study.hindcasts());
  }

  /** The same study with what was decided, found and allowed since. */
  public CountyRenewal judgedBy(County now) {
    RenewalRules rulesNow = now.renewalRules();
    if (now.decisions().equals(judged.decisions()) && sameDefects(now)) {
      return new CountyRenewal(
          county,
          now,
          rulesNow,
          rulesNow.yearlyBudgets().equals(rules.yearlyBudgets())
              ? proposal
              : proposal.under(rulesNow.yearlyBudgets()));
    }
    return new CountyRenewal(county, now, rulesNow, proposed(county, now, rulesNow, study()));
  }

  @SuppressWarnings("ReferenceEquality") // the same list as long as no defect was written
  private boolean sameDefects(County now) {
    return now.defects() == judged.defects() || now.defects().equals(judged.defects());
  }

  private static RenewalProposal proposed(
      County county, County judged, RenewalRules rules, RenewalStudy study) {
    OverlayCases cases =
        new OverlayCases(
            study,
            county.network(),
            county.onRoads(),
            judged.defects(),
            county.pavement(),
            rules.overlay());
    return RenewalProposal.of(
        study,
        county.network(),
        cases,
        rules,
        judged.decisions(),
        judged.agency().plan().firstDay().getYear());
  }

  public RenewalStudy study() {
    return proposal.study();
  }

  /**
   * The section of this name.
   *
   * @throws NotReady when the study has none
   */
  public ProposedSection section(String sectionId) {
    return proposal.all().stream()
        .filter(s -> s.id().equals(sectionId))
        .findFirst()
        .orElseThrow(() -> new NotReady("the study has no section " + sectionId));
  }

  /** Defects that wait for repair on a section as it is now. */
  public long waitingOn(ProposedSection s) {
    return judged.defects().stream().filter(County::waits).filter(d -> on(s, d)).count();
  }

  private static boolean on(ProposedSection s, Defect d) {
    double middle = d.place().middleAlongM();
    return d.place().routeId().equals(s.cluster().routeId())
        && middle >= s.fromAlongM()
        && middle < s.toAlongM();
  }
}
