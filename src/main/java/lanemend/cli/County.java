package lanemend.cli;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.CrewDayPlanner;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Haul;
import lanemend.crewdays.OpenPlan;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanChecker;
import lanemend.crewdays.PlanComparison;
import lanemend.crewdays.PlanDifference;
import lanemend.crewdays.Replanner;
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
import lanemend.patching.PartDesigner;
import lanemend.patching.PatchDesign;
import lanemend.patching.PatchDesigner;
import lanemend.patching.PatchSettings;
import lanemend.patching.RepairPart;
import lanemend.patching.RepairParts;
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

/** The county as one moment of the store has it, with the core's parts set up for it. */
final class County {
  private final ProjectedCrs crs;
  private final Network network;
  private final List<RoadAttribute> attributes;
  private final RoadAttributes onRoads;
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
    crs = ProjectedCrs.fromWkt(crsWkt);
    DayView view = store.onDay(day);
    this.day = day;
    network = view.network();
    attributes = view.facts();
    onRoads = new RoadAttributes(attributes, day);
    defects = past ? view.defectsKnown() : view.defects();
    assignment = store.assignment();
    agencyText = store.setting(AgencyIntake.SETTING);
    rulesText = store.setting(RulesIntake.SETTING);
    patches = view.patches().stream().filter(p -> !past || !p.doneOn().isAfter(day)).toList();
    findings = view.findings().stream().filter(f -> !past || !f.foundOn().isAfter(day)).toList();
    decisions = view.decisions();
    forecastText = store.setting(ForecastIntake.SETTING);
    held = store.held().all();
    handRules = new HandRules(store.handRules().all());
    assignmentBefore = store.assignmentBefore();
    pavement =
        new PavementRecords(
            view.surveys(),
            view.layers(),
            store
                .setting(CurvesIntake.SETTING)
                .map(text -> CurvesReader.parse("curves", text))
                .orElse(ConditionIndex.Curves.NONE));
    locator = new Locator(network, onRoads);
  }

  /** The roads of today and all that is known of them. */
  static County read(Store store) {
    return read(store, LocalDate.now(ZoneId.systemDefault()));
  }

  /** The roads as they lie on a day, for what is planned for it, and all that is known of them. */
  static County read(Store store, LocalDate day) {
    return store.read(s -> new County(s, store.crsWkt(), day, false));
  }

  /** The roads of a day with only what had been found and done by then; null for today. */
  static County asOf(Store store, LocalDate day) {
    return day == null ? read(store) : store.read(s -> new County(s, store.crsWkt(), day, true));
  }

  LocalDate day() {
    return day;
  }

  List<Finding> findings() {
    return findings;
  }

  ProjectedCrs crs() {
    return crs;
  }

  Network network() {
    return network;
  }

  List<RoadAttribute> attributes() {
    return attributes;
  }

  List<Defect> defects() {
    return defects;
  }

  RoadAttributes onRoads() {
    return onRoads;
  }

  List<PastPatch> patches() {
    return patches;
  }

  List<DecidedSection> decisions() {
    return decisions;
  }

  /** What was measured of the pavements in place. */
  PavementRecords pavement() {
    return pavement;
  }

  Assignment assignment() {
    return assignment;
  }

  /** The plan before the one that is kept. */
  Assignment assignmentBefore() {
    return assignmentBefore;
  }

  /** What is settled about the plan by hand. */
  HandRules handRules() {
    return handRules;
  }

  Locator locator() {
    return locator;
  }

  boolean hasAgency() {
    return agencyText.isPresent();
  }

  /** The agency's facts, with the days closed by hand among its crews' days off. */
  Agency agency() {
    Agency agency =
        AgencyReader.parse(
            "agency",
            agencyText.orElseThrow(
                () ->
                    new Refusal(
                        "the store knows no yards, plants and crews yet: 'import agency FILE' first")),
            crs);
    return handRules.applyTo(
        forecastText
            .map(text -> agency.withForecast(ForecastJson.parse("forecast", text)))
            .orElse(agency));
  }

  /** The agency's reading; US customary while no agency is known. */
  UnitSystem units() {
    return hasAgency() ? agency().units() : UnitSystem.US_CUSTOMARY;
  }

  HaulGraph haulGraph() {
    if (haulGraph == null) {
      haulGraph = HaulGraph.build(network, onRoads);
    }
    return haulGraph;
  }

  /** Constants of the repairs: the standard ones, the agency's own in their place. */
  PatchSettings settings() {
    PatchSettings settings = PatchSettings.standard().inWords(units());
    if (!hasAgency()) {
      return settings;
    }
    return PatchOverrides.parse("agency", agencyText.orElseThrow(), settings)
        .withPayload(agency().plan().truckPayloadTonnes());
  }

  /** What the agency sets for renewal; the standard where it says nothing. */
  RenewalRules renewalRules() {
    return agencyText
        .map(text -> RenewalRulesReader.parse("agency", text, RenewalRules.standard()))
        .orElseGet(RenewalRules::standard);
  }

  TreatmentRules rules() {
    return rulesText
        .map(text -> TreatmentRulesJson.parse("treatment rules", text))
        .orElseGet(TreatmentRules::standard);
  }

  /** The repair of one defect. */
  PatchDesign design(Defect defect) {
    return design(defect, new PatchDesigner(rules(), settings()));
  }

  private PatchDesign design(Defect defect, PatchDesigner designer) {
    Route route = network.route(defect.place().routeId()).orElseThrow();
    RoadSettings settings = new RoadSettings(onRoads);
    return designer.design(defect, settings.at(route, defect.place().middleAlongM()));
  }

  /** Repairs of every defect that waits for one. */
  List<PatchDesign> repairs() {
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
  Plan plan() {
    if (assignment.days().isEmpty()) {
      throw new Refusal("nothing is planned yet: 'plan' first");
    }
    if (plan == null) {
      Agency agency = agency();
      try {
        List<PatchDesign> repairs = inParts(repairs());
        plan = replanner(agency, agency.plan().firstDay()).schedule(assignment, repairs);
      } catch (IllegalArgumentException e) {
        throw new Refusal("the plan no longer fits the roads: " + e.getMessage() + "; plan again");
      }
      plan =
          with(plan, held.stream().map(h -> new Plan.LeftOut(h.defectId(), h.reason())).toList());
    }
    return plan;
  }

  /** Defects that wait for an overlay agreed for this season or the next. */
  List<HoldTogether.Held> underOverlay(int season) {
    return OverlayHolds.of(decisions, defects, held, season);
  }

  /** Repairs of every defect that is not set aside; also of those set aside no longer. */
  List<PatchDesign> repairsBeside(List<HoldTogether.Held> setAside) {
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
  static Plan withHeld(Plan planned, List<HoldTogether.Held> setAside) {
    return with(
        planned,
        setAside.stream().map(h -> new Plan.LeftOut(h.defect().id(), h.reason())).toList());
  }

  private static Plan with(Plan planned, List<Plan.LeftOut> more) {
    List<Plan.LeftOut> leftOut = new ArrayList<>(planned.leftOut());
    leftOut.addAll(more);
    return new Plan(planned.days(), leftOut, planned.cost(), planned.currency());
  }

  /** A plan without the repairs that wait no longer. */
  Assignment waiting(Assignment of) {
    Set<String> gone = new HashSet<>(of.defectIds());
    Set<String> waiting = new HashSet<>();
    defects.stream().filter(County::waits).forEach(d -> waiting.add(d.id()));
    gone.removeIf(id -> waiting.contains(RepairPart.defectOf(id)));
    return of.without(gone);
  }

  /**
   * Plans again with a plan at hand.
   *
   * @param today crew days before it stay
   */
  Replanner replanner(Agency agency, LocalDate today) {
    return replanner(agency, handRules, today);
  }

  /** As above, with rules that are not in the store yet. */
  Replanner replanner(Agency agency, HandRules rules, LocalDate today) {
    return new Replanner(Haul.over(haulGraph()), agency, traffic(), rules, today);
  }

  /** The kept plan, opened for changes by hand. */
  OpenPlan openPlan(LocalDate today) {
    return new OpenPlan(
        Haul.over(haulGraph()),
        agency(),
        traffic(),
        handRules,
        inParts(repairs()),
        waiting(assignment),
        today);
  }

  /** What is different between two plans, with why. */
  PlanComparison compare(
      HandRules rules, Assignment before, Assignment after, Plan now, LocalDate today) {
    Agency agency = rules.applyTo(agency());
    List<PatchDesign> repairs = inParts(repairs());
    Plan then = replanner(agency, rules, today).schedule(waiting(before), repairs);
    return new PlanDifference(
            Haul.over(haulGraph()),
            agency,
            traffic(),
            rules,
            repairs,
            before,
            waiting(after),
            now,
            today)
        .compare(then);
  }

  /** Repairs as the kept plan cuts them, and cut where they are too long for a day. */
  List<PatchDesign> inParts(List<PatchDesign> repairs) {
    return planner(agency()).inParts(repairs, assignment);
  }

  CrewDayPlanner planner(Agency agency) {
    return new CrewDayPlanner(Haul.over(haulGraph()), agency, traffic(), parts());
  }

  PlanChecker checker(Agency agency) {
    return new PlanChecker(agency, Haul.over(haulGraph()), traffic(), parts());
  }

  private RepairParts parts() {
    return new PartDesigner(
        new PatchDesigner(rules(), settings()),
        settings(),
        (route, along) -> locator.pointAt(route, along, 0).map(p -> new double[] {p.x(), p.y()}));
  }

  private ZoneTraffic traffic() {
    return new TrafficPlanner(settings())::plan;
  }
}
