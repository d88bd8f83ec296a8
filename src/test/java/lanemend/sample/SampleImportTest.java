package lanemend.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import lanemend.crewdays.Agency;
import lanemend.exchange.AgencyReader;
import lanemend.exchange.AttributeReader;
import lanemend.exchange.CountyManifest;
import lanemend.exchange.DefectReader;
import lanemend.exchange.EventLocator;
import lanemend.exchange.FieldMap;
import lanemend.exchange.FindingReader;
import lanemend.exchange.LaneCounts;
import lanemend.exchange.PatchReader;
import lanemend.exchange.PostReader;
import lanemend.exchange.RawDefect;
import lanemend.exchange.Read;
import lanemend.exchange.RoadReader;
import lanemend.inventory.AttributeRuns;
import lanemend.inventory.Defect;
import lanemend.inventory.RoadAttributes;
import lanemend.network.Assembly;
import lanemend.network.Calibrator;
import lanemend.network.Connector;
import lanemend.network.GraphReport;
import lanemend.network.HaulGraph;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;
import lanemend.network.RouteAssembler;
import lanemend.network.SourceLine;
import lanemend.network.TravelRules;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real importer reads every row, and finds every road and defect where the generator put it.
 */
class SampleImportTest {
  private static final County COUNTY = Counties.STANDARD;
  private static final LocalDate TODAY = LocalDate.of(2026, 5, 1);

  /** Written mileposts round to 0.8 m, but both sides read the same number. */
  private static final double AGREE_M = 0.05;

  private static CountyManifest manifest;
  private static Assembly assembly;
  private static Calibrator.CalibratedNetwork calibrated;
  private static ProjectedCrs crs;
  private static EventLocator places;
  private static Read<Defect> placed;

  @BeforeAll
  static void importTheCounty(@TempDir Path folder) throws IOException {
    FolderWriter.write(COUNTY, folder);
    manifest = CountyManifest.read(folder);
    Read<SourceLine> lines = RoadReader.read(manifest.roads());
    assertEquals(List.of(), lines.problems());
    assertEquals(List.of(), lines.warnings());
    assertEquals(COUNTY.lines().size(), lines.rows().size());
    crs = ProjectedCrs.utmFor(-107.55, 42.05);
    assembly = RouteAssembler.assemble(lines.rows(), crs);
    EventLocator.PlacedPosts posts =
        locator(assembly.network())
            .posts(PostReader.read(manifest.posts().orElseThrow(), FieldMap.NONE));
    assertEquals(List.of(), posts.read().problems());
    calibrated = Calibrator.calibrate(assembly.network(), posts.byRoute());
    places = locator(calibrated.network());
    Read<RawDefect> defects = DefectReader.read(manifest.defects().get(0), FieldMap.NONE, TODAY);
    placed = places.defects(defects, Set.of());
  }

  private static EventLocator locator(Network network) {
    return new EventLocator(network, new Locator(network), LaneCounts.UNKNOWN);
  }

  @Test
  void nothingHadToBeMendedOrLeftOut() {
    assertEquals(List.of(), assembly.notes());
    assertEquals(List.of(), calibrated.notes());
  }

  @Test
  void everyRouteHasItsGeodesicLengthAndItsMileposts() {
    assertEquals(COUNTY.roads().size(), calibrated.network().routes().size());
    for (Roadway r : COUNTY.roads()) {
      Route route = calibrated.network().route(r.id()).orElseThrow();
      assertEquals(1, route.parts().size(), r.id());
      // GeographicLib's geodesics between written vertices are the outside value here.
      assertEquals(r.lengthM(), route.lengthM(), 1e-6 * r.lengthM(), r.id());
      for (double m = 0; m < r.lengthM(); m += 211) {
        assertEquals(
            r.mileposts().at(m).miles(), route.mileposts().at(m).miles(), 1e-4, r.id() + " " + m);
      }
    }
  }

  @Test
  void everyDefectIsFoundWhereItWasPut() {
    assertEquals(List.of(), placed.problems());
    assertEquals(COUNTY.defects().size(), placed.rows().size());
    for (int i = 0; i < placed.rows().size(); i++) {
      Patrol.DefectRow truth = COUNTY.defects().get(i);
      Defect found = placed.rows().get(i);
      assertEquals(truth.road().id(), found.place().routeId(), found.id());
      // A phone may be 9 m off each way.
      double tolerance = truth.point() == null ? AGREE_M : 13;
      assertEquals(truth.alongM(), found.place().middleAlongM(), tolerance, found.id());
    }
  }

  @Test
  void trucksCanReachEveryRoadAndComeBack() {
    RoadAttributes rules = new RoadAttributes(AttributeRuns.of(assembly));
    GraphReport report = HaulGraph.build(calibrated.network(), rules).report();
    assertEquals(1, report.parts());
    assertEquals(List.of(), report.unreachableRoutes());
    assertEquals(0, report.oneWayTrapKm(), 0.001);
  }

  @Test
  void theRoadOverTheFreewayDoesNotMeetIt() {
    RoadAttributes rules = new RoadAttributes(AttributeRuns.of(assembly));
    Route over =
        calibrated.network().routes().values().stream()
            .filter(r -> r.name().startsWith("CR") && levels(r, rules).contains(1))
            .findFirst()
            .orElseThrow();
    // Without the level the crossing would join the roads: two more links on each roadway.
    int links = HaulGraph.build(calibrated.network(), rules).report().links();
    TravelRules flat = new OnTheGround(rules, over.id());
    int joined = HaulGraph.build(calibrated.network(), flat).report().links();
    assertEquals(links + 4, joined);
  }

  private static Set<Integer> levels(Route r, TravelRules rules) {
    Set<Integer> out = new HashSet<>();
    for (double m = 10; m < r.lengthM(); m += 20) {
      out.add(rules.level(r, m));
    }
    return out;
  }

  /** The same rules with one route laid on the ground. */
  private record OnTheGround(TravelRules rules, String routeId) implements TravelRules {
    @Override
    public double speedKmh(Route route, double alongM) {
      return rules.speedKmh(route, alongM);
    }

    @Override
    public double speedKmh(Connector connector) {
      return rules.speedKmh(connector);
    }

    @Override
    public boolean oneWay(Route route, double alongM) {
      return rules.oneWay(route, alongM);
    }

    @Override
    public boolean oneWay(Connector connector) {
      return rules.oneWay(connector);
    }

    @Override
    public int level(Route route, double alongM) {
      return route.id().equals(routeId) ? 0 : rules.level(route, alongM);
    }

    @Override
    public int level(Connector connector) {
      return rules.level(connector);
    }

    @Override
    public double[] breaks(Route route) {
      return rules.breaks(route);
    }
  }

  @Test
  void everyOtherRowIsTaken() {
    assertEquals(
        List.of(),
        places
            .findings(
                FindingReader.read(manifest.findings().get(0), FieldMap.NONE, TODAY), Set.of())
            .problems());
    Read<?> patches =
        places.patches(PatchReader.read(manifest.patches().get(0), FieldMap.NONE, TODAY), Set.of());
    assertEquals(List.of(), patches.problems());
    assertEquals(COUNTY.history().size(), patches.rows().size());
    Read<?> attributes =
        places.attributes(AttributeReader.read(manifest.attributes().orElseThrow(), FieldMap.NONE));
    assertEquals(List.of(), attributes.problems());
    assertEquals(List.of(), attributes.notes());
  }

  @Test
  void theAgencyHasTwoYardsAPlantAStockpileAndThreeCrewsThatDoEverythingBetweenThem() {
    Agency agency = AgencyReader.read(manifest.agency().orElseThrow(), crs);
    assertEquals(2, agency.yards().size());
    assertEquals(2, agency.plants().size());
    assertEquals(1, agency.plants().stream().filter(p -> p.isStockpile()).count());
    assertEquals(3, agency.crews().size());
    Set<Treatment> done = new HashSet<>(Set.of(Treatment.DEFER_TO_OVERLAY));
    agency.crews().forEach(c -> done.addAll(c.does()));
    assertEquals(Set.of(Treatment.values()), done);
    assertTrue(agency.equipment().stream().anyMatch(e -> !e.outOfService().isEmpty()));
  }
}
