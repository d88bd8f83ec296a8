package lanemend.county;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
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
import lanemend.crewdays.learning.PlannedWork;
import lanemend.exchange.AgencyReader;
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
import lanemend.patching.LearnedFactors;
import lanemend.patching.PatchDesign;
import lanemend.patching.PatchDesigner;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSettings;
import lanemend.patching.TreatmentRules;
import lanemend.patching.traffic.TrafficPlanner;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.RenewalRules;
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

  private final CountyRecords records;
  private final CountyJob job;

  /** Of two that ask at once the second waits for the first: the plan's lock, then the graph's. */
  private final Object planLock = new Object();

  private final Object graphLock = new Object();
  private HaulGraph haulGraph;
  private Plan plan;

  /** Worked out when first asked for; a county never changes, so they stay true. */
  private final Once<Agency> agency = new Once<>(this::readAgency);

  private final Once<List<PatchDesign>> repairs = new Once<>(this::designAll);

  private final Once<List<PatchDesign>> inParts =
      new Once<>(() -> plans().planner(agency()).inParts(repairs(), assignment()));

  private County(CountyRecords records, CountyJob job, HaulGraph haulGraph) {
    this.records = records;
    this.job = job;
    this.haulGraph = haulGraph;
  }

  /** The roads of today and all that is known of them. */
  public static County read(Store store) {
    return read(store, LocalDate.now(ZoneId.systemDefault()));
  }

  /** The roads as they lie on a day, for what is planned for it, and all that is known of them. */
  public static County read(Store store, LocalDate day) {
    return store.read(s -> whole(s, store.crsWkt(), day, false));
  }

  /** The roads of a day with only what had been found and done by then; null for today. */
  public static County asOf(Store store, LocalDate day) {
    return day == null ? read(store) : store.read(s -> whole(s, store.crsWkt(), day, true));
  }

  private static County whole(Snapshot store, String crsWkt, LocalDate day, boolean past) {
    DayView view = store.onDay(day);
    CountyRecords records = CountyRecords.read(store, view, crsWkt, past);
    return new County(records, CountyJob.read(store, view, past), null);
  }

  /**
   * The county as the store has it now, on the same day: this one when nothing was written since;
   * otherwise another that shares roads and records with this one where only defects, the plan or
   * work done were written.
   */
  public County now(Store store) {
    return store.read(
        s -> {
          if (s.lastChange() == job.lastChange()) {
            return this;
          }
          Map<String, Set<String>> touched = s.touchedSince(job.lastChange());
          boolean fewOnly =
              !records.past() && records.onLastEditions() && CountyJob.coverAll(touched);
          Optional<CountyRecords> still =
              fewOnly ? records.withWorkDone(s, touched) : Optional.empty();
          return still
              .map(r -> new County(r, job.again(s, r.network(), touched), graphAtHand()))
              .orElseGet(() -> whole(s, store.crsWkt(), records.day(), records.past()));
        });
  }

  public LocalDate day() {
    return records.day();
  }

  public List<Finding> findings() {
    return records.findings();
  }

  /** Grows with every change of the store, by whatever program. */
  public long lastChange() {
    return job.lastChange();
  }

  /** Every defect with its row and version. */
  public List<Stored<Defect>> defectRows() {
    return job.defectRows();
  }

  public ProjectedCrs crs() {
    return records.crs();
  }

  public Network network() {
    return records.network();
  }

  public List<RoadAttribute> attributes() {
    return records.attributes();
  }

  public List<Defect> defects() {
    return job.defects();
  }

  public RoadAttributes onRoads() {
    return records.onRoads();
  }

  public List<PastPatch> patches() {
    return records.patches();
  }

  public List<DecidedSection> decisions() {
    return records.decisions();
  }

  /** What was measured of the pavements in place. */
  public PavementRecords pavement() {
    return records.pavement();
  }

  public Assignment assignment() {
    return job.assignment();
  }

  /** The plan before the one that is kept. */
  public Assignment assignmentBefore() {
    return job.assignmentBefore();
  }

  /** What is settled about the plan by hand. */
  public HandRules handRules() {
    return job.handRules();
  }

  public Locator locator() {
    return records.locator();
  }

  public boolean hasAgency() {
    return records.agencyText().isPresent();
  }

  /** The agency file's text as it was given; empty while no agency is known. */
  Optional<String> agencyText() {
    return records.agencyText();
  }

  /** The agency's facts, with the days closed by hand among its crews' days off. */
  public Agency agency() {
    return agency.get();
  }

  private Agency readAgency() {
    Agency agency =
        AgencyReader.parse(
            "agency",
            records
                .agencyText()
                .orElseThrow(
                    () ->
                        new NotReady(
                            "the store knows no yards, plants and crews yet: 'import agency FILE' first")),
            records.crs());
    Agency learned = agency.withLearned(records.learned());
    return job.handRules()
        .applyTo(
            records
                .forecastText()
                .map(text -> learned.withForecast(ForecastJson.parse("forecast", text)))
                .orElse(learned));
  }

  /** The agency's reading; US customary while no agency is known. */
  public UnitSystem units() {
    return hasAgency() ? agency().units() : UnitSystem.US_CUSTOMARY;
  }

  public HaulGraph haulGraph() {
    synchronized (graphLock) {
      if (haulGraph == null) {
        haulGraph = HaulGraph.build(records.network(), records.onRoads());
      }
      return haulGraph;
    }
  }

  /** The graph if it is built, else null. */
  private HaulGraph graphAtHand() {
    synchronized (graphLock) {
      return haulGraph;
    }
  }

  /** Constants of the repairs: the standard ones, the agency's own in their place. */
  public PatchSettings settings() {
    PatchSettings settings = PatchSettings.standard().inWords(units()).withLearned(learned());
    if (!hasAgency()) {
      return settings;
    }
    return PatchOverrides.parse("agency", records.agencyText().orElseThrow(), settings)
        .withPayload(agency().plan().truckPayloadTonnes());
  }

  /** Factors that done work gave and somebody accepted. */
  public LearnedFactors learned() {
    return records.learned();
  }

  /** What was planned of past patches, by their ids. */
  public Map<String, PlannedWork> plannedWork() {
    return records.plannedWork();
  }

  /** The same county as it would be with these factors in force. */
  public County withLearned(LearnedFactors factors) {
    return new County(records.withLearned(factors), job, graphAtHand());
  }

  /** What the agency sets for renewal; the standard where it says nothing. */
  public RenewalRules renewalRules() {
    return records
        .agencyText()
        .map(text -> RenewalRulesReader.parse("agency", text, RenewalRules.standard()))
        .orElseGet(RenewalRules::standard);
  }

  public TreatmentRules rules() {
    return records
        .rulesText()
        .map(text -> TreatmentRulesJson.parse("treatment rules", text))
        .orElseGet(TreatmentRules::standard);
  }

  /** The repair of one defect. */
  public PatchDesign design(Defect defect) {
    return design(defect, new PatchDesigner(rules(), settings(), job.chosen()));
  }

  private PatchDesign design(Defect defect, PatchDesigner designer) {
    Route route = records.network().route(defect.place().routeId()).orElseThrow();
    RoadSettings settings = new RoadSettings(records.onRoads());
    return designer.design(defect, settings.at(route, defect.place().middleAlongM()));
  }

  /** Repairs of every defect that waits for one. */
  public List<PatchDesign> repairs() {
    return repairs.get();
  }

  /** The same as the kept plan cuts them, and cut where they are too long for a day. */
  public List<PatchDesign> repairsInParts() {
    return inParts.get();
  }

  private List<PatchDesign> designAll() {
    PatchDesigner designer = new PatchDesigner(rules(), settings(), job.chosen());
    return job.defects().parallelStream()
        .filter(County::waits)
        .map(d -> design(d, designer))
        .toList();
  }

  /** The kept plan with its times and figures worked out by the rules now in force. */
  public Plan plan() {
    if (job.assignment().days().isEmpty()) {
      throw new NotReady("nothing is planned yet: 'plan' first");
    }
    synchronized (planLock) {
      if (plan == null) {
        plan = scheduled();
      }
      return plan;
    }
  }

  private Plan scheduled() {
    Agency agency = agency();
    try {
      return with(
          plans()
              .replanner(agency, agency.plan().firstDay())
              .schedule(job.assignment(), repairsInParts()),
          job.held().stream().map(h -> new Plan.LeftOut(h.defectId(), h.reason())).toList());
    } catch (IllegalArgumentException e) {
      throw new NotReady("the plan no longer fits the roads: " + e.getMessage() + "; plan again");
    }
  }

  /** Defects that wait for an overlay agreed for this season or the next. */
  public List<HoldTogether.Held> underOverlay(int season) {
    return OverlayHolds.of(records.decisions(), job.defects(), job.held(), season);
  }

  /** Repairs of every defect that is not set aside; also of those set aside no longer. */
  public List<PatchDesign> repairsBeside(List<HoldTogether.Held> setAside) {
    Set<String> aside = setAside.stream().map(h -> h.defect().id()).collect(Collectors.toSet());
    Set<String> before = job.held().stream().map(HeldDefect::defectId).collect(Collectors.toSet());
    PatchDesigner designer = new PatchDesigner(rules(), settings(), job.chosen());
    return job.defects().parallelStream()
        .filter(d -> (waits(d) || isBack(d, before)) && !aside.contains(d.id()))
        .map(d -> design(isBack(d, before) ? d.withStatus(DefectStatus.OPEN) : d, designer))
        .toList();
  }

  private static boolean isBack(Defect d, Set<String> before) {
    return before.contains(d.id()) && d.status() == DefectStatus.DEFERRED_TO_OVERLAY;
  }

  /** Repairs of those of these defects that wait for one. */
  List<PatchDesign> repairs(Set<String> ofDefects) {
    PatchDesigner designer = new PatchDesigner(rules(), settings(), job.chosen());
    return job.defects().stream()
        .filter(d -> waits(d) && ofDefects.contains(d.id()))
        .map(d -> design(d, designer))
        .toList();
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
