package lanemend.county;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
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
import lanemend.store.Stored;

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

  /** Tables of work that was done. */
  static final Set<String> WORK_DONE = Set.of("patch", "planned_work");

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
    return with(patches, plannedWork, factors);
  }

  private CountyRecords with(
      List<PastPatch> patches, Map<String, PlannedWork> plannedWork, LearnedFactors learned) {
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
        learned);
  }

  /**
   * These with the work that was recorded since, of roads on their last editions; empty when
   * something recorded before was changed or taken back, which only reading anew gets right.
   *
   * @param touched keys of rows written since, by table
   */
  Optional<CountyRecords> withWorkDone(Snapshot store, Map<String, Set<String>> touched) {
    Set<String> keys = touched.getOrDefault("patch", Set.of());
    Set<String> planned = touched.getOrDefault("planned_work", Set.of());
    if (keys.isEmpty() && planned.isEmpty()) {
      return Optional.of(this);
    }
    if (!keys.containsAll(planned) || patches.stream().anyMatch(p -> keys.contains(p.id()))) {
      return Optional.empty();
    }
    List<Stored<PastPatch>> rows = new ArrayList<>();
    Map<String, PlannedWork> then = new HashMap<>(plannedWork);
    for (String key : keys) {
      Optional<Stored<PastPatch>> row = store.patches().find(key);
      if (row.isEmpty() || network.route(row.get().value().place().routeId()).isEmpty()) {
        return Optional.empty();
      }
      rows.add(row.get());
      store.plannedWork().find(key).ifPresent(w -> then.put(key, w.value()));
    }
    rows.sort(Comparator.comparingLong(Stored::row));
    List<PastPatch> all = new ArrayList<>(patches);
    rows.forEach(r -> all.add(r.value()));
    return Optional.of(with(all, then, learned));
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
