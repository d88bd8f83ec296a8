package lanemend.county;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Plan;
import lanemend.crewdays.ZoneTraffic;
import lanemend.exchange.AgencyReader;
import lanemend.exchange.CurvesReader;
import lanemend.exchange.ForecastJson;
import lanemend.exchange.PatchOverrides;
import lanemend.exchange.RenewalRulesReader;
import lanemend.exchange.TreatmentRulesJson;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Finding;
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
import lanemend.renewal.overlay.ConditionIndex;
import lanemend.renewal.overlay.PavementRecords;
import lanemend.renewal.program.HoldTogether;
import lanemend.store.DayView;
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

  /** Key of the setting that holds the weather forecast. */
  public static final String FORECAST_SETTING = "forecast";

  /** The deduct curves of the agency, as their file's text. */
  public static final String CURVES_SETTING = "condition_curves";

  /** More rows than this are read again together sooner than one by one. */
  private static final int FEW = 500;

  /** Tables that a change of may leave roads and records as they were read. */
  private static final Set<String> LIGHT_TABLES =
      Set.of(
          "defect",
          "crew_day",
          "work_zone",
          "zone_repair",
          "held_defect",
          "hand_rule",
          "plan_before");

  private final long lastChange;
  private final boolean past;
  private final ProjectedCrs crs;
  private final Network network;
  private final List<RoadAttribute> attributes;
  private final RoadAttributes onRoads;
  private final List<Stored<Defect>> defectRows;
  private final List<Defect> defects;
  private final Assignment assignment;
  private final Optional<String> agencyText;
  private final Optional<String> rulesText;
  private final LocalDate day;
  private final Optional<String> forecastText;
  private final List<PastPatch> patches;
  private final List<Finding> findings;
  private final List<DecidedSection> decisions;
  private final List<HeldDefect> held;
  private final HandRules handRules;
  private final Assignment assignmentBefore;
  private final PavementRecords pavement;
  private final Locator locator;
  private HaulGraph haulGraph;
  private Plan plan;

  private County(Snapshot store, String crsWkt, LocalDate day, boolean past) {
    lastChange = store.lastChange();
    this.past = past;
    crs = ProjectedCrs.fromWkt(crsWkt);
    DayView view = store.onDay(day);
    this.day = day;
    network = view.network();
    attributes = view.facts();
    onRoads = new RoadAttributes(attributes, day);
    defectRows = past ? view.defectRowsKnown() : view.defectRows();
    defects = defectRows.stream().map(Stored::value).toList();
    assignment = store.assignment();
    agencyText = store.setting(AGENCY_SETTING);
    rulesText = store.setting(RULES_SETTING);
    patches = view.patches().stream().filter(p -> !past || !p.doneOn().isAfter(day)).toList();
    findings = view.findings().stream().filter(f -> !past || !f.foundOn().isAfter(day)).toList();
    decisions = view.decisions();
    forecastText = store.setting(FORECAST_SETTING);
    held = store.held().all();
    handRules = new HandRules(store.handRules().all());
    assignmentBefore = store.assignmentBefore();
    pavement = pavement(store);
    locator = new Locator(network, onRoads);
  }

  /** The same roads and records; of the rest, what was written since is read again. */
  private County(Snapshot store, County before, Set<String> defectKeys) {
    lastChange = store.lastChange();
    past = before.past;
    crs = before.crs;
    day = before.day;
    network = before.network;
    attributes = before.attributes;
    onRoads = before.onRoads;
    locator = before.locator;
    haulGraph = before.haulGraph;
    patches = before.patches;
    findings = before.findings;
    decisions = before.decisions;
    defectRows = again(store, before, defectKeys);
    defects =
        defectKeys.isEmpty() ? before.defects : defectRows.stream().map(Stored::value).toList();
    assignment = store.assignment();
    agencyText = before.agencyText;
    rulesText = before.rulesText;
    forecastText = before.forecastText;
    pavement = before.pavement;
    held = store.held().all();
    handRules = new HandRules(store.handRules().all());
    assignmentBefore = store.assignmentBefore();
  }

  private static PavementRecords pavement(Snapshot store) {
    return new PavementRecords(
        store.surveys().all(),
        store.layers().all(),
        store
            .setting(CURVES_SETTING)
            .map(text -> CurvesReader.parse("curves", text))
            .orElse(ConditionIndex.Curves.NONE));
  }

  private static List<Stored<Defect>> again(Snapshot store, County before, Set<String> keys) {
    if (keys.isEmpty()) {
      return before.defectRows;
    }
    List<Stored<Defect>> now = new ArrayList<>(before.defectRows);
    now.removeIf(row -> keys.contains(row.value().id()));
    for (String key : keys) {
      store
          .defects()
          .find(key)
          .filter(row -> before.network.route(row.value().place().routeId()).isPresent())
          .ifPresent(now::add);
    }
    now.sort(Comparator.comparingLong(Stored::row));
    return now;
  }

  /** The roads of today and all that is known of them. */
  public static County read(Store store) {
    return read(store, LocalDate.now(ZoneId.systemDefault()));
  }

  /** The roads as they lie on a day, for what is planned for it, and all that is known of them. */
  public static County read(Store store, LocalDate day) {
    return store.read(s -> new County(s, store.crsWkt(), day, false));
  }

  /** The roads of a day with only what had been found and done by then; null for today. */
  public static County asOf(Store store, LocalDate day) {
    return day == null ? read(store) : store.read(s -> new County(s, store.crsWkt(), day, true));
  }

  /**
   * The county as the store has it now, on the same day: this one when nothing was written since;
   * otherwise another that shares roads and records with this one where only defects or the plan
   * were written.
   */
  public County now(Store store) {
    return store.read(
        s -> {
          if (s.lastChange() == lastChange) {
            return this;
          }
          Map<String, Set<String>> touched = s.touchedSince(lastChange);
          Set<String> defectKeys = touched.getOrDefault("defect", Set.of());
          boolean few = LIGHT_TABLES.containsAll(touched.keySet()) && defectKeys.size() <= FEW;
          return few && !past && onLastEditions()
              ? new County(s, this, defectKeys)
              : new County(s, store.crsWkt(), day, past);
        });
  }

  /** Rows hold where events lie on the last edition of their road. */
  private boolean onLastEditions() {
    return network.routes().values().stream().allMatch(r -> r.edition().validTo() == null);
  }

  public LocalDate day() {
    return day;
  }

  public List<Finding> findings() {
    return findings;
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

  /** What was measured of the pavements in place. */
  public PavementRecords pavement() {
    return pavement;
  }

  public Assignment assignment() {
    return assignment;
  }

  /** The plan before the one that is kept. */
  public Assignment assignmentBefore() {
    return assignmentBefore;
  }

  /** What is settled about the plan by hand. */
  public HandRules handRules() {
    return handRules;
  }

  public Locator locator() {
    return locator;
  }

  public boolean hasAgency() {
    return agencyText.isPresent();
  }

  /** The agency's facts, with the days closed by hand among its crews' days off. */
  public Agency agency() {
    Agency agency =
        AgencyReader.parse(
            "agency",
            agencyText.orElseThrow(
                () ->
                    new NotReady(
                        "the store knows no yards, plants and crews yet: 'import agency FILE' first")),
            crs);
    return handRules.applyTo(
        forecastText
            .map(text -> agency.withForecast(ForecastJson.parse("forecast", text)))
            .orElse(agency));
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
      Agency agency = agency();
      try {
        List<PatchDesign> repairs = plans().inParts(repairs());
        plan = plans().replanner(agency, agency.plan().firstDay()).schedule(assignment, repairs);
      } catch (IllegalArgumentException e) {
        throw new NotReady("the plan no longer fits the roads: " + e.getMessage() + "; plan again");
      }
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

  static boolean waits(Defect d) {
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

  /** Plans of this county. */
  public CountyPlans plans() {
    return new CountyPlans(this, traffic());
  }

  private ZoneTraffic traffic() {
    return new TrafficPlanner(settings())::plan;
  }
}
