package lanemend.county;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.exchange.CurvesReader;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.RoadAttributes;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.patching.LearnedFactors;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.overlay.ConditionIndex;
import lanemend.renewal.overlay.PavementRecords;
import lanemend.store.DayView;
import lanemend.store.Snapshot;

/**
 * Roads, what is known of them and what was settled about the agency: what a day's work on defects
 * and plan leaves as it is.
 *
 * @param past whether only what had been found and done by that day is in it
 * @param plannedWork what was planned of past patches, by their ids
 */
record CountyRecords(
    ProjectedCrs crs,
    LocalDate day,
    boolean past,
    Network network,
    List<RoadAttribute> attributes,
    RoadAttributes onRoads,
    Locator locator,
    List<PastPatch> patches,
    List<Finding> findings,
    List<DecidedSection> decisions,
    PavementRecords pavement,
    Optional<String> agencyText,
    Optional<String> rulesText,
    Optional<String> forecastText,
    Map<String, PlannedWork> plannedWork,
    LearnedFactors learned) {

  static CountyRecords read(Snapshot store, DayView view, String crsWkt, boolean past) {
    LocalDate day = view.day();
    List<RoadAttribute> facts = view.facts();
    RoadAttributes onRoads = new RoadAttributes(facts, day);
    return new CountyRecords(
        ProjectedCrs.fromWkt(crsWkt),
        day,
        past,
        view.network(),
        facts,
        onRoads,
        new Locator(view.network(), onRoads),
        view.patches().stream().filter(p -> !past || !p.doneOn().isAfter(day)).toList(),
        view.findings().stream().filter(f -> !past || !f.foundOn().isAfter(day)).toList(),
        view.decisions(),
        pavement(store, view),
        store.setting(County.AGENCY_SETTING),
        store.setting(County.RULES_SETTING),
        store.setting(County.FORECAST_SETTING),
        store.plannedWork().all().stream()
            .collect(Collectors.toUnmodifiableMap(PlannedWork::patchId, w -> w)),
        new LearnedFactors(
            store.learnedFactors().all().stream()
                .filter(f -> !past || !f.on().isAfter(day))
                .toList()));
  }

  CountyRecords withLearned(LearnedFactors factors) {
    return new CountyRecords(
        crs,
        day,
        past,
        network,
        attributes,
        onRoads,
        locator,
        patches,
        findings,
        decisions,
        pavement,
        agencyText,
        rulesText,
        forecastText,
        plannedWork,
        factors);
  }

  private static PavementRecords pavement(Snapshot store, DayView view) {
    return new PavementRecords(
        view.surveys(),
        view.layers(),
        store
            .setting(County.CURVES_SETTING)
            .map(text -> CurvesReader.parse("curves", text))
            .orElse(ConditionIndex.Curves.NONE));
  }

  /** Rows of the store hold as they are where events lie on the last edition of their road. */
  boolean onLastEditions() {
    return network.routes().values().stream().allMatch(r -> r.edition().validTo() == null);
  }
}
