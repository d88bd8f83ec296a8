package lanemend.cli;

import lanemend.county.County;
import lanemend.renewal.OverlayCases;
import lanemend.renewal.RenewalProposal;
import lanemend.renewal.RenewalRules;
import lanemend.renewal.RenewalSettings;
import lanemend.renewal.RenewalStudy;

/** The renewal study of the county at hand, with what was proposed from it. */
record Renewal(County county, RenewalRules rules, RenewalProposal proposal) {

  static Renewal of(County county) {
    RenewalRules rules = county.renewalRules();
    try (Progress bar = new Progress("renewal", -1)) {
      RenewalSettings settings = rules.settings(county.patches());
      RenewalStudy study =
          RenewalStudy.of(
              county.network().routes().values(), county.onRoads(), county.patches(), settings);
      bar.at(1);
      OverlayCases cases =
          new OverlayCases(
              study,
              county.network(),
              county.onRoads(),
              county.defects(),
              county.pavement(),
              rules.overlay());
      return new Renewal(
          county,
          rules,
          RenewalProposal.of(
              study,
              county.network(),
              cases,
              rules,
              county.decisions(),
              county.agency().plan().firstDay().getYear()));
    } catch (IllegalArgumentException e) {
      throw new Refusal(
          "no renewal study can be made of these records and settings: " + e.getMessage());
    }
  }

  RenewalStudy study() {
    return proposal.study();
  }
}
