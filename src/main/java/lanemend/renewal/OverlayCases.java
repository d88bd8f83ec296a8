package lanemend.renewal;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.RoadAttributes;
import lanemend.inventory.SurveyedDistress;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.network.Network;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.patching.RoadSetting;
import lanemend.patching.RoadSettings;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.overlay.CrackSurvey;
import lanemend.renewal.overlay.DesignTraffic;
import lanemend.renewal.overlay.Economics;
import lanemend.renewal.overlay.FlexibleEquation;
import lanemend.renewal.overlay.LayerTable;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.OverlayRules;
import lanemend.renewal.overlay.PatchingOutlook;
import lanemend.renewal.overlay.PavementRecords;
import lanemend.renewal.overlay.SectionCondition;
import lanemend.renewal.overlay.Sensitivity;

/** Works out what an overlay of a stretch would be and cost, and says what it had to assume. */
public final class OverlayCases {
  private final RenewalStudy study;
  private final Network network;
  private final RoadSettings settings;
  private final List<Defect> defects;
  private final PavementRecords pavement;
  private final OverlayRules rules;

  /**
   * Sets up for one county.
   *
   * @param defects marked on its roads; their cracking tells the asphalt's condition where no
   *     survey does
   * @param pavement what was measured
   */
  public OverlayCases(
      RenewalStudy study,
      Network network,
      RoadAttributes attributes,
      List<Defect> defects,
      PavementRecords pavement,
      OverlayRules rules) {
    this.study = study;
    this.network = network;
    this.settings = new RoadSettings(attributes);
    this.defects = List.copyOf(defects);
    this.pavement = pavement;
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
    List<String> measured = new ArrayList<>();
    Figure loads = traffic(road, assumed).loads();
    FlexibleEquation.Demand demand = demand(road, loads, assumed);
    Optional<SectionCondition> condition = condition(routeId, fromAlongM, toAlongM, areaM2);
    CrackSurvey cracks =
        condition
            .map(c -> surveyed(c, measured))
            .orElseGet(() -> cracks(routeId, fromAlongM, toAlongM, areaM2, assumed));
    LayersInPlace known =
        new LayersInPlace(
            pavement.layers(),
            routeId,
            fromAlongM,
            toAlongM,
            middles(cells),
            surfaced(cells),
            measured);
    List<OverlayDesign.Layer> layers =
        layers(road.roadClass(), known, new Condition(cracks, index(condition)), assumed);
    Optional<OverlayDesign> design;
    List<String> lacking = new ArrayList<>();
    try {
      design = Optional.of(OverlayDesign.of(demand, layers, rules.limits()));
    } catch (IllegalArgumentException beyondTheEquation) {
      // One road on bad ground, or one figure in the wrong unit, must not stop the others.
      design = Optional.empty();
      lacking.add(beyondTheEquation.getMessage());
    }
    Optional<OverlayDesign.Option> chosen = design.flatMap(OverlayDesign::chosen);
    if (design.isPresent() && chosen.isEmpty()) {
      lacking.add("no thickness keeps to the limits, so there is no cost to compare");
    }
    return new OverlayCase(
        Optional.of(loads),
        design,
        chosen.map(o -> costing(routeId, fromAlongM, toAlongM, rules.price().cost(o, areaM2))),
        condition,
        measured,
        assumed,
        lacking);
  }

  /** What the layer table is asked with. */
  private record Condition(CrackSurvey cracks, OptionalDouble index) {}

  private static OptionalDouble index(Optional<SectionCondition> condition) {
    return condition
        .flatMap(SectionCondition::index)
        .map(f -> OptionalDouble.of(f.value()))
        .orElse(OptionalDouble.empty());
  }

  private double[] middles(int[] cells) {
    CellHistories h = study.model().histories();
    return Arrays.stream(cells)
        .mapToDouble(i -> (h.cell(i).fromAlongM() + h.cell(i).toAlongM()) / 2)
        .distinct()
        .toArray();
  }

  private OptionalInt surfaced(int[] cells) {
    return Arrays.stream(cells)
        .mapToObj(this::surfacedOn)
        .flatMap(Optional::stream)
        .mapToInt(LocalDate::getYear)
        .max();
  }

  private Optional<LocalDate> surfacedOn(int cell) {
    double age = study.model().histories().ageNow(cell);
    return Double.isNaN(age)
        ? Optional.empty()
        : Optional.of(
            study
                .settings()
                .exposure()
                .recordsTo()
                .minusDays(Math.round(age * ExposureSettings.DAYS_PER_YEAR)));
  }

  private Optional<SectionCondition> condition(
      String routeId, double from, double to, double areaM2) {
    List<SurveyedDistress> here =
        pavement.survey().stream()
            .filter(d -> d.unit().routeId().equals(routeId))
            .filter(d -> middle(d.unit()) >= from && middle(d.unit()) < to)
            .toList();
    return SectionCondition.of(here, areaM2, this::ofThisSurface, pavement.curves());
  }

  private static double middle(SurveyedDistress.Unit u) {
    return (u.fromAlongM() + u.toAlongM()) / 2;
  }

  private boolean ofThisSurface(SurveyedDistress.Unit u) {
    return Arrays.stream(study.cells(u.routeId(), u.fromAlongM(), u.toAlongM()))
        .mapToObj(this::surfacedOn)
        .flatMap(Optional::stream)
        .noneMatch(day -> day.isAfter(u.surveyedOn()));
  }

  private static CrackSurvey surveyed(SectionCondition c, List<String> measured) {
    LocalDate[] days = c.days();
    measured.add(
        say(
            "cracking from the condition survey of %s: %d sample%s, %.0f %% of the area;"
                + " longitudinal and transverse cracks together, a foot wide (common practice, no"
                + " source)",
            days[0].equals(days[1]) ? days[0] : days[0] + " to " + days[1],
            c.samples().size(),
            c.samples().size() == 1 ? "" : "s",
            c.coveredPercent()));
    return c.cracks();
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
      RoadClass roadClass, LayersInPlace known, Condition condition, List<String> assumed) {
    OverlayRules.Structure s = rules.structures().get(roadClass);
    List<OverlayDesign.Layer> layers = new ArrayList<>();
    layers.add(
        OverlayDesign.Layer.of(
            "asphalt",
            thickness(known, PavementLayer.Course.ASPHALT, s.asphaltM(), roadClass, assumed),
            row(LayerTable.Material.ASPHALT, condition, assumed),
            1));
    LayerTable.Row granular = row(LayerTable.Material.GRANULAR, condition, assumed);
    layers.add(
        OverlayDesign.Layer.of(
            "base",
            thickness(known, PavementLayer.Course.BASE, s.baseM(), roadClass, assumed),
            granular,
            s.drainage()));
    known
        .thickness(PavementLayer.Course.SUBBASE)
        .ifPresent(m -> layers.add(OverlayDesign.Layer.of("subbase", m, granular, s.drainage())));
    assumed.add(say("drainage %.2f of what is not asphalt", s.drainage()));
    return layers;
  }

  private static double thickness(
      LayersInPlace known,
      PavementLayer.Course course,
      double byClass,
      RoadClass roadClass,
      List<String> assumed) {
    OptionalDouble measured = known.thickness(course);
    if (measured.isEmpty()) {
      assumed.add(
          LayersInPlace.inches(byClass)
              + " of "
              + LayersInPlace.name(course)
              + ", by the road's class ("
              + roadClass.name().toLowerCase(Locale.ROOT)
              + "): no core and nothing as built is on record");
    }
    return measured.orElse(byClass);
  }

  private LayerTable.Row row(
      LayerTable.Material material, Condition condition, List<String> assumed) {
    if (condition.index().isEmpty() && rules.layers().asksForIndex(material)) {
      assumed.add(
          "coefficient of "
              + material.name().toLowerCase(Locale.ROOT)
              + " without the condition index the agency's table asks for: there is none");
    }
    return rules
        .layers()
        .row(material, condition.cracks(), condition.index())
        .orElseThrow(
            () -> new IllegalArgumentException("the layer table has no row for " + material));
  }

  private static String say(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }
}
