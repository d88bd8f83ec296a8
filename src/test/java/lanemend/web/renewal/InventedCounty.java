package lanemend.web.renewal;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import lanemend.crewdays.Agency;
import lanemend.crewdays.PlanSettings;
import lanemend.inventory.Entered;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.RoadAttributes;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.measure.UnitSystem;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.Lane;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.renewal.RenewalSettings;
import lanemend.renewal.RenewalStudy;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.exposure.Families;
import lanemend.renewal.overlay.DesignTraffic;
import lanemend.renewal.overlay.Economics;
import lanemend.renewal.overlay.FlexibleEquation.Demand;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.OverlayPrice;
import lanemend.renewal.overlay.Sensitivity;
import lanemend.renewal.repairs.FitOptions;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.repairs.RepairForecast.Draws;
import lanemend.renewal.sections.Cluster;
import lanemend.renewal.sections.ScanSettings;
import lanemend.renewal.sections.Sectioning;

/**
 * Six straight invented roads of five miles, two lanes, surfaced in 2001, records of 2016 to 2025;
 * SR 7 fails ten times as often between miles 2 and 3.
 */
final class InventedCounty {
  private static final double MILE = Conversion.M_PER_MILE;
  private static final double LENGTH = 5 * MILE;

  private InventedCounty() {}

  static EvidenceContext context(UnitSystem units) {
    Map<String, Route> routes = new LinkedHashMap<>();
    List<RoadAttribute> rows = new ArrayList<>();
    for (int r = 0; r < 6; r++) {
      Route route = road("SR " + (7 + r), 1000.0 * r);
      routes.put(route.id(), route);
      rows.add(new RoadAttribute(route.id(), 0, LENGTH, "lanes", "2", LocalDate.EPOCH, null));
      rows.add(new RoadAttribute(route.id(), 0, LENGTH, "aadt", "900", LocalDate.EPOCH, null));
      rows.add(
          new RoadAttribute(
              route.id(), 0, LENGTH, "last_surfacing", "2001", LocalDate.EPOCH, null));
    }
    RoadAttributes attributes = new RoadAttributes(rows);
    RenewalStudy study =
        RenewalStudy.of(routes.values(), attributes, repairs(routes.values()), settings());
    return new EvidenceContext(
        agency(units), new Network("", routes, List.of()), attributes, study);
  }

  private static RenewalSettings settings() {
    return new RenewalSettings(
        ExposureSettings.standard(LocalDate.of(2016, 1, 1), LocalDate.of(2026, 1, 1)),
        new Families(List.of()),
        List.of(),
        FitOptions.FULL,
        new ScanSettings(482.8, 4828, ScanSettings.Chance.FRAILTY, 199, 20, 0.05, 7),
        Sectioning.Settings.STANDARD,
        new RepairCost(600, 200),
        new Draws(400, 7, 0.90),
        List.of(1));
  }

  private static Route road(String id, double y) {
    return new Route(
        id,
        id,
        "",
        RoadClass.COLLECTOR,
        List.of(
            new CenterlinePart(
                new double[] {0, LENGTH}, new double[] {y, y}, new double[] {0, LENGTH})),
        PiecewiseMileposts.uncalibrated(LENGTH),
        new Edition(1, LocalDate.EPOCH, null));
  }

  private static List<PastPatch> repairs(Iterable<Route> routes) {
    SplittableRandom random = new SplittableRandom(20_260_504L);
    List<PastPatch> patches = new ArrayList<>();
    for (Route route : routes) {
      for (int cell = 0; cell < 50; cell++) {
        boolean weak = route.id().equals("SR 7") && cell >= 20 && cell < 30;
        for (int year = 2016; year < 2026; year++) {
          for (String lane : new String[] {"L1", "R1"}) {
            if (random.nextDouble() < (weak ? 0.4 : 0.04)) {
              double along = (cell + random.nextDouble()) * MILE / 10;
              LocalDate on = LocalDate.of(year, 1 + random.nextInt(12), 15);
              double tonnes = 1 + random.nextDouble();
              patches.add(patch("P" + patches.size(), route.id(), along, lane, on, tonnes));
            }
          }
        }
      }
    }
    return patches;
  }

  private static PastPatch patch(
      String id, String route, double along, String lane, LocalDate on, double tonnes) {
    Place place = new Place(route, along, along, along, 0, Entered.byMilepost(route, "0", null));
    return new PastPatch(
        id, "blade_patch", place, Lane.parse(lane).orElseThrow(), on, tonnes, null, null);
  }

  private static Agency agency(UnitSystem units) {
    PlanSettings plan =
        new PlanSettings(
            null, 0, null, null, null, null, null, 0, 0, 0, null, null, null, null, "USD");
    return new Agency(
        "Roads & <Bridges>, invented", units, List.of(), List.of(), List.of(), List.of(), plan);
  }

  /**
   * The Guide's nomograph demand over the layers worked by hand in docs/renewal.md: 5 in at 0.25,
   * 12 in at 0.12.
   */
  static OverlayCase overlay(EvidenceContext context, Cluster c) {
    Figure loads = new DesignTraffic(900, 0.1, 1, 0.5, 1, 0.02, 20).loads();
    OverlayDesign design =
        OverlayDesign.of(
            new Demand(5e6, 0.95, 0.35, 5000 * Conversion.KPA_PER_PSI, 1.9),
            List.of(
                new OverlayDesign.Layer("asphalt", 5 * Conversion.M_PER_IN, 0.25, 1, "cracked"),
                new OverlayDesign.Layer("gravel", 12 * Conversion.M_PER_IN, 0.12, 1, "clean")),
            new OverlayDesign.Limits(
                0.44,
                1.5 * Conversion.M_PER_IN,
                0,
                6 * Conversion.M_PER_IN,
                1.0 * Conversion.M_PER_IN));
    Figure cost =
        new OverlayPrice(5_000, 90, 0.5)
            .cost(design.chosen().orElseThrow(), 7 * (c.toAlongM() - c.fromAlongM()));
    Economics e = new Economics(60_000, 15, new RepairCost(600, 200), 0.03, 20, 0);
    return new OverlayCase(
        Optional.of(loads),
        Optional.of(design),
        Optional.of(
            OverlayCase.Costing.of(
                cost,
                e,
                context.study().outlook(c.routeId(), c.fromAlongM(), c.toAlongM(), 20),
                context.study().settings().draws(),
                Sensitivity.Swing.STANDARD)),
        Optional.empty(),
        List.of(),
        List.of("Layers are invented."),
        List.of());
  }
}
