package lanemend.county;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.CrewDayPlanner;
import lanemend.crewdays.Haul;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanChecker;
import lanemend.crewdays.ZoneTraffic;
import lanemend.exchange.AgencyReader;
import lanemend.exchange.PatchOverrides;
import lanemend.exchange.RenewalRulesReader;
import lanemend.exchange.TreatmentRulesJson;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.RoadAttributes;
import lanemend.measure.UnitSystem;
import lanemend.network.HaulGraph;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;
import lanemend.patching.PatchDesign;
import lanemend.patching.PatchDesigner;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSettings;
import lanemend.patching.TrafficPlanner;
import lanemend.patching.TreatmentRules;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.RenewalRules;
import lanemend.renewal.program.HoldTogether;
import lanemend.store.HeldDefect;
import lanemend.store.Snapshot;
import lanemend.store.Store;
import lanemend.store.Stored;

/** The county as one moment of the store has it, with the core's parts set up for it. */
public final class County {
  /** Key of the setting that holds the agency file's text as it was given. */
  public static final String AGENCY_SETTING = "agency";

  /** Key of the setting that holds the agency's own treatment rules. */
  public static final String RULES_SETTING = "treatment_rules";

  /** More rows than this are read again together sooner than one by one. */
  private static final int FEW = 500;

  /** Tables that say where the roads run and what is known of them. */
  private static final Set<String> ROAD_TABLES =
      Set.of("roadway", "route", "calibration_post", "connector", "road_attribute");

  private final long lastChange;
  private final ProjectedCrs crs;
  private final Network network;
  private final List<RoadAttribute> attributes;
  private final RoadAttributes onRoads;
  private final List<Stored<Defect>> defectRows;
  private final List<Defect> defects;
  private final Assignment assignment;
  private final Optional<String> agencyText;
  private final Optional<String> rulesText;
  private final List<PastPatch> patches;
  private final List<DecidedSection> decisions;
  private final List<HeldDefect> held;
  private final Locator locator;
  private HaulGraph haulGraph;
  private Plan plan;

  private County(Snapshot store, String crsWkt) {
    lastChange = store.lastChange();
    crs = ProjectedCrs.fromWkt(crsWkt);
    network = store.network();
    attributes = store.attributes().all();
    onRoads = new RoadAttributes(attributes);
    defectRows = store.defects().stored();
    defects = defectRows.stream().map(Stored::value).toList();
    assignment = store.assignment();
    agencyText = store.setting(AGENCY_SETTING);
    rulesText = store.setting(RULES_SETTING);
    patches = store.patches().all();
    decisions = store.decisions().all();
    held = store.held().all();
    locator = new Locator(network, onRoads);
  }

  /** The same roads; of the rest, what was written since is read again. */
  private County(Snapshot store, County before, Map<String, Set<String>> touched) {
    lastChange = store.lastChange();
    crs = before.crs;
    network = before.network;
    attributes = before.attributes;
    onRoads = before.onRoads;
    locator = before.locator;
    haulGraph = before.haulGraph;
    defectRows = again(store, before.defectRows, touched.getOrDefault("defect", Set.of()));
    defects =
        touched.containsKey("defect")
            ? defectRows.stream().map(Stored::value).toList()
            : before.defects;
    patches = touched.containsKey("patch") ? store.patches().all() : before.patches;
    assignment = store.assignment();
    agencyText = store.setting(AGENCY_SETTING);
    rulesText = store.setting(RULES_SETTING);
    decisions = store.decisions().all();
    held = store.held().all();
  }

  /** Defects by the row they stand in, as {@link lanemend.store.Rows#stored} gives them. */
  private static List<Stored<Defect>> again(
      Snapshot store, List<Stored<Defect>> before, Set<String> keys) {
    if (keys.isEmpty()) {
      return before;
    }
    if (keys.size() > FEW) {
      return store.defects().stored();
    }
    List<Stored<Defect>> now = new ArrayList<>(before);
    now.removeIf(row -> keys.contains(row.value().id()));
    keys.forEach(key -> store.defects().find(key).ifPresent(now::add));
    now.sort(Comparator.comparingLong(Stored::row));
    return now;
  }

  public static County read(Store store) {
    return store.read(s -> new County(s, store.crsWkt()));
  }

  /**
   * The county as the store has it now: this one when nothing was written since; otherwise another
   * that shares the roads with this one as long as none of them was edited.
   */
  public County now(Store store) {
    return store.read(
        s -> {
          if (s.lastChange() == lastChange) {
            return this;
          }
          Map<String, Set<String>> touched = s.touchedSince(lastChange);
          boolean roadsEdited = touched.keySet().stream().anyMatch(ROAD_TABLES::contains);
          return roadsEdited ? new County(s, store.crsWkt()) : new County(s, this, touched);
        });
  }

  /** Grows with every change of the store, by whatever program. */
  public long lastChange() {
    return lastChange;
  }

  /** Every defect with its row and version. */
  public List<Stored<Defect>> defectRows() {
    return defectRows;
  }

  public ProjectedCrs crs() {
    return crs;
  }

  public Network network() {
    return network;
  }

  public List<RoadAttribute> attributes() {
    return attributes;
  }

  public List<Defect> defects() {
    return defects;
  }

  public RoadAttributes onRoads() {
    return onRoads;
  }

  public List<PastPatch> patches() {
    return patches;
  }

  public List<DecidedSection> decisions() {
    return decisions;
  }

  public Assignment assignment() {
    return assignment;
  }

  public Locator locator() {
    return locator;
  }

  public boolean hasAgency() {
    return agencyText.isPresent();
  }

  public Agency agency() {
    return AgencyReader.parse(
        "agency",
        agencyText.orElseThrow(
            () ->
                new NotReady(
                    "the store knows no yards, plants and crews yet: 'import agency FILE' first")),
        crs);
  }

  /** The agency's reading; US customary while no agency is known. */
  public UnitSystem units() {
    return hasAgency() ? agency().units() : UnitSystem.US_CUSTOMARY;
  }

  public HaulGraph haulGraph() {
    if (haulGraph == null) {
      haulGraph = HaulGraph.build(network, onRoads);
    }
    return haulGraph;
  }

  /** Constants of the repairs: the standard ones, the agency's own in their place. */
  public PatchSettings settings() {
    PatchSettings settings = PatchSettings.standard().inWords(units());
    if (!hasAgency()) {
      return settings;
    }
    return PatchOverrides.parse("agency", agencyText.orElseThrow(), settings)
        .withPayload(agency().plan().truckPayloadTonnes());
  }

  /** What the agency sets for renewal; the standard where it says nothing. */
  public RenewalRules renewalRules() {
    return agencyText
        .map(text -> RenewalRulesReader.parse("agency", text, RenewalRules.standard()))
        .orElseGet(RenewalRules::standard);
  }

  public TreatmentRules rules() {
    return rulesText
        .map(text -> TreatmentRulesJson.parse("treatment rules", text))
        .orElseGet(TreatmentRules::standard);
  }

  /** The repair of one defect. */
  public PatchDesign design(Defect defect) {
    return design(defect, new PatchDesigner(rules(), settings()));
  }

  private PatchDesign design(Defect defect, PatchDesigner designer) {
    Route route = network.route(defect.place().routeId()).orElseThrow();
    RoadSettings settings = new RoadSettings(onRoads);
    return designer.design(defect, settings.at(route, defect.place().middleAlongM()));
  }

  /** Repairs of every defect that waits for one. */
  public List<PatchDesign> repairs() {
    PatchDesigner designer = new PatchDesigner(rules(), settings());
    List<PatchDesign> repairs = new ArrayList<>();
    for (Defect d : defects) {
      if (waits(d)) {
        repairs.add(design(d, designer));
      }
    }
    return repairs;
  }

  /** The kept plan with its times and figures worked out by the rules now in force. */
  public Plan plan() {
    if (assignment.days().isEmpty()) {
      throw new NotReady("nothing is planned yet: 'plan' first");
    }
    if (plan == null) {
      plan = planner(agency()).schedule(assignment, repairs());
      plan =
          with(plan, held.stream().map(h -> new Plan.LeftOut(h.defectId(), h.reason())).toList());
    }
    return plan;
  }

  /** Defects that wait for an overlay agreed for this season or the next. */
  public List<HoldTogether.Held> underOverlay(int season) {
    return OverlayHolds.of(decisions, defects, held, season);
  }

  /** Repairs of every defect that is not set aside; also of those set aside no longer. */
  public List<PatchDesign> repairsBeside(List<HoldTogether.Held> setAside) {
    Set<String> aside = setAside.stream().map(h -> h.defect().id()).collect(Collectors.toSet());
    Set<String> before = held.stream().map(HeldDefect::defectId).collect(Collectors.toSet());
    PatchDesigner designer = new PatchDesigner(rules(), settings());
    List<PatchDesign> repairs = new ArrayList<>();
    for (Defect d : defects) {
      boolean back = before.contains(d.id()) && d.status() == DefectStatus.DEFERRED_TO_OVERLAY;
      if ((waits(d) || back) && !aside.contains(d.id())) {
        repairs.add(design(d.withStatus(back ? DefectStatus.OPEN : d.status()), designer));
      }
    }
    return repairs;
  }

  private static boolean waits(Defect d) {
    return d.status() == DefectStatus.OPEN || d.status() == DefectStatus.PLANNED;
  }

  /** The plan with what is set aside for an overlay among what is left out. */
  public static Plan withHeld(Plan planned, List<HoldTogether.Held> setAside) {
    return with(
        planned,
        setAside.stream().map(h -> new Plan.LeftOut(h.defect().id(), h.reason())).toList());
  }

  private static Plan with(Plan planned, List<Plan.LeftOut> more) {
    List<Plan.LeftOut> leftOut = new ArrayList<>(planned.leftOut());
    leftOut.addAll(more);
    return new Plan(planned.days(), leftOut, planned.cost(), planned.currency());
  }

  public CrewDayPlanner planner(Agency agency) {
    return new CrewDayPlanner(Haul.over(haulGraph()), agency, traffic());
  }

  public PlanChecker checker(Agency agency) {
    return new PlanChecker(agency, Haul.over(haulGraph()), traffic());
  }

  private ZoneTraffic traffic() {
    return new TrafficPlanner(settings())::plan;
  }
}
