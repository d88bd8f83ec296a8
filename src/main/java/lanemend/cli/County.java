package lanemend.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.CrewDayPlanner;
import lanemend.crewdays.Haul;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanChecker;
import lanemend.crewdays.ZoneTraffic;
import lanemend.exchange.AgencyReader;
import lanemend.exchange.PatchOverrides;
import lanemend.exchange.TreatmentRulesJson;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.RoadAttributes;
import lanemend.measure.UnitSystem;
import lanemend.network.HaulGraph;
import lanemend.network.HaulMatrix;
import lanemend.network.HaulPlace;
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
  private final Locator locator;
  private HaulGraph haulGraph;
  private Plan plan;

  private County(Snapshot store, String crsWkt) {
    crs = ProjectedCrs.fromWkt(crsWkt);
    network = store.network();
    attributes = store.attributes().all();
    onRoads = new RoadAttributes(attributes);
    defects = store.defects().all();
    assignment = store.assignment();
    agencyText = store.setting(AgencyIntake.SETTING);
    rulesText = store.setting(RulesIntake.SETTING);
    locator = new Locator(network, onRoads);
  }

  static County read(Store store) {
    return store.read(s -> new County(s, store.crsWkt()));
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

  Assignment assignment() {
    return assignment;
  }

  Locator locator() {
    return locator;
  }

  boolean hasAgency() {
    return agencyText.isPresent();
  }

  Agency agency() {
    return AgencyReader.parse(
        "agency",
        agencyText.orElseThrow(
            () ->
                new Refusal(
                    "the store knows no yards, plants and crews yet: 'import agency FILE' first")),
        crs);
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
      if (d.status() == DefectStatus.OPEN || d.status() == DefectStatus.PLANNED) {
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
      plan = planner(agency()).schedule(assignment, repairs());
    }
    return plan;
  }

  CrewDayPlanner planner(Agency agency) {
    return new CrewDayPlanner(haul(), agency, traffic());
  }

  PlanChecker checker(Agency agency) {
    return new PlanChecker(agency, haul(), traffic());
  }

  private ZoneTraffic traffic() {
    return new TrafficPlanner(settings())::plan;
  }

  private Haul haul() {
    HaulGraph graph = haulGraph();
    return (from, to) -> {
      if (from.equals(to)) {
        HaulMatrix whole = graph.between(from.stream().map(County::place).toList());
        return new Haul.Legs(whole.minutes(), whole.km());
      }
      List<HaulPlace> all = new ArrayList<>();
      from.forEach(p -> all.add(place(p)));
      to.forEach(p -> all.add(place(p)));
      HaulMatrix whole = graph.between(all);
      return new Haul.Legs(corner(whole.minutes(), from.size()), corner(whole.km(), from.size()));
    };
  }

  private static HaulPlace place(Haul.Place p) {
    return new HaulPlace(p.label(), p.x(), p.y(), p.routeId(), p.alongM());
  }

  /** Rows of the first places, columns of the rest. */
  private static double[][] corner(double[][] whole, int rows) {
    double[][] corner = new double[rows][];
    for (int i = 0; i < rows; i++) {
      corner[i] = java.util.Arrays.copyOfRange(whole[i], rows, whole[i].length);
    }
    return corner;
  }
}
