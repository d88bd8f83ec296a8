package lanemend.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
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
import lanemend.exchange.Read;
import lanemend.exchange.RoadReader;
import lanemend.inventory.Defect;
import lanemend.network.Assembly;
import lanemend.network.Calibrator;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;
import lanemend.network.RouteAssembler;
import lanemend.network.SourceLine;
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
    defects = DefectReader.read(manifest.defects().get(0), FieldMap.NONE, TODAY);
    placed = places.defects(defects, Set.of());
  }

  private static Read<lanemend.exchange.RawDefect> defects;
  private static Read<Defect> placed;

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
  void theAgencyHasTwoYardsOnePlantAndThreeCrewsThatDoEverythingBetweenThem() {
    Agency agency = AgencyReader.read(manifest.agency().orElseThrow(), crs);
    assertEquals(2, agency.yards().size());
    assertEquals(1, agency.plants().size());
    assertEquals(3, agency.crews().size());
    Set<lanemend.patching.Treatment> done = new java.util.HashSet<>();
    agency.crews().forEach(c -> done.addAll(c.does()));
    done.add(lanemend.patching.Treatment.DEFER_TO_OVERLAY);
    assertEquals(Set.of(lanemend.patching.Treatment.values()), done);
    assertTrue(agency.equipment().stream().anyMatch(e -> !e.outOfService().isEmpty()));
  }
}
