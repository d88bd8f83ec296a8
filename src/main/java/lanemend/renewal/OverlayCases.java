package lanemend.renewal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.RoadAttributes;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.network.Network;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.patching.RoadSetting;
import lanemend.patching.RoadSettings;
import lanemend.renewal.overlay.CrackSurvey;
import lanemend.renewal.overlay.DesignTraffic;
import lanemend.renewal.overlay.Economics;
import lanemend.renewal.overlay.FlexibleEquation;
import lanemend.renewal.overlay.LayerTable;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.OverlayRules;
import lanemend.renewal.overlay.PatchingOutlook;
import lanemend.renewal.overlay.Sensitivity;

/** Works out what an overlay of a stretch would be and cost, and says what it had to assume. */
public final class OverlayCases {
  private final RenewalStudy study;
  private final Network network;
  private final RoadSettings settings;
  private final List<Defect> defects;
  private final OverlayRules rules;

  /**
   * Sets up for one county.
   *
   * @param defects marked on its roads; their cracking tells the asphalt's condition
   */
  public OverlayCases(
      RenewalStudy study,
      Network network,
      RoadAttributes attributes,
      List<Defect> defects,
      OverlayRules rules) {
    this.study = study;
    this.network = network;
    this.settings = new RoadSettings(attributes);
    this.defects = List.copyOf(defects);
    this.rules = rules;
  }

  /** The case of one stretch, as far as its data reach. */
  public OverlayCase of(String routeId, double fromAlongM, double toAlongM) {
    Optional<Route> route = network.route(routeId);
    if (route.isEmpty()) {
      return OverlayCase.lacking(List.of("route " + routeId + " is no current road"));
    }
    int[] cells = study.cells(routeId, fromAlongM, toAlongM);
    if (cells.length == 0) {
      return OverlayCase.lacking(List.of("no cell of the study has its middle on the stretch"));
    }
    RoadSetting road = settings.at(route.get(), (fromAlongM + toAlongM) / 2);
    double laneM = 0;
    for (int i : cells) {
      laneM += study.model().histories().cell(i).lengthM();
    }
    double areaM2 = laneM * road.laneWidthM();
    List<String> assumed = new ArrayList<>(road.assumed());
    Figure loads = traffic(road, assumed).loads();
    FlexibleEquation.Demand demand = demand(road, loads, assumed);
    List<OverlayDesign.Layer> layers =
        layers(road.roadClass(), cracks(routeId, fromAlongM, toAlongM, areaM2, assumed), assumed);
    OverlayDesign design;
    try {
      design = OverlayDesign.of(demand, layers, rules.limits());
    } catch (IllegalArgumentException beyondTheEquation) {
      // One road on bad ground, or one figure in the wrong unit, must not stop the others.
      return new OverlayCase(
          Optional.of(loads),
          Optional.empty(),
          Optional.empty(),
          assumed,
          List.of(beyondTheEquation.getMessage()));
    }
    if (design.chosen().isEmpty()) {
      return new OverlayCase(
          Optional.of(loads),
          Optional.of(design),
          Optional.empty(),
          assumed,
          List.of("no thickness keeps to the limits, so there is no cost to compare"));
    }
    Figure cost = rules.price().cost(design.chosen().get(), areaM2);
    return new OverlayCase(
        Optional.of(loads),
        Optional.of(design),
        Optional.of(costing(routeId, fromAlongM, toAlongM, cost)),
        assumed,
        List.of());
  }

  private OverlayCase.Costing costing(String routeId, double from, double to, Figure cost) {
    Economics economics =
        new Economics(
            cost.value(),
            rules.lifeYears(),
            study.settings().repairCost(),
            rules.discountRate(),
            rules.analysisYears(),
            rules.kept());
    PatchingOutlook outlook = study.outlook(routeId, from, to, rules.analysisYears());
    return OverlayCase.Costing.of(
        cost, economics, outlook, study.settings().draws(), Sensitivity.Swing.STANDARD);
  }

  private DesignTraffic traffic(RoadSetting road, List<String> assumed) {
    OverlayRules.Traffic t = rules.traffic();
    int lanesOneWay = Math.max(1, road.oneDirection() ? road.lanes() : road.lanes() / 2);
    // AASHTO Guide 1993, part II: 100 % on one lane, 80 to 100 on two, 60 to 80 on three, 50 to 75
    // on more (from memory); middles.
    double laneShare =
        switch (lanesOneWay) {
          case 1 -> 1.0;
          case 2 -> 0.9;
          case 3 -> 0.7;
          default -> 0.625;
        };
    assumed.add(
        say(
            "%.2f equivalent axle loads a truck, traffic growing %.1f %% a year, %d years",
            t.loadsPerTruck(), 100 * t.growth(), t.designYears()));
    return new DesignTraffic(
        Math.max(1, road.aadt()),
        Math.max(0.001, road.truckShare()),
        t.loadsPerTruck(),
        road.oneDirection() ? 1 : 0.5,
        laneShare,
        t.growth(),
        t.designYears());
  }

  private FlexibleEquation.Demand demand(RoadSetting road, Figure loads, List<String> assumed) {
    OverlayRules.Soil soil = rules.soil();
    double reliability = soil.reliability().get(road.roadClass());
    assumed.add(
        say(
            "subgrade %.0f psi (%.0f kPa), reliability %.0f %%, loss of serviceability %.1f",
            soil.subgradeKpa() / Conversion.KPA_PER_PSI,
            soil.subgradeKpa(),
            100 * reliability,
            soil.psiLoss()));
    return new FlexibleEquation.Demand(
        loads.value(), reliability, soil.overallSd(), soil.subgradeKpa(), soil.psiLoss());
  }

  private CrackSurvey cracks(
      String routeId, double from, double to, double areaM2, List<String> assumed) {
    List<Defect> here =
        defects.stream()
            .filter(d -> d.place().routeId().equals(routeId))
            .filter(d -> d.place().middleAlongM() >= from && d.place().middleAlongM() < to)
            .filter(d -> d.status() != DefectStatus.WITHDRAWN && d.status() != DefectStatus.DONE)
            .toList();
    assumed.add(
        here.isEmpty()
            ? "no cracking, as no defect is marked there"
            : "cracking as the marked defects show it, a lower bound");
    return CrackSurvey.ofDefects(here, areaM2, false);
  }

  private List<OverlayDesign.Layer> layers(
      RoadClass roadClass, CrackSurvey survey, List<String> assumed) {
    OverlayRules.Structure s = rules.structures().get(roadClass);
    assumed.add(
        say(
            "%.1f in (%.0f mm) of asphalt on %.1f in (%.0f mm) of base, drainage %.2f",
            s.asphaltM() / Conversion.M_PER_IN,
            1000 * s.asphaltM(),
            s.baseM() / Conversion.M_PER_IN,
            1000 * s.baseM(),
            s.drainage()));
    return List.of(
        OverlayDesign.Layer.of(
            "asphalt", s.asphaltM(), row(LayerTable.Material.ASPHALT, survey), 1),
        OverlayDesign.Layer.of(
            "base", s.baseM(), row(LayerTable.Material.GRANULAR, survey), s.drainage()));
  }

  private LayerTable.Row row(LayerTable.Material material, CrackSurvey survey) {
    return rules
        .layers()
        .row(material, survey, java.util.OptionalDouble.empty())
        .orElseThrow(
            () -> new IllegalArgumentException("the layer table has no row for " + material));
  }

  private static String say(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }
}
